using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>What is made of the cloth itself, close to: fullness, quilting, seams and hems, openings, edges.</summary>
internal sealed class SewnPicture(Sheet sheet, JsonObject technique)
{
    private readonly bool byHand = Text(technique, "sewn") is "hand" or "both";

    /// <summary>Draws the technique; false when it is none of these.</summary>
    public bool Draw()
    {
        var kind = Text(technique, "kind");
        if (kind is not ("faggoting" or "fringe")) sheet.Weave(0.64f, 4.6f);
        switch (kind)
        {
            case "smocking": Folds(60, Sheet.Height - 60, 44); Smocking(); break;
            case "gathers" or "shirring" or "ruffle" or "easing": Folds(300, Sheet.Height, 34); Gathered(300); break;
            case "puffing": Folds(260, 900, 34); Gathered(260); Gathered(900); break;
            case "ruching": Folds(180, 980, 30); Gathered(580); break;
            case "pleats" or "darts": Pleats(); break;
            case "quilting": Quilting(); break;
            case "seam" or "hem" or "false-hem" or "binding" or "casing" or "placket" or "topstitching" or "boning" or "gusset" or "rolled-and-whipped": Layers(); break;
            case "piping" or "cording" or "rouleau": Layers(); Cord([.. Enumerable.Range(0, 37).Select(k => new Vector2(k * 25, 606))], 16); break;
            case "fastening" or "buttonholes": Opening(buttons: kind == "fastening"); break;
            case "faggoting" or "entredeux": Faggoting(); break;
            case "ribbon-threading": Ribbon(); break;
            case "fringe": Fringe(); break;
            case "scalloped-edge": Scallops(); break;
            case "braiding": foreach (var y in (ReadOnlySpan<float>)[240, 560, 880]) Cord(Scroll(y), 13); break;
            case "marking": Marking(); break;
            default: return false;
        }

        Rule.Draw(sheet, 12, across: true);
        return true;
    }

    // Cloth drawn up: folds of changing depth, lit from the left.
    private void Folds(float top, float bottom, float apart)
    {
        for (var x = -apart; x < Sheet.Width + apart; x += apart)
        {
            var line = new Vector2[16];
            for (var i = 0; i < line.Length; i++) line[i] = new(x + 5 * sheet.Chance.Drift(i * 0.6f, (int)x), top + (bottom - top) * i / 15f);
            sheet.Cloth.Path(line, apart * 0.5f, 0.5f);
            sheet.Light.Path([.. line.Select(p => p + new Vector2(apart * 0.36f, 0))], apart * 0.34f, 0.24f, Blend.Cut);
            sheet.Light.Path(line, apart * 0.16f, 0.06f, Blend.Lift);
        }
    }

    private void Gathered(float y)
    {
        foreach (var row in (ReadOnlySpan<float>)[-9, 9])
        {
            for (var x = 0f; x < Sheet.Width; x += byHand ? sheet.Chance.Between(26, 38) : 17) sheet.Thread(x, y + row, x + (byHand ? 15 : 13), y + row + 1, 3.6f);
        }

        sheet.Light.Stroke(0, y + 20, Sheet.Width, y + 20, 6, 0.14f, Blend.Cut);
    }

    // Outline, cable, wave, trellis, honeycomb: each row another, as a sampler of them would be.
    private void Smocking()
    {
        string[] rows = [.. (technique["stitches"] as JsonArray ?? []).Select(s => s!.ToString())];
        if (rows.Length == 0) rows = ["outline-smocking", "cable", "wave"];
        for (var (y, n) = (110f, 0); y < Sheet.Height - 120; y += 92, n++)
        {
            var look = rows[n % rows.Length];
            for (var (x, k) = (0f, 0); x < Sheet.Width; x += 44, k++)
            {
                var up = k % 2 == 0 ? -1 : 1;
                switch (look)
                {
                    case "cable": sheet.Thread(x, y + up * 8, x + 44, y + up * 8, 6); break;
                    case "wave" or "trellis":
                        var step = MathF.Abs(k % 6 - 3) * 18;
                        var next = MathF.Abs((k + 1) % 6 - 3) * 18;
                        sheet.Thread(x, y - 26 + step, x + 44, y - 26 + next, 6);
                        if (look == "trellis") sheet.Thread(x, y + 80 - step, x + 44, y + 80 - next, 6);
                        break;
                    case "honeycomb":
                        sheet.Thread(x + 6, y + up * 20, x + 38, y + up * 20, 6);
                        sheet.Thread(x + 6, y + up * 20 + 7, x + 38, y + up * 20 + 7, 6);
                        break;
                    default: sheet.Thread(x, y + 6, x + 48, y - 8, 6); break;
                }
            }
        }
    }

    private void Pleats()
    {
        for (var x = 70f; x < Sheet.Width; x += 190)
        {
            sheet.Cloth.Fill(Shapes.Box(x, 0, 96, Sheet.Height), 0.62f);
            sheet.Light.Stroke(x + 101, 0, x + 101, Sheet.Height, 14, 0.26f, Blend.Cut);
            sheet.Light.Stroke(x + 2, 0, x + 2, Sheet.Height, 3, 0.1f, Blend.Cut);
        }

        for (var x = 0f; x < Sheet.Width; x += 18) sheet.Thread(x, 190, x + 13, 190, 3.4f);
    }

    private void Quilting()
    {
        for (var d = -Sheet.Height; d < Sheet.Width + Sheet.Height; d += 130)
        {
            foreach (var turn in (ReadOnlySpan<int>)[-1, 1])
            {
                var from = turn > 0 ? d : d + Sheet.Height;
                sheet.Light.Stroke(from, 0, from + turn * Sheet.Height, Sheet.Height, 22, 0.10f, Blend.Cut);
                for (var y = 0f; y < Sheet.Height; y += 19) sheet.Thread(from + turn * y, y, from + turn * (y + 11), y + 11, 3.4f);
            }
        }
    }

    // Cloth turned over or joined: two layers below the line, stitched along it.
    private void Layers()
    {
        sheet.Cloth.Fill(Shapes.Box(0, 600, Sheet.Width, 230), 0.6f);
        sheet.Light.Stroke(0, 836, Sheet.Width, 836, 12, 0.24f, Blend.Cut);
        sheet.Light.Stroke(0, 598, Sheet.Width, 598, 5, 0.16f, Blend.Cut);
        var twice = Text(technique, "seam") is not null || Text(technique, "kind") is "casing" or "boning";
        foreach (var y in twice ? (ReadOnlySpan<float>)[622, 812] : [622])
        {
            for (var x = 0f; x < Sheet.Width; x += byHand ? sheet.Chance.Between(15, 22) : 17)
            {
                sheet.Thread(x, y, x + (byHand ? 7 : 13), y - (byHand ? 13 : 0), 3.4f);
            }
        }
    }

    private void Cord(ReadOnlySpan<Vector2> line, float wide)
    {
        sheet.Light.Path([.. line.ToArray().Select(p => p + new Vector2(wide * 0.3f, wide * 0.5f))], wide, 0.24f, Blend.Cut);
        sheet.Cloth.Path(line, wide, 0.85f);
        sheet.Light.Path(line, wide * 0.3f, 0.07f, Blend.Lift);
    }

    private static Vector2[] Scroll(float y) =>
        [.. Enumerable.Range(0, 150).Select(k => new Vector2(k * 6.2f - 12 + 34 * MathF.Sin(k * 0.42f), y + 78 * MathF.Cos(k * 0.21f) + 30 * MathF.Cos(k * 0.42f)))];

    private void Opening(bool buttons)
    {
        sheet.Cloth.Fill(Shapes.Box(450, 0, 450, Sheet.Height), 0.5f);
        sheet.Light.Stroke(446, 0, 446, Sheet.Height, 8, 0.24f, Blend.Cut);
        for (var y = 140f; y < Sheet.Height - 150; y += 230)
        {
            if (!buttons)
            {
                sheet.Cloth.Stroke(500, y, 640, y, 6, 0.96f, Blend.Cut);
                for (var x = 494f; x < 648; x += 7)
                {
                    sheet.Thread(x, y - 18, x, y - 3, 4);
                    sheet.Thread(x, y + 3, x, y + 18, 4);
                }

                continue;
            }

            var button = Shapes.Oval(570, y, 62, 62, points: 40);
            sheet.Light.Fill(Shapes.Oval(578, y + 10, 66, 66, points: 40), 0.3f, Blend.Cut);
            sheet.Cloth.Fill(button, 0.98f);
            sheet.Light.Fill(button, 0.04f, Blend.Lift);
            sheet.Light.Path([.. Shapes.Arc(570, y, 46, 0, 2 * MathF.PI, 40)], 3, 0.2f, Blend.Cut);
            foreach (var (dx, dy) in (ReadOnlySpan<(float, float)>)[(-11, -11), (11, -11), (-11, 11), (11, 11)]) sheet.Light.Fill(Shapes.Oval(570 + dx, y + dy, 5, 5), 0.55f, Blend.Cut);
            sheet.Thread(559, y - 11, 581, y + 11, 4);
            sheet.Thread(581, y - 11, 559, y + 11, 4);
        }
    }

    private void Faggoting()
    {
        for (var y = 0; y < Sheet.Height; y++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                if (y is > 520 and < 660) continue;
                sheet.Cloth.Touch(x, y, y is > 470 and <= 520 or >= 660 and < 710 ? 0.9f : 0.66f + 0.05f * (MathF.Cos(x * 1.4f) + MathF.Cos(y * 1.4f)), Blend.Lay);
            }
        }

        for (var (x, k) = (-20f, 0); x < Sheet.Width; x += 44, k++) sheet.ThreadPath(Shapes.Smooth(new(x, k % 2 == 0 ? 508 : 672), new(x + 26, 590), new(x + 44, k % 2 == 0 ? 672 : 508)), 6);
    }

    private void Ribbon()
    {
        var silk = sheet.Dye(214, 196, 208);
        for (var x = 40f; x < Sheet.Width; x += 150)
        {
            EmbroideredBand.Hole(sheet, Shapes.Box(x, 470, 22, 220), 7);
            EmbroideredBand.Hole(sheet, Shapes.Box(x + 75, 470, 22, 220), 7);
            silk.Fill(Shapes.Box(x + 11, 500, 75, 160), 0.9f);
        }
    }

    private void Fringe()
    {
        for (var y = 0; y < 420; y++)
        {
            for (var x = 0; x < Sheet.Width; x++) sheet.Cloth.Touch(x, y, 0.68f + 0.05f * (MathF.Cos(x * 1.4f) + MathF.Cos(y * 1.4f)), Blend.Lay);
        }

        for (var x = 4f; x < Sheet.Width; x += 9) sheet.ThreadPath(Shapes.Smooth(new(x, 410), new(x + sheet.Chance.Between(-6, 6), 640), new(x + sheet.Chance.Between(-22, 22), 960 + sheet.Chance.Between(-20, 20))), 4.6f, 0.8f);
        for (var x = 22f; x < Sheet.Width; x += 54) sheet.Cloth.Fill(Shapes.Oval(x, 470, 24, 17), 0.9f);
    }

    private void Scallops()
    {
        float Edge(float x) => 760 + 90 * MathF.Abs(MathF.Sin(x * MathF.PI / 225));
        for (var y = 700; y < Sheet.Height; y++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                if (y > Edge(x)) sheet.Cloth.Values[y * Sheet.Width + x] = 0;
            }
        }

        for (float x = 0; x < Sheet.Width; x += 4.4f) sheet.Thread(x, Edge(x) - 44, x, Edge(x) + 1, 4.4f);
    }

    // Crosses over counted threads, in red cotton: a few letters and a number.
    private void Marking()
    {
        var red = sheet.Dye(158, 52, 58);
        string[] letters = ["01110100011000111111100011000110001", "10000100001000010000100001000011111", "11110100011000111110100001000010000", "01110100011000101110100011000101110"];
        for (var n = 0; n < letters.Length; n++)
        {
            for (var i = 0; i < letters[n].Length; i++)
            {
                if (letters[n][i] != '1') continue;
                float x = 120 + n * 180 + i % 5 * 26, y = 420 + i / 5 * 26;
                red.Stroke(x, y, x + 22, y + 22, 5.5f, 0.92f);
                red.Stroke(x + 22, y, x, y + 22, 5.5f, 0.92f);
            }
        }
    }
}
