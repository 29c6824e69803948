using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>A damaged place close to, with a rule beside.</summary>
internal static class DamagePicture
{
    private const float Scale = 16;

    public static void Draw(Sheet sheet, JsonObject finding)
    {
        sheet.Weave(0.64f, 4.6f);
        switch (Text(finding, "what"))
        {
            case "tear" or "cut" or "split-at-fold" or "seam-open" or "lace-come-away": Tear(sheet); break;
            case "hole" or "insect-grazing" or "rodent-damage" or "mend-failed" or "bars-broken" or "lace-missing": Holes(sheet); break;
            case "worn-thin" or "shattering" or "brittle" or "seam-slippage" or "elastic-perished" or "bleach-damage": Thin(sheet); break;
            case "tide-line": Ring(sheet); break;
            case "rust-mark": Spots(sheet, sheet.Dye(150, 84, 38), 4, 34, 0.75f); break;
            case "metal-corroded": Spots(sheet, sheet.Dye(92, 138, 116), 3, 44, 0.7f); break;
            case "ink-mark": Spots(sheet, sheet.Dye(58, 62, 104), 2, 40, 0.8f); break;
            case "mould": Spots(sheet, sheet.Dye(104, 108, 96), 60, 14, 0.5f); break;
            case "foxing": Spots(sheet, sheet.Dye(158, 112, 62), 46, 9, 0.55f); break;
            case "scorch": Spots(sheet, sheet.Dye(148, 100, 56), 1, 230, 0.6f); break;
            case "dye-bleed": Spots(sheet, sheet.Dye(196, 84, 96), 3, 120, 0.4f); break;
            default: Spots(sheet, sheet.Dye(206, 176, 112), 2, 210, 0.42f); break;
        }

        Rule.Draw(sheet, Scale, across: true);
    }

    private static void Tear(Sheet sheet)
    {
        var upper = new List<Vector2>();
        for (var t = 0f; t <= 1; t += 0.05f) upper.Add(new(200 + 470 * t + sheet.Chance.Between(-3, 3), 300 + 330 * t * t + sheet.Chance.Between(-5, 5)));
        var gap = (float t) => 46 * MathF.Sin(MathF.PI * t);
        var lower = upper.Select((p, i) => p + new Vector2(-gap(i / 20f) * 0.5f, gap(i / 20f))).Reverse();
        Vector2[] slit = [.. upper, .. lower];
        sheet.Light.Path([.. upper.Select(p => p + new Vector2(0, 5))], 9, 0.2f, Blend.Cut);
        sheet.Cloth.Fill(slit, 0.96f, Blend.Cut);
        for (var i = 1; i < upper.Count - 1; i++)
        {
            for (var k = 0; k < 3; k++)
            {
                var at = upper[i] + new Vector2(sheet.Chance.Between(-12, 12), 0);
                sheet.Thread(at.X, at.Y - 4, at.X + sheet.Chance.Between(-7, 7), at.Y + gap(i / 20f) * sheet.Chance.Between(0.2f, 0.8f), 2.2f, 0.7f);
            }
        }
    }

    private static void Holes(Sheet sheet)
    {
        for (var k = 0; k < 7; k++)
        {
            var at = new Vector2(sheet.Chance.Between(180, 700), sheet.Chance.Between(220, 880));
            var size = sheet.Chance.Between(14, 52);
            var turn = sheet.Chance.Between(0, 3);
            sheet.Light.Fill(Shapes.Oval(at.X + 3, at.Y + 5, size * 1.15f, size * 0.9f, turn), 0.16f, Blend.Cut);
            sheet.Cloth.Fill(Shapes.Oval(at.X, at.Y, size, size * 0.75f, turn), 0.95f, Blend.Cut);
            for (var t = 0; t < size / 3; t++)
            {
                var (s, c) = MathF.SinCos(sheet.Chance.Between(0, 6.28f));
                var edge = at + new Vector2(c * size, s * size * 0.75f);
                sheet.Thread(edge.X, edge.Y, edge.X - c * size * 0.4f, edge.Y - s * size * 0.3f, 2, 0.6f);
            }
        }
    }

    // The crosswise threads have gone, some of the lengthwise ones still hold.
    private static void Thin(Sheet sheet)
    {
        var worn = new Plane(Sheet.Width, Sheet.Height);
        worn.Fill(Shapes.Oval(440, 520, 210, 250, 0.2f), 1);
        worn.Blur(30);
        for (var y = 0; y < Sheet.Height; y++)
        {
            for (var x = 0; x < Sheet.Width; x++)
            {
                var at = y * Sheet.Width + x;
                var holds = MathF.Max(0, sheet.Chance.Grain((int)(x / 4.6f), 7)) * 0.5f;
                sheet.Cloth.Values[at] *= 1 - worn.Values[at] * (0.82f - holds);
            }
        }
    }

    private static void Ring(Sheet sheet)
    {
        var mark = sheet.Dye(170, 132, 76);
        var edge = new Vector2[60];
        for (var i = 0; i < edge.Length; i++)
        {
            var (s, c) = MathF.SinCos(2 * MathF.PI * i / (edge.Length - 1));
            var far = 1 + 0.12f * sheet.Chance.Drift(i % (edge.Length - 1) * 0.3f, 3);
            edge[i] = new(450 + c * 270 * far, 520 + s * 310 * far);
        }

        mark.Path(edge, 13, 0.8f);
        mark.Blur(4);
        mark.Fill(edge, 0.14f);
    }

    private static void Spots(Sheet sheet, Plane dye, int count, float size, float amount)
    {
        for (var k = 0; k < count; k++)
        {
            var r = size * sheet.Chance.Between(0.45f, 1);
            var at = new Vector2(450 + sheet.Chance.Between(-1, 1) * (380 - r), 540 + sheet.Chance.Between(-1, 1) * (450 - r));
            dye.Fill(Shapes.Oval(at.X, at.Y, r, r * sheet.Chance.Between(0.7f, 1), sheet.Chance.Between(0, 3)), amount);
        }

        dye.Blur(Math.Clamp((int)(size / 9), 2, 16));
    }
}
