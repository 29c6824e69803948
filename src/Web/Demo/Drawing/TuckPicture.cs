using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>A run of tucks close to, to its own scale: where three layers lie the ground shows least.</summary>
internal sealed class TuckPicture
{
    private readonly Sheet sheet;
    private readonly float scale; // pixels a millimetre
    private readonly bool vertical;
    private readonly bool byHand;
    private readonly float stitch; // millimetres from stitch to stitch

    private TuckPicture(Sheet sheet, JsonObject technique, float scale)
    {
        this.sheet = sheet;
        this.scale = scale;
        vertical = Text(technique, "runs") is not ("around" or "across" or "along-edge");
        byHand = Text(technique, "sewn") is "hand" or "both";
        var evidence = technique["evidence"] as JsonObject;
        stitch = Number(evidence?["stitchesPerInch"]) is { } inch ? 25.4f / inch
            : Number(evidence?["stitchesPerCm"]) is { } cm ? 10 / cm : 2;
    }

    /// <param name="sheet">To draw on.</param>
    /// <param name="technique">A technique of kind <c>tucks</c> with at least one group.</param>
    public static void Draw(Sheet sheet, JsonObject technique)
    {
        var run = TuckLines.Of(technique);
        var picture = new TuckPicture(sheet, technique, run.Scale);
        sheet.Weave(0.6f, Math.Clamp(0.27f * run.Scale, 3, 5));
        for (var i = 0; i < run.Lines.Count; i++)
        {
            var (stitching, fold) = run.Lines[i];
            if (Text(technique, "turned") == "standing") picture.Ridge(stitching, MathF.Abs(fold - stitching), i);
            else picture.Tuck(stitching, fold - stitching, i);
        }

        if (Text(technique, "tuckKind") == "shell")
        {
            foreach (var (stitching, fold) in run.Lines) picture.Shells(fold, MathF.Abs(fold - stitching), MathF.Sign(fold - stitching));
        }

        if (Text(technique, "tuckKind") is "hemstitched" or "feather-stitched")
        {
            var drawn = Text(technique, "tuckKind") == "hemstitched";
            foreach (var (stitching, fold) in run.Lines) picture.Ornament(stitching - 9 * MathF.Sign(fold - stitching), drawn);
        }

        Rule.Draw(sheet, run.Scale, picture.vertical);
    }

    // Along the line that holds a tuck: threads drawn and bunched, or feather stitch.
    private void Ornament(float at, bool drawn)
    {
        var length = vertical ? Sheet.Height : Sheet.Width;
        for (var (v, k) = (4f, 0); v < length; v += 17, k++)
        {
            if (drawn)
            {
                for (var w = (int)v; w < v + 11; w++) for (var d = -5; d <= 5; d++) Touch(sheet.Cloth, (int)at + d, w, 0.85f, Blend.Cut);
                Along(at + 6, v + 12, at + 6, v + 17, 2.6f);
            }
            else
            {
                var side = k % 2 == 0 ? -1 : 1;
                Along(at - side * 3, v, at + side * 3, v + 17, 3);
                Along(at + side * 13, v + 2, at + side * 3, v + 17, 3);
            }
        }
    }

    private void Tuck(float stitching, float width, int line)
    {
        var direction = MathF.Sign(width);
        var deep = MathF.Abs(width);
        var shadow = Math.Clamp(deep * 0.35f, 5, 16);
        var wobble = byHand ? MathF.Min(2.2f, deep * 0.10f) : 0.35f;
        var length = vertical ? Sheet.Height : Sheet.Width;
        for (var v = 0; v < length; v++)
        {
            var sewnAt = stitching + wobble * sheet.Chance.Drift(v / 60f, line * 7 + 1);
            var foldAt = stitching + width + wobble * sheet.Chance.Drift(v / 80f, line * 7 + 2);
            var size = MathF.Abs(foldAt - sewnAt);
            var (low, high) = direction > 0 ? (sewnAt - 3, sewnAt + size + shadow) : (sewnAt - size - shadow, sewnAt + 3);
            for (var u = (int)low; u <= (int)high; u++)
            {
                var d = (u - sewnAt) * direction;
                var inside = Math.Clamp(d / size, 0, 1);
                var cover = Math.Clamp(d + 0.5f, 0, 1) * Math.Clamp(size - d + 0.5f, 0, 1);
                if (d < 0) Touch(sheet.Light, u, v, 0.05f * Math.Clamp((3 + d) / 3, 0, 1), Blend.Cut);
                if (cover > 0)
                {
                    Touch(sheet.Cloth, u, v, 0.74f * cover, Blend.Lay);
                    Touch(sheet.Light, u, v, 0.035f * MathF.Max(0, inside - 0.55f) / 0.45f * cover, Blend.Lift);
                    Touch(sheet.Light, u, v, 0.10f * MathF.Max(0, 1 - inside / 0.3f) * cover, Blend.Cut);
                }

                if (d > size) Touch(sheet.Light, u, v, 0.30f * (1 - cover) * MathF.Pow(Math.Clamp(1 - (d - size) / shadow, 0, 1), 2), Blend.Cut);
            }
        }

        Stitches(stitching + direction * MathF.Min(2.5f, deep * 0.12f), wobble, line);
    }

    // A tuck that lies neither way: a narrow ridge, lit on one side.
    private void Ridge(float at, float width, int line)
    {
        var half = width / 2;
        var length = vertical ? Sheet.Height : Sheet.Width;
        for (var v = 0; v < length; v++)
        {
            var middle = at + (byHand ? 1.2f : 0.2f) * sheet.Chance.Drift(v / 50f, line);
            for (var d = -half - 6; d <= half + 6; d++)
            {
                var u = (int)MathF.Round(middle + d);
                var x = d / half;
                if (MathF.Abs(x) <= 1)
                {
                    Touch(sheet.Cloth, u, v, 0.6f * (1 - 0.3f * x * x), Blend.Lay);
                    Touch(sheet.Light, u, v, 0.05f - 0.16f * MathF.Max(0, x) + 0.02f * MathF.Min(0, x), Blend.Lift);
                }
                else if (d > 0) Touch(sheet.Light, u, v, 0.2f * (1 - (d - half) / 6), Blend.Cut);
            }
        }

        Stitches(at - half, 0.4f, line);
        if (!byHand) Stitches(at + half, 0.2f, line);
    }

    private void Stitches(float at, float wobble, int line)
    {
        var length = vertical ? Sheet.Height : Sheet.Width;
        var step = MathF.Max(5, stitch * scale);
        var thick = Math.Clamp(0.22f * scale, 1.7f, 4.2f);
        var v = sheet.Chance.Between(-step, 0);
        while (v < length)
        {
            var pitch = byHand ? step * sheet.Chance.Between(0.78f, 1.24f) : step;
            var seen = byHand ? pitch * sheet.Chance.Between(0.44f, 0.60f) : pitch * 0.80f;
            var shift = byHand ? sheet.Chance.Between(-0.8f, 0.8f) : 0;
            var end = at + shift + (byHand ? sheet.Chance.Between(-1f, 1f) : 0);
            var drift = wobble * sheet.Chance.Drift(v / 60f, line * 7 + 1);
            Along(at + shift + drift, v, end + drift, v + seen, thick);
            Hole(end + drift, v + seen + thick * 0.6f, thick);
            v += pitch;
        }
    }

    private void Shells(float fold, float width, int flip)
    {
        var length = vertical ? Sheet.Height : Sheet.Width;
        var step = MathF.Max(26, 9.5f * scale);
        for (var v = sheet.Chance.Between(0, step); v < length; v += step * sheet.Chance.Between(0.94f, 1.06f))
        {
            for (var k = 0; k < 2; k++) Along(fold - width * 0.9f * flip, v - 2 + k * 4, fold + 3 * flip, v - 1 + k * 3, 2.6f);
            for (var d = 0; d < width * 0.5f; d++)
            {
                var dent = (int)(width * 0.30f * (1 - d / (width * 0.5f)));
                for (var e = 0; e < dent; e++)
                {
                    foreach (var w in (int[])[(int)v - d, (int)v + d])
                    {
                        Touch(sheet.Cloth, (int)(fold - e * flip), w, 0.55f, Blend.Cut);
                        Touch(sheet.Light, (int)(fold - e * flip), w, 0.10f, Blend.Cut);
                    }
                }
            }
        }
    }

    private void Along(float u0, float v0, float u1, float v1, float thick)
    {
        if (vertical) sheet.Thread(u0, v0, u1, v1, thick);
        else sheet.Thread(v0, u0, v1, u1, thick);
    }

    private void Hole(float u, float v, float thick)
    {
        var (x, y) = vertical ? (u, v) : (v, u);
        sheet.Light.Stroke(x, y, x, y, thick * 0.8f, 0.22f, Blend.Cut);
    }

    private void Touch(Plane plane, int u, int v, float amount, Blend blend)
    {
        var (x, y) = vertical ? (u, v) : (v, u);
        if (x >= 0 && y >= 0 && x < Sheet.Width && y < Sheet.Height) plane.Touch(x, y, amount, blend);
    }
}
