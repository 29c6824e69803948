using System.Text.Json.Nodes;
using static HeirloomArchive.Web.Demo.Drawing.Read;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Where the lines of a run of tucks lie in its picture, in pixels along the row.</summary>
/// <param name="Scale">Pixels a millimetre of the finished piece.</param>
/// <param name="FoldsDown">The folds run down and the row across; else the row goes down the picture.</param>
/// <param name="Lines">Each tuck's stitching line and the edge of its fold. Work by hand wanders about them by up to 2.2 pixels.</param>
internal sealed record TuckLines(float Scale, bool FoldsDown, IReadOnlyList<(float Stitching, float Fold)> Lines)
{
    /// <param name="technique">Of kind <c>tucks</c>, as the API answers it.</param>
    public static TuckLines Of(JsonObject technique)
    {
        var folds = Lay(technique, out var finished);
        var down = Text(technique, "runs") is not ("around" or "across" or "along-edge");
        var along = down ? Sheet.Width : Sheet.Height;
        var widest = folds.Count == 0 ? 1 : folds.Max(f => f.Width);
        var scale = Math.Clamp(along * 0.86f / finished, 2.5f, MathF.Max(2.5f, 30 / MathF.Sqrt(widest)));
        var start = (along - finished * scale) / 2;
        var flip = Text(technique, "turned") is "to-centre" or "up" or "from-edge" ? -1 : 1;
        return new(scale, down, [.. folds.Select(f => (start + f.Stitching * scale, start + (f.Stitching + f.Width * (f.Mirrored ? -flip : flip)) * scale))]);
    }

    // Where each tuck's stitching falls on the finished piece, in millimetres from the start of the picture.
    private static List<(float Stitching, float Width, bool Mirrored)> Lay(JsonObject technique, out float finished)
    {
        var half = new List<(float Stitching, float Width, bool Mirrored)>();
        var centred = technique["centre"] is not null;
        var at = centred ? Millimetres(technique["centre"]) / 2 : 0;
        var groups = technique["groups"] as JsonArray ?? [];
        var between = technique["between"] as JsonArray ?? [];
        for (var g = 0; g < groups.Count; g++)
        {
            var group = (JsonObject)groups[g]!;
            var width = MathF.Max(0.4f, Millimetres(group["width"]));
            var space = group["space"] is { } s ? Millimetres(s)
                : group["stitchToStitch"] is { } p ? Millimetres(p) - width
                : group["foldToFold"] is { } f ? Text(technique, "tuckKind") == "twin-needle" ? Millimetres(f) - width : Millimetres(f) - 3 * width
                : width;
            var count = (int)(Number(group["tucks"]) ?? 1);
            for (var i = 0; i < count; i++)
            {
                half.Add((at, width, false));
                at += width + (i < count - 1 ? space : 0);
            }

            if (g < groups.Count - 1) at += g < between.Count ? Millimetres(between[g]) : space;
        }

        var margin = MathF.Max(4, half.Count == 0 ? 10 : half.Max(f => f.Width) * 1.2f);
        finished = centred ? 2 * (at + margin) : at + 2 * margin;
        var middle = finished / 2;
        return centred
            ? [.. half.Select(f => (middle + f.Stitching, f.Width, false)), .. half.Select(f => (middle - f.Stitching, f.Width, true))]
            : [.. half.Select(f => (margin + f.Stitching, f.Width, false))];
    }
}
