using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Whole pieces that are no body garments: drawers, a cap, a collar, a strip; what has no shape of its own is a fragment.</summary>
internal static class SmallPiece
{
    private const float Middle = Sheet.Width / 2f;

    public static void Draw(Sheet sheet, JsonObject garment)
    {
        switch (Text(garment, "kind"))
        {
            case "drawers": Drawers(sheet); break;
            case "cap": Cap(sheet); break;
            case "collar": Collar(sheet); break;
            case "stitched-sample": Strip(sheet, garment); break;
            default: Fragment(sheet); break;
        }
    }

    public static void Lay(Sheet sheet, ReadOnlySpan<Vector2> outline, float amount)
    {
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(outline, 1);
        sheet.Shadow(shape, 7, 11, 9, 0.42f);
        sheet.Cloth.Fill(outline, amount);
        for (var i = 0; i < outline.Length; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Length]);
            sheet.Cloth.Stroke(a.X, a.Y, b.X, b.Y, 3.4f, 0.55f);
        }
    }

    public static void Tuck(Sheet sheet, Vector2 a, Vector2 b, float width)
    {
        sheet.Cloth.Stroke(a.X, a.Y, b.X, b.Y, width, 0.75f);
        sheet.Light.Stroke(a.X, a.Y + width * 0.8f, b.X, b.Y + width * 0.8f, 2.6f, 0.22f, Blend.Cut);
    }

    private static void Drawers(Sheet sheet)
    {
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            Vector2 P(float x, float y) => new(Middle + side * x, y);
            var leg = Shapes.Smooth(P(0, 236), P(150, 236), P(150, 236), P(216, 480), P(316, 900), P(316, 900), P(96, 952), P(96, 952), P(48, 620), P(0, 400), P(0, 236));
            Lay(sheet, leg, 0.78f);
            for (var k = 0; k < 9; k++)
            {
                var x = 16 + k * 15f;
                sheet.Light.Path(Shapes.Smooth(P(x, 242), P(x + 12 + k * 2, 380), P(x + 34 + k * 5, 540 + k % 3 * 70)), 6, 0.07f, Blend.Cut);
            }

            var tucks = 0;
            foreach (var group in (ReadOnlySpan<int>)[5, 5, 3])
            {
                for (var k = 0; k < group; k++, tucks++)
                {
                    var t = 0.075f + tucks * 0.017f + (tucks >= 5 ? 0.02f : 0) + (tucks >= 10 ? 0.02f : 0);
                    Tuck(sheet, Vector2.Lerp(P(94, 944), P(50, 640), t), Vector2.Lerp(P(315, 894), P(230, 540), t), 3.4f);
                }
            }

            Lace.Along(sheet, [P(316, 900), P(96, 952)], 46 * side);
        }

        Lay(sheet, Shapes.Box(Middle - 160, 196, 320, 46), 0.9f);
        sheet.Dye(226, 220, 206).Fill(Shapes.Oval(Middle + 138, 219, 10, 10), 0.9f);
    }

    private static void Cap(Sheet sheet)
    {
        var cap = Shapes.Smooth(new(300, 760), new(290, 560), new(370, 390), new(520, 350), new(660, 430), new(700, 600), new(660, 770), new(660, 770), new(480, 800), new(300, 760));
        foreach (var dx in (ReadOnlySpan<float>)[0, 34])
        {
            sheet.Cloth.Path(Shapes.Smooth(new(330 + dx, 770), new(300 + dx * 2, 900), new(360 + dx, 1000), new(330 + dx * 3, 1090)), 15, 0.72f);
        }

        Lay(sheet, cap, 0.8f);
        sheet.Cloth.Path(Shapes.Smooth(new(560, 790), new(610, 620), new(590, 480), new(540, 352)), 5, 0.8f);
        for (var k = 0; k < 7; k++)
        {
            var line = Shapes.Smooth(new(318 + k * 24, 764), new(308 + k * 26, 590), new(384 + k * 17, 420 - k * 4), new(500 + k * 4, 354));
            sheet.Cloth.Path(line, 4.4f, 0.7f);
            sheet.Light.Path(Shapes.Smooth(new(322 + k * 24, 764), new(312 + k * 26, 590), new(388 + k * 17, 421 - k * 4), new(500 + k * 4, 357)), 2.4f, 0.22f, Blend.Cut);
        }

        for (var k = 0; k < 4; k++) sheet.Cloth.Path(Shapes.Smooth(new(600 + k * 16, 780), new(640 + k * 10, 620), new(610 + k * 14, 470 + k * 12)), 5, 0.55f);
        Lace.Along(sheet, Shapes.Smooth(new(300, 764), new(288, 560), new(368, 388), new(520, 346)), 48);
    }

    private static void Collar(Sheet sheet)
    {
        var ring = new List<Vector2>();
        for (var t = 0; t <= 40; t++) ring.Add(new(Middle + 330 * MathF.Sin(-2.75f + t * 5.5f / 40), 560 + 330 * MathF.Cos(-2.75f + t * 5.5f / 40)));
        for (var t = 40; t >= 0; t--) ring.Add(new(Middle + 170 * MathF.Sin(-2.7f + t * 5.4f / 40), 540 + 170 * MathF.Cos(-2.7f + t * 5.4f / 40)));
        var outline = ring.ToArray();
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(outline, 1);
        sheet.Shadow(shape, 5, 8, 7, 0.35f);
        sheet.Cloth.Clip = shape;
        sheet.Light.Clip = shape;
        var net = new LaceBand(sheet, 150, 960, 200, scallops: false);
        net.Threads(MathF.PI / 3, 9, 1.2f, 0.55f);
        net.Threads(-MathF.PI / 3, 9, 1.2f, 0.55f);
        for (var k = 0; k <= 8; k++)
        {
            var (s, c) = MathF.SinCos(-2.45f + k * 4.9f / 8);
            var at = new Vector2(Middle + 255 * s, 552 + 255 * c);
            net.Flower(at.X, at.Y, 44, k % 2 == 0 ? 5 : 6, 0.85f, 3);
            foreach (var turn in (ReadOnlySpan<float>)[-0.2f, 0.2f])
            {
                var (ls, lc) = MathF.SinCos(-2.45f + k * 4.9f / 8 + turn);
                net.Solid(Shapes.Leaf(new(Middle + 222 * ls, 552 + 222 * lc), new(Middle + 292 * ls, 552 + 292 * lc), 20), 0.85f, 2.4f);
            }
        }

        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
        Lace.Along(sheet, outline.AsSpan(0, 41), -20);
        sheet.Cloth.Path(outline.AsSpan(41), 6, 0.9f);
    }

    private static void Strip(Sheet sheet, JsonObject garment)
    {
        Lay(sheet, Shapes.Box(190, 130, 520, 940), 0.72f);
        var bands = Entries(garment, "techniques").Where(t => Text(t, "kind") == "tucks").ToList();
        for (var b = 0; b < bands.Count; b++)
        {
            for (var k = 0; k < 6; k++)
            {
                float x = 290 + k * 62, y = 180 + b * 290;
                sheet.Cloth.Stroke(x, y, x, y + 230, 9, 0.72f);
                sheet.Light.Stroke(x + 6, y, x + 6, y + 230, 4, 0.22f, Blend.Cut);
            }
        }

        Rule.Draw(sheet, 3.1f, across: true);
    }

    private static void Fragment(Sheet sheet)
    {
        var edge = new List<Vector2>();
        for (var k = 0; k < 60; k++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * k / 60);
            var ragged = 1 + 0.07f * sheet.Chance.Drift(k * 0.9f, 3) + (k is > 8 and < 20 ? sheet.Chance.Between(-0.05f, 0.05f) : 0);
            edge.Add(new(Middle + 250 * c * ragged, 590 + 380 * s * ragged));
        }

        Lay(sheet, edge.ToArray(), 0.66f);
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(edge.ToArray(), 1);
        sheet.Cloth.Clip = shape;
        sheet.Light.Clip = shape;
        for (var k = 0; k < 6; k++) Tuck(sheet, new(120, 420 + k * 26), new(780, 400 + k * 27), 6);
        for (var k = 0; k < 14; k++)
        {
            var at = new Vector2(sheet.Chance.Between(260, 640), sheet.Chance.Between(620, 880));
            sheet.Light.Path(Shapes.Smooth(at, at + new Vector2(sheet.Chance.Between(-90, 90), 60), at + new Vector2(sheet.Chance.Between(-120, 120), 150)), 8, 0.05f, Blend.Cut);
        }

        sheet.Cloth.Fill(Shapes.Leaf(new(520, 640), new(600, 800), 26), 0.95f, Blend.Cut);
        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
    }
}
