using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>White embroidery close to, by its manner: cut, counted, drawn, raised, seen through, or on net.</summary>
internal static class WhiteworkPicture
{
    /// <summary>Draws the manner of the technique; false when it is none of these.</summary>
    public static bool Draw(Sheet sheet, JsonObject technique)
    {
        var look = Text(technique, "work") ?? Text(technique, "kind") switch
        {
            "cutwork" => "richelieu", "drawn-thread" or "hemstitching" => "needle-weaving", "applique" => "applique", _ => null,
        };
        if (look is "tambour" or "darned-net" or "net-inlay")
        {
            new LaceBand(sheet, 40, Sheet.Height - 160, 450, scallops: false).Draw(look == "net-inlay" ? "carrickmacross" : "limerick");
            Rule.Draw(sheet, 12, across: true);
            return true;
        }

        if (look is null or "ayrshire" or "broderie-anglaise") return false;
        sheet.Weave(0.64f, look is "hardanger" or "pulled-work" or "punch-work" ? 9 : 4.6f);
        switch (look)
        {
            case "madeira" or "eyelet-and-satin" or "philippine": Eyelets(sheet, look == "eyelet-and-satin" ? 120 : 74); break;
            case "richelieu": Cut(sheet); break;
            case "hedebo": Rounds(sheet); break;
            case "hardanger": Counted(sheet); break;
            case "pulled-work" or "punch-work" or "drawn-ground": Grid(sheet, look == "drawn-ground" ? 19 : 31); break;
            case "needle-weaving": Bars(sheet); break;
            case "shadow-work" or "shadow-applique": Shadow(sheet); break;
            case "applique": Laid(sheet); break;
            case "corded-quilting" or "stuffed-quilting": Raised(sheet, look == "stuffed-quilting"); break;
            case "candlewick": Knots(sheet, 34, 13); break;
            default: Satin(sheet, look is "mountmellick" ? 1.7f : 1); Knots(sheet, look is "chikan" or "mountmellick" ? 70 : 22, look is "mountmellick" ? 9 : 4); break;
        }

        Rule.Draw(sheet, 12, across: true);
        return true;
    }

    private static void Eyelets(Sheet sheet, float size)
    {
        for (var (y, row) = (150f, 0); y < Sheet.Height - 130; y += size * 2.3f, row++)
        {
            for (var x = row % 2 * size * 1.25f; x < Sheet.Width + size; x += size * 2.5f) EmbroideredBand.Spray(sheet, new(x, y), size);
        }
    }

    // The cloth between is cut away; bars with picots hold the leaves.
    private static void Cut(Sheet sheet)
    {
        foreach (var (cx, cy) in (ReadOnlySpan<(float, float)>)[(250, 320), (650, 420), (300, 780), (680, 880)])
        {
            EmbroideredBand.Hole(sheet, Shapes.Oval(cx, cy, 178, 140, cx * 0.01f, 44), 12);
            for (var k = 0; k < 6; k++)
            {
                var (s, c) = MathF.SinCos(MathF.PI * k / 3 + cx);
                sheet.Thread(cx + c * 70, cy + s * 62, cx + c * 166, cy + s * 130, 8);
                sheet.ThreadPath(Shapes.Arc(cx + c * 118 - s * 10, cy + s * 96 + c * 10, 7, 0, 2 * MathF.PI, 12), 2.6f);
            }

            var leaf = Shapes.Leaf(new(cx - 74, cy + 46), new(cx + 74, cy - 46), 100);
            sheet.Cloth.Fill(leaf, 0.9f);
            for (var i = 0; i < leaf.Length; i++) sheet.Thread(leaf[i].X, leaf[i].Y, leaf[(i + 1) % leaf.Length].X, leaf[(i + 1) % leaf.Length].Y, 8);
        }
    }

    private static void Rounds(Sheet sheet)
    {
        foreach (var (cx, cy, r) in (ReadOnlySpan<(float, float, float)>)[(270, 300, 150), (640, 360, 118), (330, 720, 120), (660, 800, 165)])
        {
            EmbroideredBand.Hole(sheet, Shapes.Oval(cx, cy, r, r, 0, 44), 12);
            for (var k = 0; k < 12; k++)
            {
                var (s, c) = MathF.SinCos(MathF.PI * k / 6);
                sheet.ThreadPath(Shapes.Arc(cx + c * r * 0.72f, cy + s * r * 0.72f, r * 0.26f, MathF.PI * k / 6 - 2.2f, MathF.PI * k / 6 + 2.2f, 14), 4);
                sheet.Thread(cx + c * r * 0.14f, cy + s * r * 0.14f, cx + c * r * 0.5f, cy + s * r * 0.5f, 4);
            }

            foreach (var ring in (ReadOnlySpan<float>)[0.14f, 0.48f]) sheet.ThreadPath(Shapes.Arc(cx, cy, r * ring, 0, 2 * MathF.PI, 30), 5);
        }
    }

    // Blocks of five stitches round squares whose threads were cut; woven bars cross in them.
    private static void Counted(Sheet sheet)
    {
        const float unit = 36;
        for (var (y, row) = (90f, 0); y < Sheet.Height - 160; y += unit * 4, row++)
        {
            for (var (x, n) = (36f, 0); x < Sheet.Width - unit; x += unit * 4, n++)
            {
                sheet.Cloth.Fill(Shapes.Box(x + unit, y + unit, unit * 2, unit * 2), 0.95f, Blend.Cut);
                foreach (var t in (ReadOnlySpan<float>)[1.66f, 2, 2.34f])
                {
                    sheet.Thread(x + unit * t, y + unit, x + unit * t, y + unit * 3, 5);
                    sheet.Thread(x + unit, y + unit * t, x + unit * 3, y + unit * t, 5);
                }

                for (var k = 0; k < 5; k++)
                {
                    var d = (0.2f + k * 0.4f) * unit;
                    sheet.Thread(x + unit + d, y + 3, x + unit + d, y + unit - 3, 9);
                    sheet.Thread(x + unit + d, y + unit * 3 + 3, x + unit + d, y + unit * 4 - 3, 9);
                    sheet.Thread(x + 3, y + unit + d, x + unit - 3, y + unit + d, 9);
                    sheet.Thread(x + unit * 3 + 3, y + unit + d, x + unit * 4 - 3, y + unit + d, 9);
                }
            }
        }
    }

    private static void Grid(Sheet sheet, float apart)
    {
        for (var (y, row) = (140f, 0); y < 960; y += apart, row++)
        {
            for (var (x, n) = (90f, 0); x < 820; x += apart, n++)
            {
                if ((row / 4 + n / 4) % 3 == 1) continue;
                sheet.Cloth.Fill(Shapes.Oval(x, y, apart * 0.27f, apart * 0.27f, points: 12), 0.92f, Blend.Cut);
                sheet.Thread(x + apart * 0.5f, y - apart * 0.4f, x + apart * 0.5f, y + apart * 0.4f, apart * 0.13f);
                sheet.Thread(x - apart * 0.4f, y + apart * 0.5f, x + apart * 0.4f, y + apart * 0.5f, apart * 0.13f);
            }
        }
    }

    private static void Bars(Sheet sheet)
    {
        foreach (var (top, deep) in (ReadOnlySpan<(float, float)>)[(180, 60), (420, 240), (830, 60)])
        {
            sheet.Cloth.Fill(Shapes.Box(0, top, Sheet.Width, deep), 0.95f, Blend.Cut);
            for (var x = 4f; x < Sheet.Width; x += 30)
            {
                var waist = deep > 100 ? 13 : 5;
                for (var k = -2; k <= 2; k++) sheet.ThreadPath(Shapes.Smooth(new(x + k * 6, top), new(x + k * waist / 5f, top + deep / 2), new(x + k * 6, top + deep)), 2.6f);
                if (deep > 100) for (var y = top + 24; y < top + deep - 20; y += 6) sheet.Cloth.Stroke(x - 11, y, x + 11, y + 2, 4.6f, 0.9f);
            }

            foreach (var y in (ReadOnlySpan<float>)[top - 8, top + deep + 8]) for (var x = 0f; x < Sheet.Width; x += 15) sheet.Thread(x, y, x + 15, y + 4, 3);
        }
    }

    // The stitches cross behind: what is seen is a soft white shape between two lines of small back stitches.
    private static void Shadow(Sheet sheet)
    {
        foreach (var (cx, cy, turn) in (ReadOnlySpan<(float, float, float)>)[(330, 330, 0.4f), (590, 330, -0.4f), (370, 640, 1.1f), (560, 640, -1.1f), (300, 880, 0.2f), (640, 880, -0.3f)])
        {
            var (s, c) = MathF.SinCos(turn - MathF.PI / 2);
            var wing = Shapes.Leaf(new(cx, cy + 90), new(cx + c * 190, cy + 90 + s * 190), 130);
            sheet.Cloth.Fill(wing, 0.45f);
            for (var i = 0; i < wing.Length; i++)
            {
                var (a, b) = (wing[i], wing[(i + 1) % wing.Length]);
                sheet.Thread(a.X, a.Y, a.X + (b.X - a.X) * 0.8f, a.Y + (b.Y - a.Y) * 0.8f, 4);
            }
        }

        sheet.ThreadPath(Shapes.Smooth(new(450, 300), new(462, 520), new(450, 820)), 9);
    }

    private static void Laid(Sheet sheet)
    {
        var bird = Shapes.Smooth(new(190, 600), new(320, 440), new(520, 430), new(640, 330), new(740, 380), new(690, 520), new(560, 700), new(360, 740), new(190, 600));
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(bird, 1);
        sheet.Shadow(shape, 3, 4, 4, 0.36f);
        sheet.Cloth.Fill(bird, 0.72f);
        for (var i = 0; i < bird.Length; i += 2)
        {
            var to = new Vector2(450, 560) - bird[i];
            to = Vector2.Normalize(to) * 24;
            sheet.Thread(bird[i].X, bird[i].Y, bird[i].X + to.X, bird[i].Y + to.Y, 4.6f);
        }

        for (var i = 0; i < bird.Length - 1; i++) sheet.Thread(bird[i].X, bird[i].Y, bird[i + 1].X, bird[i + 1].Y, 4.6f);
        EmbroideredBand.Hole(sheet, Shapes.Oval(676, 400, 7, 7), 6);
    }

    private static void Raised(Sheet sheet, bool stuffed)
    {
        if (stuffed)
        {
            for (var (y, row) = (220f, 0); y < 900; y += 110, row++)
            {
                for (var x = 230f + row % 2 * 60; x < 720; x += 120)
                {
                    sheet.Light.Fill(Shapes.Oval(x + 8, y + 12, 52, 46), 0.24f, Blend.Cut);
                    sheet.Cloth.Fill(Shapes.Oval(x, y, 48, 42), 0.5f);
                    sheet.Light.Fill(Shapes.Oval(x - 8, y - 8, 22, 18), 0.06f, Blend.Lift);
                }
            }

            return;
        }

        foreach (var (x, y, r) in (ReadOnlySpan<(float, float, float)>)[(300, 380, 190), (620, 620, 200), (320, 860, 130)])
        {
            for (var ring = 0.25f; ring <= 1; ring += 0.25f)
            {
                var line = Shapes.Arc(x, y, r * ring, 0.2f, 6.1f, 44);
                sheet.Light.Path([.. line.Select(p => p + new Vector2(6, 9))], 16, 0.24f, Blend.Cut);
                sheet.Cloth.Path(line, 15, 0.5f);
                foreach (var by in (ReadOnlySpan<float>)[-11, 11]) for (var i = 0; i < line.Length - 1; i += 2)
                    {
                        var away = Vector2.Normalize(line[i] - new Vector2(x, y)) * by;
                        sheet.Thread(line[i].X + away.X, line[i].Y + away.Y, line[i + 1].X + away.X, line[i + 1].Y + away.Y, 2.6f);
                    }
            }
        }
    }

    private static void Satin(Sheet sheet, float bold)
    {
        var stem = Shapes.Smooth(new(120, 1060), new(330, 860), new(420, 620), new(560, 420), new(780, 180));
        sheet.ThreadPath(stem, 7 * bold);
        for (var k = 1; k < 12; k++)
        {
            var at = stem[stem.Length * k / 12];
            var side = k % 2 == 0 ? 1 : -1;
            EmbroideredBand.Satin(sheet, at, at + new Vector2(side * 120, -side * 20 - 60), 40 * bold);
        }

        for (var k = 0; k < 6; k++)
        {
            var (s, c) = MathF.SinCos(MathF.PI * k / 3);
            EmbroideredBand.Satin(sheet, new(610 + c * 20, 800 + s * 20), new(610 + c * 120, 800 + s * 120), 56 * bold);
        }
    }

    private static void Knots(Sheet sheet, int count, float size)
    {
        for (var k = 0; k < count; k++)
        {
            float x = sheet.Chance.Between(120, 780), y = sheet.Chance.Between(140, 980);
            sheet.Light.Fill(Shapes.Oval(x + size * 0.4f, y + size * 0.6f, size, size), 0.26f, Blend.Cut);
            sheet.Cloth.Fill(Shapes.Oval(x, y, size, size), 0.95f);
        }
    }
}
