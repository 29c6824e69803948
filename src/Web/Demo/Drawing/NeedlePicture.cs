using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>What a needle did on the cloth, close to: embroidery and mends.</summary>
internal static class NeedlePicture
{
    private const float Pitch = 7.5f; // pixels from thread to thread of the cloth

    public static void Embroidery(Sheet sheet, JsonObject technique)
    {
        sheet.Weave(0.64f, 4.6f);
        switch (Text(technique, "work"))
        {
            case "ayrshire": Ayrshire(sheet); break;
            case "broderie-anglaise": Eyelets(sheet); break;
            default: Feather(sheet); break;
        }
    }

    public static void Mend(Sheet sheet, JsonObject repair)
    {
        sheet.Weave(0.66f, Pitch);
        switch (Text(repair, "method"))
        {
            case "patch" or "hemmed-patch" or "set-in-patch" or "herringbone-patch" or "iron-on": Patch(sheet); break;
            case "net-backing" or "crepeline-overlay" or "net-darn": Net(sheet); break;
            case "stitch-darn": StitchDarn(sheet); break;
            default: Darn(sheet); break;
        }

        Rule.Draw(sheet, 22, across: true);
    }

    private static void Ayrshire(Sheet sheet)
    {
        var stem = Shapes.Smooth(new(420, 1180), new(520, 960), new(400, 740), new(500, 520), new(430, 330));
        sheet.ThreadPath(stem, 8);
        for (var k = 1; k < 10; k++)
        {
            var at = stem[stem.Length * k / 10];
            var side = k % 2 == 0 ? 1 : -1;
            EmbroideredBand.Satin(sheet, at, at + new Vector2(side * 150, -70 - k * 4), 46);
            sheet.ThreadPath(Shapes.Smooth(at, at + new Vector2(-side * 60, -50), at + new Vector2(-side * 110, -30)), 5);
            foreach (var d in (ReadOnlySpan<float>)[0, 26, 52]) EmbroideredBand.Hole(sheet, Shapes.Oval(at.X - side * (118 + d * 0.5f), at.Y - 30 + d, 7, 7, 0, 16), 6);
        }

        Filled(sheet, new(450, 265), 150);
        Filled(sheet, new(640, 830), 104);
    }

    // A flower whose petals are cut out and filled with rings and wheels made with the needle.
    private static void Filled(Sheet sheet, Vector2 at, float size)
    {
        sheet.Cloth.Fill(Shapes.Oval(at.X, at.Y, size * 1.05f, size * 1.05f), 0.5f);
        for (var k = 0; k < 5; k++)
        {
            var turn = 2 * MathF.PI * k / 5 - MathF.PI / 2;
            var (s, c) = MathF.SinCos(turn);
            var middle = at + new Vector2(c, s) * size * 0.62f;
            var petal = Shapes.Oval(middle.X, middle.Y, size * 0.36f, size * 0.31f, turn);
            EmbroideredBand.Hole(sheet, petal, 10);
            for (var spoke = 0; spoke < 8; spoke++)
            {
                var (ss, cc) = MathF.SinCos(turn + MathF.PI * spoke / 4);
                sheet.Thread(middle.X, middle.Y, middle.X + cc * size * 0.31f, middle.Y + ss * size * 0.31f, 2);
            }

            foreach (var ring in (ReadOnlySpan<float>)[0.09f, 0.2f]) sheet.ThreadPath(Shapes.Arc(middle.X, middle.Y, size * ring, 0, 2 * MathF.PI), k % 2 == 0 ? 4.5f : 2.6f);
        }

        EmbroideredBand.Hole(sheet, Shapes.Oval(at.X, at.Y, size * 0.15f, size * 0.15f), 10);
    }

    private static void Eyelets(Sheet sheet)
    {
        for (var row = 0; row < 3; row++)
        {
            for (var column = 0; column < 4; column++)
            {
                EmbroideredBand.Spray(sheet, new(column * 300 + (row % 2 == 0 ? 0 : 150), 230 + row * 290), 128);
            }
        }

        for (var x = 75f; x < Sheet.Width + 75; x += 150)
        {
            foreach (var y in (ReadOnlySpan<float>)[96, 1000]) EmbroideredBand.Hole(sheet, Shapes.Oval(x, y, 15, 15), 8);
        }

        float Edge(float x) => 1120 + 46 * MathF.Abs(MathF.Sin(x * MathF.PI / 150));
        for (var y = 1060; y < Sheet.Height; y++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                if (y > Edge(x)) sheet.Cloth.Values[y * Sheet.Width + x] = 0;
            }
        }

        for (float x = 0; x < Sheet.Width; x += 3.6f) sheet.Thread(x, Edge(x) - 26, x, Edge(x) + 1, 3.6f);
    }

    private static void Feather(Sheet sheet)
    {
        foreach (var y in (ReadOnlySpan<float>)[250, 600, 950])
        {
            for (var d = 0; d < 100; d++)
            {
                for (var x = 0; x < Sheet.Width; x++)
                {
                    sheet.Cloth.Touch(x, (int)y - 130 + d, 0.55f, Blend.Lay);
                    if (d > 91) sheet.Light.Touch(x, (int)y - 130 + d + 9, 0.24f * (100 - d) / 9, Blend.Cut);
                }
            }

            var at = new Vector2(-20, y);
            for (var k = 0; at.X < Sheet.Width + 30; k++)
            {
                var up = k % 2 == 0 ? -1 : 1;
                var next = at + new Vector2(sheet.Chance.Between(27, 33), up * sheet.Chance.Between(15, 19));
                var arm = new Vector2(at.X - 3, next.Y + up * sheet.Chance.Between(20, 26));
                sheet.ThreadPath(Shapes.Smooth(arm, Vector2.Lerp(arm, next, 0.6f) + new Vector2(0, up * 4), next), 5.4f);
                sheet.ThreadPath(Shapes.Smooth(next, Vector2.Lerp(at, next, 0.4f) + new Vector2(0, up * 5), at), 5.4f);
                at = next with { Y = y + up * 8 };
            }
        }
    }

    private static void Darn(Sheet sheet)
    {
        float left = 250, right = 640, top = 300, bottom = 760;
        for (var x = left; x < right; x += Pitch * 1.3f)
        {
            var over = sheet.Chance.Between(-26, 26);
            sheet.Thread(x + sheet.Chance.Between(-1, 1), top - 40 + over, x + sheet.Chance.Between(-1.5f, 1.5f), bottom + 40 + over, 5, 0.8f);
        }

        for (var (y, row) = (top, 0); y < bottom; y += Pitch * 1.3f, row++)
        {
            var over = sheet.Chance.Between(-26, 26);
            var under = row % 2 == 0;
            for (var x = left - 44 + over; x < right + 44 + over; x += Pitch * 1.3f)
            {
                under = !under;
                if (!under) sheet.Thread(x, y, x + Pitch * 1.35f, y + sheet.Chance.Between(-0.8f, 0.8f), 5.4f, 0.92f);
            }
        }

        sheet.Light.Fill(Shapes.Box(left - 10, top - 10, right - left + 20, bottom - top + 20), 0.08f, Blend.Lift);
    }

    // A weak place under fine net, held round its edge.
    private static void Net(Sheet sheet)
    {
        sheet.Cloth.Fill(Shapes.Smooth(new(330, 420), new(480, 470), new(590, 600), new(560, 640), new(430, 540), new(330, 420)), 0.9f, Blend.Cut);
        for (var d = 0f; d < 1100; d += 17)
        {
            sheet.Cloth.Path([new(MathF.Max(180, 180 + d - 560), MathF.Min(820, 260 + d)), new(MathF.Min(740, 180 + d), MathF.Max(260, 260 + d - 560))], 1.8f, 0.6f);
            sheet.Cloth.Path([new(MathF.Min(740, 740 + 560 - d), MathF.Min(820, 260 + d)), new(MathF.Max(180, 740 - d), MathF.Max(260, 260 + d - 560))], 1.8f, 0.6f);
        }

        var edge = Shapes.Box(180, 260, 560, 560);
        for (var side = 0; side < 4; side++)
        {
            for (var t = 0f; t < 1; t += 0.045f)
            {
                var (a, b) = (Vector2.Lerp(edge[side], edge[(side + 1) % 4], t), Vector2.Lerp(edge[side], edge[(side + 1) % 4], t + 0.02f));
                sheet.Thread(a.X, a.Y, b.X, b.Y, 3.4f);
            }
        }
    }

    private static void StitchDarn(Sheet sheet)
    {
        for (var y = 300f; y < 860; y += 17)
        {
            for (var x = 300; x < 600; x++) sheet.Cloth.Touch(x, (int)y + 8, 0.03f, Blend.Cut);
        }

        for (var (y, row) = (270f, 0); y < 880; y += 17, row++)
        {
            var from = 190 + MathF.Abs(y - 575) * 0.22f + sheet.Chance.Between(-22, 22);
            for (var x = from + row % 2 * 13; x < Sheet.Width - from; x += 26)
            {
                var wave = sheet.Chance.Between(-1.4f, 1.4f);
                sheet.Thread(x, y + wave, x + 14 * sheet.Chance.Between(0.8f, 1.2f), y + wave * 0.6f, 4.2f);
            }
        }
    }

    private static void Patch(Sheet sheet)
    {
        Vector2[] patch = [new(228, 290), new(668, 270), new(684, 812), new(240, 826)];
        var shape = new Plane(Sheet.Width, Sheet.Height);
        shape.Fill(patch, 1);
        sheet.Shadow(shape, 3, 4, 5, 0.34f);
        sheet.Cloth.Fill(patch, 0.62f);
        for (var side = 0; side < 4; side++)
        {
            var (a, b) = (patch[side], patch[(side + 1) % 4]);
            var inward = Vector2.Normalize(new Vector2(-(b - a).Y, (b - a).X));
            sheet.Cloth.Fill([a, b, b + inward * 34, a + inward * 34], 0.5f);
            sheet.Light.Stroke(a.X + inward.X * 35, a.Y + inward.Y * 35, b.X + inward.X * 35, b.Y + inward.Y * 35, 3, 0.12f, Blend.Cut);
            var length = Vector2.Distance(a, b);
            for (var d = 8f; d < length - 8; d += 15 * sheet.Chance.Between(0.85f, 1.15f))
            {
                var at = Vector2.Lerp(a, b, d / length);
                var lean = (b - a) / length * 7;
                sheet.Thread(at.X - inward.X * 4 - lean.X, at.Y - inward.Y * 4 - lean.Y, at.X + inward.X * 6, at.Y + inward.Y * 6, 3.4f);
            }
        }
    }
}
