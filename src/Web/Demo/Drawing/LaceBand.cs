using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>A band of lace across the sheet: footside, ground, motifs, and below a scalloped edge or a second footside.</summary>
internal sealed class LaceBand(Sheet sheet, float top, float bottom, float repeat, bool scallops)
{
    public Sheet Sheet => sheet;

    public float Top => top;

    public float Bottom => bottom;

    public float Repeat => repeat;

    public bool Scallops => scallops;

    public float High => bottom - top;

    /// <summary>Depth of the scallops; 0 for an insertion.</summary>
    public float Dip => scallops ? MathF.Min(repeat * 0.30f, High * 0.24f) : 0;

    /// <summary>Where the lower edge lies at x.</summary>
    public float Edge(float x)
    {
        var t = x / repeat - MathF.Floor(x / repeat);
        return bottom - Dip + Dip * MathF.Sqrt(MathF.Max(0, 1 - MathF.Pow(2 * t - 1, 2)));
    }

    public void Draw(string look)
    {
        var area = Area();
        sheet.Cloth.Clip = area;
        sheet.Light.Clip = area;
        if (!new LaceLooks(this).Draw(look)) Pattern(look);

        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
        Borders();
    }

    private void Pattern(string look)
    {
        switch (look)
        {
            case "torchon" or "barmen": Torchon(); break;
            case "irish-crochet" or "crochet": new CrochetMotifs(this).Draw(filet: look == "crochet"); break;
            case "chemical" or "venetian-point": Sprays(0.94f, mesh: 0, bars: true); break;
            case "honiton" or "alencon" or "point-de-gaze": Sprays(0.88f, mesh: 9, bars: false); break;
            case "needle" or "youghal": Sprays(0.88f, mesh: 0, bars: true); break;
            case "bucks-point" or "mechlin" or "lille" or "point-ground" or "chantilly" or "blonde" or "leavers": Valenciennes(hexagons: true); break;
            default: Valenciennes(hexagons: false); break;
        }
    }

    public Plane Area()
    {
        var area = new Plane(Sheet.Width, Sheet.Height);
        var outline = new List<Vector2> { new(0, top), new(Sheet.Width, top) };
        for (float x = Sheet.Width; x >= 0; x -= 4) outline.Add(new(x, Edge(x)));
        area.Fill([.. outline], 1);
        return area;
    }

    /// <summary>Parallel threads over the whole band, <paramref name="turn"/> from the horizontal.</summary>
    public void Threads(float turn, float apart, float width, float amount)
    {
        var (sin, cos) = MathF.SinCos(turn);
        var reach = Sheet.Width + High;
        for (var d = -reach; d < reach; d += apart)
        {
            float cx = Sheet.Width / 2f - sin * d, cy = (top + bottom) / 2 + cos * d;
            sheet.Cloth.Stroke(cx - cos * reach, cy - sin * reach, cx + cos * reach, cy + sin * reach, width, amount);
        }
    }

    /// <summary>Clears the ground beneath a shape and fills it closely, as cloth stitch does.</summary>
    public void Solid(ReadOnlySpan<Vector2> shape, float amount, float outline = 3.2f)
    {
        sheet.Cloth.Fill(shape, 0.75f, Blend.Cut);
        sheet.Cloth.Fill(shape, amount);
        Outline(shape, outline);
    }

    public void Outline(ReadOnlySpan<Vector2> shape, float width)
    {
        for (var i = 0; i < shape.Length; i++)
        {
            var next = shape[(i + 1) % shape.Length];
            sheet.Thread(shape[i].X, shape[i].Y, next.X, next.Y, width, 0.85f);
        }
    }

    private void Valenciennes(bool hexagons)
    {
        if (hexagons)
        {
            Threads(MathF.PI / 3, 13, 1.7f, 0.62f);
            Threads(-MathF.PI / 3, 13, 1.7f, 0.62f);
            Threads(0, 13, 1.2f, 0.5f);
        }
        else
        {
            Threads(MathF.PI / 3.6f, 14, 2.2f, 0.72f);
            Threads(-MathF.PI / 3.6f, 14, 2.2f, 0.72f);
        }

        var outline = hexagons ? 4.6f : 2f;
        for (var x = repeat / 2; x < Sheet.Width + repeat; x += repeat)
        {
            var y = top + High * (scallops ? 0.56f : 0.5f);
            var size = MathF.Min(repeat * 0.23f, High * 0.24f);
            Flower(x, y, size, 5, 0.8f, outline);
            var stem = Shapes.Smooth(new(x, y + size), new(x - repeat * 0.16f, y + High * 0.26f), new(x - repeat * 0.42f, y + High * 0.16f), new(x - repeat * 0.5f, y - High * 0.12f));
            sheet.ThreadPath(stem, 4, 0.85f);
            foreach (var t in (ReadOnlySpan<float>)[0.35f, 0.6f, 0.85f])
            {
                var at = stem[(int)(t * (stem.Length - 1))];
                Solid(Shapes.Leaf(at, at + new Vector2(-size * 0.5f, size * 0.55f), size * 0.42f), 0.8f, outline * 0.7f);
                Solid(Shapes.Leaf(at, at + new Vector2(size * 0.45f, -size * 0.5f), size * 0.38f), 0.8f, outline * 0.7f);
            }

            for (var row = 0; row < 3; row++) Dot(x + repeat / 2, top + High * (0.14f + 0.1f * row), High * 0.018f + 3);
        }
    }

    private void Torchon()
    {
        Threads(MathF.PI / 4, 21, 2.6f, 0.8f);
        Threads(-MathF.PI / 4, 21, 2.6f, 0.8f);
        for (var x = repeat / 2; x < Sheet.Width + repeat; x += repeat)
        {
            var y = top + High * (scallops ? 0.36f : 0.5f);
            var size = MathF.Min(repeat * 0.36f, High * (scallops ? 0.26f : 0.36f));
            Vector2[] diamond = [new(x, y - size), new(x + size, y), new(x, y + size), new(x - size, y)];
            sheet.Cloth.Fill(diamond, 0.95f, Blend.Cut);
            for (var leg = 0; leg < 8; leg++)
            {
                var t = (leg % 4 + 0.5f) / 4;
                var from = leg < 4 ? Vector2.Lerp(diamond[3], diamond[0], t) : Vector2.Lerp(diamond[0], diamond[1], t);
                var to = new Vector2(2 * x - from.X, 2 * y - from.Y);
                sheet.ThreadPath(Shapes.Smooth(from, new(x + (from.X - x) * 0.12f, y + (from.Y - y) * 0.12f), new(x + (to.X - x) * 0.12f, y + (to.Y - y) * 0.12f), to), 2.8f);
            }

            Solid(Shapes.Oval(x, y, size * 0.2f, size * 0.2f), 0.9f, 2);
            Outline(diamond, 5);
            if (!scallops) continue;
            float fx = x + repeat / 2, fy = top + High * 0.62f;
            Fan(x, bottom - Dip - repeat * 0.04f, repeat * 0.46f, MathF.Min(High * 0.34f, repeat * 0.40f));
            Solid(Shapes.Oval(fx, fy - High * 0.12f, repeat * 0.05f, repeat * 0.08f), 0.85f, 2);
        }
    }

    private void Fan(float x, float y, float rx, float ry)
    {
        Span<Vector2> half = Shapes.Arc(x, y, rx, 0, MathF.PI, 24);
        for (var i = 0; i < half.Length; i++) half[i] = new(half[i].X, y + (half[i].Y - y) * ry * 1.5f / rx);
        sheet.Cloth.Fill(half, 0.9f, Blend.Cut);
        sheet.Cloth.Fill(half, 0.3f);
        for (var spoke = 0; spoke <= 12; spoke++)
        {
            var (s, c) = MathF.SinCos(MathF.PI * spoke / 12);
            sheet.Thread(x + c * rx * 0.1f, y, x + c * rx, y + s * ry * 1.5f, 3.4f);
        }

        foreach (var t in (ReadOnlySpan<float>)[0.4f, 0.6f, 0.78f, 0.95f])
        {
            Span<Vector2> ring = Shapes.Arc(x, y, rx * t, 0, MathF.PI, 24);
            for (var i = 0; i < ring.Length; i++) ring[i] = new(ring[i].X, y + (ring[i].Y - y) * ry * 1.5f / rx);
            sheet.ThreadPath(ring, t > 0.9f ? 5 : 3);
        }
    }

    private void Sprays(float solid, float mesh, bool bars)
    {
        if (mesh > 0)
        {
            Threads(MathF.PI / 3, mesh, 1, 0.5f);
            Threads(-MathF.PI / 3, mesh, 1, 0.5f);
        }

        for (var x = repeat / 2; x < Sheet.Width + repeat; x += repeat)
        {
            float y = (top + bottom) / 2, size = MathF.Min(repeat * 0.27f, High * 0.27f);
            if (bars)
            {
                for (var k = 0; k < 14; k++)
                {
                    var (s, c) = MathF.SinCos(MathF.PI * 2 * k / 14 + 0.2f);
                    sheet.ThreadPath(Shapes.Smooth(new(x + c * size, y + s * size), new(x + c * size * 1.6f - s * 12, y + s * size * 1.6f + c * 12), new(x + c * repeat * 0.7f, y + s * High * 0.55f)), 3.4f);
                }
            }

            Flower(x, y - High * 0.04f, size, 6, solid, 4);
            foreach (var side in (ReadOnlySpan<int>)[-1, 1])
            {
                var stem = Shapes.Smooth(new(x, y + size * 0.8f), new(x + side * repeat * 0.2f, y + High * 0.36f), new(x + side * repeat * 0.44f, y + High * 0.18f), new(x + side * repeat * 0.44f, y - High * 0.3f));
                sheet.ThreadPath(stem, 6);
                for (var k = 1; k < 6; k++)
                {
                    var at = stem[stem.Length * k / 6];
                    Solid(Shapes.Leaf(at, at + new Vector2(-side * size * 0.42f, -size * 0.48f), size * 0.34f), solid, 3);
                }
            }
        }
    }

    /// <summary>Petals round an eye.</summary>
    public void Flower(float x, float y, float size, int petals, float amount, float outline)
    {
        for (var k = 0; k < petals; k++)
        {
            var turn = 2 * MathF.PI * k / petals - MathF.PI / 2;
            var (s, c) = MathF.SinCos(turn);
            var petal = Shapes.Oval(x + c * size * 0.6f, y + s * size * 0.6f, size * 0.42f, size * 1.7f / petals, turn);
            Solid(petal, amount, outline);
            sheet.Light.Stroke(x + c * size * 0.35f, y + s * size * 0.35f, x + c * size * 0.85f, y + s * size * 0.85f, 2, 0.12f, Blend.Cut);
        }

        sheet.Cloth.Fill(Shapes.Oval(x, y, size * 0.24f, size * 0.24f), 0.9f, Blend.Cut);
        Outline(Shapes.Oval(x, y, size * 0.24f, size * 0.24f), MathF.Max(3, outline));
        Dot(x, y, size * 0.08f);
    }

    public void Dot(float x, float y, float size) => Solid(Shapes.Oval(x, y, size, size), 0.85f, 1.6f);

    private void Borders()
    {
        foreach (var y in scallops ? (ReadOnlySpan<float>)[top + 3, top + 15] : [top + 3, top + 15, bottom - 15, bottom - 3])
        {
            sheet.Thread(0, y, Sheet.Width, y, 4.4f);
        }

        for (float x = 0; x < Sheet.Width; x += 11)
        {
            sheet.Thread(x, top + 3, x + 4, top + 15, 2);
            if (!scallops) sheet.Thread(x, bottom - 15, x + 4, bottom - 3, 2);
        }

        if (!scallops) return;
        for (float x = 0; x < Sheet.Width; x += 5)
        {
            sheet.Thread(x, Edge(x) - 3, x + 5, Edge(x + 5) - 3, 6);
        }

        var walked = 0f;
        for (float x = 0; x < Sheet.Width; x += 2)
        {
            walked += MathF.Sqrt(4 + MathF.Pow(Edge(x + 2) - Edge(x), 2));
            if (walked < 26) continue;
            walked = 0;
            var slope = Vector2.Normalize(new(-(Edge(x + 2) - Edge(x - 2)) / 4, 1));
            Outline(Shapes.Oval(x + slope.X * 9, Edge(x) + slope.Y * 9, 5.5f, 5.5f, 0, 12), 2);
        }
    }
}
