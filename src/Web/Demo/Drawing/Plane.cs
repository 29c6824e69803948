using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>How a shape changes a plane: <c>Lay</c> puts another layer on, <c>Cut</c> takes away, <c>Lift</c> adds plainly.</summary>
internal enum Blend { Lay, Cut, Lift }

/// <summary>One channel of a drawing: a value for each pixel, changed by anti-aliased shapes.</summary>
internal sealed class Plane
{
    private readonly float[] edges;

    public Plane(int width, int height, float start = 0)
    {
        Width = width;
        Height = height;
        Values = new float[width * height];
        edges = new float[width + 2];
        Array.Fill(Values, start);
    }

    public int Width { get; }

    public int Height { get; }

    public float[] Values { get; }

    /// <summary>What is drawn shows only where this plane is above 0.</summary>
    public Plane? Clip { get; set; }

    /// <summary>Fills a polygon that does not cross itself.</summary>
    public void Fill(ReadOnlySpan<Vector2> shape, float amount, Blend blend = Blend.Lay)
    {
        float top = float.MaxValue, bottom = float.MinValue;
        foreach (var point in shape)
        {
            top = MathF.Min(top, point.Y);
            bottom = MathF.Max(bottom, point.Y);
        }

        var last = Math.Min(Height - 1, (int)MathF.Ceiling(bottom));
        for (var y = Math.Max(0, (int)MathF.Floor(top)); y <= last; y++)
        {
            Array.Clear(edges);
            var (from, to) = (Width, 0);
            for (var i = 0; i < shape.Length; i++)
            {
                Cover(shape[i], shape[(i + 1) % shape.Length], y, ref from, ref to);
            }

            float sum = 0;
            for (var x = from; x < to; x++)
            {
                sum += edges[x];
                var cover = MathF.Min(1, MathF.Abs(sum));
                if (cover > 0.003f) Touch(x, y, cover * amount, blend);
            }
        }
    }

    /// <summary>A straight stroke with round ends.</summary>
    public void Stroke(float x0, float y0, float x1, float y1, float width, float amount, Blend blend = Blend.Lay)
    {
        var half = width / 2;
        var reach = half + 0.5f;
        float dx = x1 - x0, dy = y1 - y0;
        var squared = MathF.Max(1e-6f, dx * dx + dy * dy);
        var lastY = Math.Min(Height - 1, (int)MathF.Ceiling(MathF.Max(y0, y1) + reach));
        var minX = MathF.Min(x0, x1) - reach;
        var maxX = MathF.Max(x0, x1) + reach;
        var span = MathF.Abs(dy) > 0.01f ? reach * MathF.Sqrt(squared) / MathF.Abs(dy) : float.MaxValue;
        for (var y = Math.Max(0, (int)MathF.Floor(MathF.Min(y0, y1) - reach)); y <= lastY; y++)
        {
            float left = minX, right = maxX;
            if (span < float.MaxValue)
            {
                var middle = x0 + (y - y0) * dx / dy;
                left = MathF.Max(minX, middle - span - 1);
                right = MathF.Min(maxX, middle + span + 1);
            }

            var lastX = Math.Min(Width - 1, (int)MathF.Ceiling(right));
            for (var x = Math.Max(0, (int)MathF.Floor(left)); x <= lastX; x++)
            {
                var t = Math.Clamp(((x - x0) * dx + (y - y0) * dy) / squared, 0, 1);
                float ex = x - x0 - t * dx, ey = y - y0 - t * dy;
                var cover = Math.Clamp(reach - MathF.Sqrt(ex * ex + ey * ey), 0, MathF.Min(1, width));
                if (cover > 0) Touch(x, y, cover * amount, blend);
            }
        }
    }

    /// <summary>A line through the points, evenly laid even where it bends.</summary>
    public void Path(ReadOnlySpan<Vector2> points, float width, float amount, Blend blend = Blend.Lay)
    {
        var ribbon = new Vector2[points.Length * 2];
        for (var i = 0; i < points.Length; i++)
        {
            var along = points[Math.Min(i + 1, points.Length - 1)] - points[Math.Max(i - 1, 0)];
            var side = along.LengthSquared() < 1e-6f ? Vector2.Zero : Vector2.Normalize(new(-along.Y, along.X)) * width / 2;
            ribbon[i] = points[i] + side;
            ribbon[^(i + 1)] = points[i] - side;
        }

        Fill(ribbon, amount, blend);
    }

    /// <summary>Spreads all values softly, about <paramref name="radius"/> pixels wide.</summary>
    public void Blur(int radius)
    {
        var other = new float[Values.Length];
        for (var pass = 0; pass < 2; pass++)
        {
            for (var y = 0; y < Height; y++) SmoothRow(Values, other, y * Width, radius);
            SmoothColumns(other, Values, radius);
        }
    }

    public void Touch(int x, int y, float amount, Blend blend)
    {
        var at = y * Width + x;
        if (Clip is not null) amount *= Clip.Values[at];
        ref var value = ref Values[at];
        value = blend switch
        {
            Blend.Lay => value + amount * (1 - value),
            Blend.Cut => value * (1 - amount),
            _ => value + amount,
        };
    }

    private void SmoothRow(float[] from, float[] to, int start, int radius)
    {
        float sum = 0;
        var size = 2 * radius + 1;
        for (var i = -radius; i <= radius; i++) sum += from[start + Math.Clamp(i, 0, Width - 1)];
        for (var i = 0; i < Width; i++)
        {
            to[start + i] = sum / size;
            sum += from[start + Math.Min(i + radius + 1, Width - 1)] - from[start + Math.Max(i - radius, 0)];
        }
    }

    private void SmoothColumns(float[] from, float[] to, int radius)
    {
        var sums = new float[Width];
        var size = 2 * radius + 1;
        for (var i = -radius; i <= radius; i++)
        {
            var row = from.AsSpan(Math.Clamp(i, 0, Height - 1) * Width, Width);
            for (var x = 0; x < Width; x++) sums[x] += row[x];
        }

        for (var y = 0; y < Height; y++)
        {
            var below = from.AsSpan(Math.Min(y + radius + 1, Height - 1) * Width, Width);
            var above = from.AsSpan(Math.Max(y - radius, 0) * Width, Width);
            var row = to.AsSpan(y * Width, Width);
            for (var x = 0; x < Width; x++)
            {
                row[x] = sums[x] / size;
                sums[x] += below[x] - above[x];
            }
        }
    }

    // Signed areas of one edge within one row of pixels; summed along the row they give the cover.
    private void Cover(Vector2 a, Vector2 b, int row, ref int from, ref int to)
    {
        if (a.Y == b.Y) return;
        var sign = a.Y < b.Y ? 1f : -1f;
        if (sign < 0) (a, b) = (b, a);
        var top = MathF.Max(a.Y, row);
        var bottom = MathF.Min(b.Y, row + 1);
        if (top >= bottom) return;
        var slope = (b.X - a.X) / (b.Y - a.Y);
        float xa = Math.Clamp(a.X + (top - a.Y) * slope, 0, Width), xb = Math.Clamp(a.X + (bottom - a.Y) * slope, 0, Width);
        if (xa > xb) (xa, xb) = (xb, xa);
        var high = (bottom - top) * sign;
        var first = (int)xa;
        var last = Math.Min(Width, (int)MathF.Ceiling(xb));
        from = Math.Min(from, first);
        to = Width;
        if (last <= first + 1)
        {
            var inside = first + 1 - (xa + xb) / 2;
            edges[first] += high * inside;
            edges[first + 1] += high * (1 - inside);
            return;
        }

        var before = 0f;
        for (var x = first; x < last; x++)
        {
            var right = MathF.Min(x + 1, xb);
            var left = MathF.Max(x, xa);
            var crossed = (right - xa) / (xb - xa);
            var passed = (left - xa) / (xb - xa);
            var area = high * (passed + (crossed - passed) * (x + 1 - (left + right) / 2));
            edges[x] += area - before;
            before = area;
        }

        edges[last] += high - before;
    }
}
