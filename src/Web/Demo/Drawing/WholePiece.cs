using System.Numerics;
using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>A whole body garment lying on the table, with what its techniques say that can be seen from afar.</summary>
internal sealed class WholePiece(Sheet sheet, Cut cut, JsonObject garment, bool fromBehind = false)
{
    private const float Middle = Sheet.Width / 2f;
    private readonly Plane body = new(Sheet.Width, Sheet.Height);
    private readonly Plane all = new(Sheet.Width, Sheet.Height);

    public void Draw()
    {
        Sleeves(behind: true);
        var outline = Outline();
        body.Fill(outline, 1);
        all.Fill(outline, 1);
        sheet.Shadow(all, 7, 11, 9, 0.42f);
        sheet.Cloth.Fill(outline, 0.84f);
        Folds();
        Trim();
        if (fromBehind) Opening();
        Sleeves(behind: false);
        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
        Border(outline);
    }

    private Vector2[] Outline()
    {
        var right = new List<Vector2>();
        if (cut.NeckDip == 0) right.AddRange([new(Middle + cut.Neck, cut.Top), new(Middle + cut.Neck, cut.WaistY)]);
        else
        {
            right.AddRange(Shapes.Arc(Middle, cut.Top, cut.Neck, MathF.PI / 2, 0, 12).Select(p => new Vector2(p.X, cut.Top + (p.Y - cut.Top) * cut.NeckDip / cut.Neck)));
            right.AddRange(Shapes.Smooth(new(Middle + cut.Shoulder, cut.Top + 30), new(Middle + cut.Chest - 6, cut.Top + 76), new(Middle + cut.Chest, cut.Top + 124)));
        }

        for (var y = cut.NeckDip == 0 ? cut.WaistY : cut.Top + 128; y <= cut.Bottom; y += 8) right.Add(new(Middle + cut.Half(y), y));
        for (var t = 1f; t >= 0; t -= 0.04f) right.Add(new(Middle + cut.Hem * t, cut.Bottom + cut.Sag(cut.Bottom) * (1 - t * t)));
        return Shapes.Both([.. right], Middle);
    }

    private void Sleeves(bool behind)
    {
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            Vector2 P(float x, float y) => new(Middle + side * x, cut.Top + y);
            float s = cut.Shoulder, c = cut.Chest;
            Vector2[]? shape = cut.Sleeve switch
            {
                Sleeve.Long => Shapes.Smooth(P(s - 8, 26), P(s + 66, 92), P(s + 122, 250), P(s + 150, 400), P(s + 150, 400), P(s + 92, 414), P(s + 92, 414), P(s + 52, 290), P(c - 10, 128)),
                Sleeve.Puff => Shapes.Smooth(P(s - 8, 26), P(s + 44, 44), P(s + 66, 92), P(s + 42, 120), P(s + 42, 120), P(s - 8, 128), P(c - 14, 118)),
                Sleeve.Short => Shapes.Smooth(P(s - 8, 26), P(s + 50, 74), P(s + 82, 150), P(s + 82, 150), P(s + 10, 178), P(s + 10, 178), P(c - 12, 124)),
                Sleeve.Frill => Shapes.Smooth(P(s - 20, 12), P(s + 34, 34), P(s + 46, 90), P(s + 16, 140), P(c - 10, 130)),
                Sleeve.Strap => [P(cut.Neck - 6, -90), P(cut.Neck + 22, -90), P(cut.Neck + 26, 34), P(cut.Neck - 4, 30)],
                _ => null,
            };
            if (shape is null) continue;
            if (behind)
            {
                all.Fill(shape, 1);
                sheet.Cloth.Fill(shape, 0.78f);
                continue;
            }

            sheet.Cloth.Clip = null;
            sheet.Light.Clip = null;
            Border(shape);
            if (cut.Sleeve == Sleeve.Long)
            {
                Lace.Along(sheet, [P(s + 150, 400), P(s + 92, 414)], 15 * side);
                for (var k = 0; k < 4; k++) sheet.Light.Path(Shapes.Smooth(P(s + 30 + k * 14, 70 + k * 8), P(s + 84 + k * 10, 250), P(s + 104 + k * 11, 396)), 5, k % 2 == 0 ? 0.09f : 0.05f, Blend.Cut);
            }
            else if (cut.Sleeve == Sleeve.Frill) Lace.Along(sheet, Shapes.Smooth(P(s - 20, 12), P(s + 34, 34), P(s + 46, 90), P(s + 16, 140)), 13 * -side);
            else if (cut.Sleeve is Sleeve.Puff or Sleeve.Short) Lace.Along(sheet, cut.Sleeve == Sleeve.Puff ? [P(s + 42, 120), P(s - 8, 128)] : [P(s + 82, 150), P(s + 10, 178)], 11 * side);
        }
    }

    // Cloth that hangs from waist or yoke falls in folds that widen to the hem.
    private void Folds()
    {
        var shade = new Plane(Sheet.Width, Sheet.Height, 0.5f);
        var from = YokeFoot;
        if (cut.Bottom - from < 60) return;
        var count = (int)(cut.Hem / 15);
        for (var k = -count; k <= count; k++)
        {
            var t = (k + sheet.Chance.Between(-0.35f, 0.35f)) / (count + 0.5f);
            var reach = sheet.Chance.Between(0.5f, 1);
            var line = new Vector2[12];
            for (var i = 0; i < line.Length; i++)
            {
                var y = from + (cut.Bottom - from) * i / 11f * (k % 3 == 0 ? 1 : reach);
                line[i] = new(Middle + t * cut.Half(y) + 3 * sheet.Chance.Drift(i * 0.7f, k), y + cut.Sag(y) * (1 - t * t));
            }

            shade.Path(line, sheet.Chance.Between(5, 15), sheet.Chance.Between(0.06f, 0.15f), k % 2 == 0 ? Blend.Cut : Blend.Lift);
        }

        shade.Blur(5);
        for (var i = 0; i < shade.Values.Length; i++) sheet.Light.Values[i] += body.Values[i] * 0.62f * MathF.Min(0.12f, shade.Values[i] - 0.5f);
        if (!cut.Seam) return;
        sheet.Light.Path(Level(from), 6, 0.14f, Blend.Cut);
        sheet.Cloth.Path(Level(from - 3), 5, 0.6f);
    }

    private Vector2[] Level(float y)
    {
        var line = new Vector2[41];
        for (var i = 0; i <= 40; i++)
        {
            var t = i / 20f - 1;
            line[i] = new(Middle + t * cut.Half(y), y + cut.Sag(y) * (1 - t * t));
        }

        return line;
    }

    private void Trim()
    {
        sheet.Cloth.Clip = body;
        sheet.Light.Clip = body;
        var length = Entries(garment, "measures").Where(m => Text(m, "name") is "front-length" or "length" or "back-length" or "skirt-length").Select(m => Millimetres(m["length"])).DefaultIfEmpty(0).Max();
        var scale = (cut.Bottom - cut.Top) / (length > 0 ? length : 800);
        foreach (var work in Entries(garment, "techniques"))
        {
            if (fromBehind && Text(work, "part") is "front-panel" or "bodice-front" or "opening") continue;
            var low = Text(work, "part") is "skirt" or "flounce" or "hem";
            var upright = Text(work, "runs") is not ("around" or "across" or "along-edge");
            switch (Text(work, "kind"))
            {
                case "tucks" when Text(work, "remains") == "let-out": break;
                case "tucks" when upright: UprightTucks(work, low); break;
                case "tucks" when low: LevelTucks(work, scale); break;
                case "tucks": LevelRows(work); break;
                case "insertion" or "embroidered-trim" when Text(work, "form") is "insertion": Bands(work, scale); break;
                case "whitework" or "embroidery" when Text(work, "part") == "front-panel": Panel(); break;
                case "embroidery" when low: Vine(); break;
                case "whitework" when low: Sprays(); break;
                case "lace" when Text(work, "form") == "medallion": Medallions(); break;
                case "lace" or "edging" or "embroidered-trim" when low: LowerEdge(Millimetres(work["width"]) * scale); break;
                case "lace" or "edging" or "embroidered-trim" when Text(work, "part") is "neck" or "collar": NeckEdge(Millimetres(work["width"]) * scale); break;
                case "edging" when Text(work, "part") == "yoke": sheet.Cloth.Fill(Shapes.Box(0, cut.Top - 80, Sheet.Width, cut.YokeY - cut.Top + 80), 0.42f, Blend.Cut); Net(cut.YokeY); break;
                case "ruffle" when Text(work, "part") == "flounce" && Text(work, "face") != "inside": Flounce(Millimetres(work["depth"]) * scale); break;
            }
        }
    }

    // Most of these fasten down the back.
    private void Opening()
    {
        var (top, foot) = (cut.NeckDip == 0 ? cut.WaistY - 30 : cut.Top + cut.NeckDip, MathF.Min(cut.Bottom - 40, cut.NeckDip == 0 ? cut.WaistY + 190 : MathF.Max(YokeFoot, cut.Top + 240)));
        sheet.Cloth.Stroke(Middle + 9, top, Middle + 9, foot, 18, 0.7f);
        sheet.Light.Stroke(Middle, top, Middle, foot, 2.4f, 0.3f, Blend.Cut);
        for (var y = top + 16; y < foot - 8; y += 46)
        {
            sheet.Light.Fill(Shapes.Oval(Middle + 11, y + 2.5f, 8, 8), 0.26f, Blend.Cut);
            sheet.Cloth.Fill(Shapes.Oval(Middle + 10, y, 7, 7), 1);
            foreach (var dx in (ReadOnlySpan<int>)[-2, 2]) sheet.Light.Fill(Shapes.Oval(Middle + 10 + dx, y, 1.2f, 1.2f), 0.5f, Blend.Cut);
        }
    }

    private float YokeFoot => cut.YokeY > 0 ? cut.YokeY : cut.WaistY;

    private void UprightTucks(JsonObject work, bool low)
    {
        var count = (work["groups"] as JsonArray ?? []).OfType<JsonObject>().Sum(g => (int)(Number(g["tucks"]) ?? 1));
        var from = low ? cut.WaistY : cut.Top - 60;
        var to = low ? cut.Bottom + 20 : Text(work, "tuckKind") == "release" ? MathF.Max(cut.Top + 170, cut.YokeY + 110) : YokeFoot;
        var room = low ? 0.34f : 0.12f;
        for (var k = 0; k < count; k++)
        {
            var t = room + k * MathF.Min(0.08f, (0.86f - room) / MathF.Max(1, count - 1));
            foreach (var side in (ReadOnlySpan<int>)[-1, 1])
            {
                float x0 = Middle + side * t * cut.Half(MathF.Max(from, cut.Top + 120)), x1 = Middle + side * t * cut.Half(to);
                sheet.Cloth.Stroke(x0, from, x1, to, 3, 0.7f);
                sheet.Light.Stroke(x0 + 2.6f, from, x1 + 2.6f, to, 1.6f, 0.20f, Blend.Cut);
            }
        }
    }

    private void LevelTucks(JsonObject work, float scale)
    {
        var lead = Millimetres(work["lead"]);
        var at = cut.Bottom - MathF.Max(26, (lead > 0 ? lead : 60) * scale);
        var groups = (work["groups"] as JsonArray ?? []).OfType<JsonObject>().ToList();
        for (var g = 0; g < groups.Count; g++)
        {
            var width = MathF.Max(4, Millimetres(groups[g]["width"]) * scale);
            var space = MathF.Max(3, Millimetres(groups[g]["space"]) * scale);
            for (var k = 0; k < (int)(Number(groups[g]["tucks"]) ?? 1); k++)
            {
                sheet.Light.Path(Level(at + 2.5f), 4, 0.26f, Blend.Cut);
                sheet.Cloth.Path(Level(at - width / 2), width, 0.72f);
                sheet.Light.Path(Level(at - width), 1.4f, 0.14f, Blend.Cut);
                at -= width + space;
            }

            at -= 8;
        }
    }

    private void LevelRows(JsonObject work)
    {
        var count = (work["groups"] as JsonArray ?? []).OfType<JsonObject>().Sum(g => (int)(Number(g["tucks"]) ?? 1));
        if (Text(work, "part") is not ("bodice-front" or "yoke")) return;
        for (var k = 1; k <= count; k++)
        {
            var y = cut.Top + 60 + k * (cut.WaistY - cut.Top - 70) / (count + 1);
            sheet.Cloth.Path(Level(y), 3, 0.7f);
            sheet.Light.Path(Level(y + 2.6f), 1.6f, 0.18f, Blend.Cut);
        }
    }

    private void Bands(JsonObject work, float scale)
    {
        var width = Math.Clamp(Millimetres(work["width"]) * scale, 13, 60);
        var places = Text(work, "part") == "front-panel" ? (ReadOnlySpan<float>)[0] : [-0.46f, 0.46f];
        foreach (var t in places)
        {
            for (var y = cut.Top - 60; y < YokeFoot; y += 7)
            {
                var x = Middle + t * cut.Half(MathF.Max(y, cut.Top + 120));
                sheet.Cloth.Fill(Shapes.Box(x - width / 2, y, width, 7), 0.38f, Blend.Cut);
                sheet.Cloth.Stroke(x - width / 3, y, x + width / 3, y + 6, 2, 0.7f);
                sheet.Cloth.Stroke(x + width / 3, y, x - width / 3, y + 6, 2, 0.7f);
                foreach (var side in (ReadOnlySpan<int>)[-1, 1]) sheet.Cloth.Stroke(x + side * width / 2, y, x + side * width / 2, y + 7, 2.6f, 0.9f);
            }
        }
    }

    private void Panel()
    {
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            var line = new Vector2[] { new(Middle + side * 12, cut.WaistY), new(Middle + side * cut.Hem * 0.42f, cut.Bottom + 20) };
            sheet.Cloth.Path(line, 6, 0.8f);
            for (var y = cut.WaistY + 10; y < cut.Bottom + 10; y += 13)
            {
                var t = (y - cut.WaistY) / (cut.Bottom + 20 - cut.WaistY);
                sheet.Cloth.Fill(Shapes.Oval(Middle + side * (20 + t * (cut.Hem * 0.42f - 4)), y, 6, 6, 0, 12), 0.85f);
            }
        }

        for (var (y, k) = (cut.WaistY + 90, 0); y < cut.Bottom - 40; y += 62 + k * 9, k++)
        {
            var room = cut.Hem * 0.40f * (y - cut.WaistY) / (cut.Bottom - cut.WaistY);
            EmbroideredBand.Spray(sheet, new(Middle, y), MathF.Min(64, 14 + room * 0.5f));
            if (room < 70) continue;
            foreach (var side in (ReadOnlySpan<int>)[-1, 1]) EmbroideredBand.Satin(sheet, new(Middle + side * room * 0.5f, y + 30), new(Middle + side * room * 0.86f, y - 16), 15);
        }

        foreach (var side in (ReadOnlySpan<int>)[-1, 1]) sheet.Cloth.Stroke(Middle + side * 8, cut.WaistY, Middle + side * cut.Chest * 0.7f, cut.Top + 40, 6, 0.85f);
    }

    private void Sprays()
    {
        for (var t = -0.9f; t <= 0.91f; t += 0.2f)
        {
            var y = cut.Bottom - 52;
            EmbroideredBand.Spray(sheet, new(Middle + t * cut.Half(y), y + cut.Sag(y) * (1 - t * t)), 27);
        }
    }

    private void Vine()
    {
        var line = Level(cut.Bottom - 64);
        sheet.Cloth.Path(line, 3, 0.9f);
        for (var i = 0; i < line.Length - 1; i++)
        {
            foreach (var half in (ReadOnlySpan<float>)[0, 0.5f])
            {
                var at = Vector2.Lerp(line[i], line[i + 1], half);
                var up = half == 0 ? -9 : 9;
                sheet.ThreadPath([at, at + new Vector2(5, up * 0.5f), at + new Vector2(4, up)], 2.6f);
            }
        }
    }

    private void Medallions()
    {
        foreach (var t in (ReadOnlySpan<float>)[-0.75f, -0.5f, -0.25f, 0, 0.25f, 0.5f, 0.75f])
        {
            var y = cut.Bottom - 215;
            var at = new Vector2(Middle + t * cut.Half(y), y + cut.Sag(y) * (1 - t * t));
            sheet.Cloth.Fill(Shapes.Oval(at.X, at.Y, 27, 27), 0.7f, Blend.Cut);
            for (var k = 0; k < 6; k++)
            {
                var (s, c) = MathF.SinCos(k * MathF.PI / 3);
                sheet.Cloth.Fill(Shapes.Oval(at.X + c * 15, at.Y + s * 15, 8, 5, MathF.Atan2(s, c), 14), 0.9f);
            }

            sheet.Cloth.Path(Shapes.Arc(at.X, at.Y, 27, 0, 2 * MathF.PI, 30), 3.5f, 0.9f);
        }
    }

    private void LowerEdge(float width)
    {
        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
        Lace.Along(sheet, Level(cut.Bottom), -Math.Clamp(width, 14, 60));
        sheet.Cloth.Clip = body;
        sheet.Light.Clip = body;
    }

    private void NeckEdge(float width)
    {
        sheet.Cloth.Clip = null;
        sheet.Light.Clip = null;
        var neck = Shapes.Arc(Middle, cut.Top, cut.Neck, MathF.PI, 0, 24).Select(p => new Vector2(p.X, cut.Top + (p.Y - cut.Top) * cut.NeckDip / cut.Neck)).ToArray();
        Lace.Along(sheet, neck, Math.Clamp(width, 9, 20));
        sheet.Cloth.Clip = body;
        sheet.Light.Clip = body;
    }

    private void Net(float to)
    {
        for (var y = cut.Top - 80; y < to; y += 16) sheet.Cloth.Stroke(0, y, Sheet.Width, y, 3, 0.8f);
        for (var x = 10f; x < Sheet.Width; x += 16)
        {
            sheet.Cloth.Stroke(x, cut.Top - 80, x, to, 3, 0.8f);
            for (var (y, row) = (cut.Top + 60, 0); y < to - 20; y += 16, row++)
            {
                if ((int)(x / 16 + row) % 5 is 0 or 1 && row % 4 < 3) sheet.Cloth.Fill(Shapes.Box(x, y, 15, 15), 0.8f);
            }
        }
    }

    private void Flounce(float depth)
    {
        var at = cut.Bottom - depth;
        for (var t = -0.99f; t < 1; t += sheet.Chance.Between(0.018f, 0.034f))
        {
            var y = at + cut.Sag(at) * (1 - t * t);
            var end = sheet.Chance.Between(0.35f, 0.95f);
            sheet.Light.Stroke(Middle + t * cut.Half(at), y, Middle + t * 1.01f * cut.Half(at + depth * end), y + depth * end, 3, 0.07f, Blend.Cut);
        }

        sheet.Cloth.Path(Level(at), 9, 0.8f);
        sheet.Light.Path(Level(at + 6), 4, 0.22f, Blend.Cut);
    }

    private void Border(ReadOnlySpan<Vector2> outline)
    {
        for (var i = 0; i < outline.Length; i++)
        {
            var (a, b) = (outline[i], outline[(i + 1) % outline.Length]);
            sheet.Cloth.Stroke(a.X, a.Y, b.X, b.Y, 3.4f, 0.55f);
        }
    }
}
