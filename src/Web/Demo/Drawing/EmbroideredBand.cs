using System.Numerics;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Embroidery on fine cloth by the length: eyelets, satin-stitched leaves, slots for ribbon, a buttonholed edge.</summary>
internal static class EmbroideredBand
{
    public static void Draw(LaceBand band, bool eyelets)
    {
        var sheet = band.Sheet;
        var area = band.Area();
        for (var i = 0; i < area.Values.Length; i++)
        {
            int x = i % Sheet.Width, y = i / Sheet.Width;
            var thread = MathF.Cos(x * 1.75f) + MathF.Cos(y * 1.65f);
            sheet.Cloth.Values[i] = MathF.Max(sheet.Cloth.Values[i], area.Values[i] * (0.62f + 0.05f * thread));
        }

        for (var x = band.Repeat / 2; x < Sheet.Width + band.Repeat; x += band.Repeat)
        {
            if (eyelets) Spray(sheet, new(x, band.Top + band.High * (band.Scallops ? 0.52f : 0.5f)), MathF.Min(band.Repeat * 0.46f, band.High * 0.36f));
            else
            {
                foreach (var dx in (ReadOnlySpan<float>)[-0.25f, 0.25f])
                {
                    Hole(sheet, Shapes.Box(x + dx * band.Repeat - 13, band.Top + band.High * 0.25f, 26, band.High * 0.5f), 7);
                }
            }
        }

        if (!band.Scallops) return;
        for (float x = 0; x < Sheet.Width; x += 4.2f)
        {
            var slope = Vector2.Normalize(new(-(band.Edge(x + 2) - band.Edge(x - 2)) / 4, 1));
            sheet.Thread(x - slope.X * 20, band.Edge(x) - slope.Y * 20, x, band.Edge(x), 3.4f);
        }
    }

    /// <summary>A flower of eyelets with leaves to both sides.</summary>
    public static void Spray(Sheet sheet, Vector2 at, float size)
    {
        for (var k = 0; k < 6; k++)
        {
            var (s, c) = MathF.SinCos(MathF.PI * k / 3 + MathF.PI / 6);
            Hole(sheet, Shapes.Oval(at.X + c * size * 0.42f, at.Y + s * size * 0.42f, size * 0.21f, size * 0.12f, MathF.Atan2(s, c)), size * 0.055f);
        }

        Hole(sheet, Shapes.Oval(at.X, at.Y, size * 0.12f, size * 0.12f), size * 0.05f);
        foreach (var (dx, dy) in (ReadOnlySpan<(float, float)>)[(-1.05f, -0.55f), (1.05f, -0.55f), (-1.05f, 0.55f), (1.05f, 0.55f)])
        {
            var from = at + new Vector2(dx * 0.55f, dy * 0.8f) * size;
            Satin(sheet, from, at + new Vector2(dx, dy) * size, size * 0.17f);
        }
    }

    /// <summary>An eyelet: cut, and overcast all round.</summary>
    public static void Hole(Sheet sheet, ReadOnlySpan<Vector2> shape, float rim)
    {
        rim = MathF.Max(3, rim);
        var middle = Vector2.Zero;
        foreach (var point in shape) middle += point / shape.Length;
        var outer = shape.ToArray();
        for (var i = 0; i < outer.Length; i++) outer[i] += Vector2.Normalize(outer[i] - middle) * rim;
        sheet.Light.Fill(Shifted(outer, rim * 0.35f), 0.16f, Blend.Cut);
        sheet.Light.Fill(outer, 0.05f, Blend.Lift);
        sheet.Cloth.Fill(outer, 0.88f);
        for (var i = 0; i < shape.Length; i++)
        {
            var count = Math.Max(1, (int)(Vector2.Distance(outer[i], outer[(i + 1) % shape.Length]) / 3.4f));
            for (var k = 0; k < count && rim > 4; k++)
            {
                var (a, b) = (Vector2.Lerp(shape[i], shape[(i + 1) % shape.Length], k / (float)count), Vector2.Lerp(outer[i], outer[(i + 1) % shape.Length], k / (float)count));
                sheet.Light.Stroke(a.X, a.Y, b.X, b.Y, 1, 0.13f, Blend.Cut);
            }
        }

        sheet.Cloth.Fill(shape, 0.97f, Blend.Cut);
    }

    private static Vector2[] Shifted(Vector2[] shape, float by) => [.. shape.Select(p => p + new Vector2(by * 0.7f, by))];

    /// <summary>A leaf in padded satin stitch: threads across, raised in the middle.</summary>
    public static void Satin(Sheet sheet, Vector2 stalk, Vector2 tip, float width)
    {
        var along = tip - stalk;
        var length = along.Length();
        var side = Vector2.Normalize(new(-along.Y, along.X));
        sheet.Light.Fill(Shapes.Leaf(stalk + new Vector2(3, 5), tip + new Vector2(3, 5), width * 1.15f), 0.16f, Blend.Cut);
        sheet.Light.Fill(Shapes.Leaf(stalk, tip, width), 0.10f, Blend.Lift);
        for (var d = 0f; d < length; d += 2.3f)
        {
            var t = d / length;
            var half = side * (width / 2 * MathF.Sin(MathF.PI * MathF.Pow(t, 0.85f)) + 1);
            var lean = along / length * half.Length() * 0.5f;
            var at = stalk + along * t;
            var (a, b) = (at - half - lean, at + half + lean);
            sheet.Cloth.Stroke(a.X, a.Y, b.X, b.Y, 2.5f, 0.95f);
            sheet.Light.Stroke(a.X, a.Y, at.X, at.Y, 1.4f, 0.06f, Blend.Lift);
            if ((int)(d / 2.3f) % 2 == 0) sheet.Light.Stroke(at.X, at.Y, b.X, b.Y, 1, 0.07f, Blend.Cut);
        }
    }
}
