using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sizes;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>What a recorded run of tucks comes to, in sentences: how it was understood, and what its measures say together.</summary>
public static class RunMeasures
{
    /// <summary>The run as it was understood: its groups, the way of its folds, how they are turned and so lie.</summary>
    public static string Said(JsonObject run)
    {
        var parts = new[]
        {
            Say.Groups(run) is { Length: > 0 } groups ? groups : T("Tucks"),
            run["runs"] is { } runs ? T($"the folds go {Plain(runs)}") : "",
            run["measuredFrom"] is { } from ? T($"the row starts at the {Plain(from)}") : "",
            run["turned"]?.ToString() switch
            {
                null => "",
                "not-determined" => T("how they are turned is not determined"),
                "standing" => T("they stand up"),
                "wearers-left" => T("they are turned to the wearer's left"),
                "wearers-right" => T("they are turned to the wearer's right"),
                "to-centre" => T("they are turned to the centre"),
                "to-sides" => T("they are turned to the sides"),
                "to-edge" => T("they are turned to the edge"),
                "from-edge" => T("they are turned from the edge"),
                var way => T($"they are turned {Say.Plain(way).ToLowerInvariant()}"),
            },
            run["lies"]?.ToString() switch
            {
                "towards-end" => T("so the tucks lie towards the end of the row"),
                "towards-start" => T("so the tucks lie towards the start of the row"),
                "from-centre" => T("so the tucks lie away from the middle"),
                "towards-centre" => T("so the tucks lie towards the middle"),
                _ => "",
            },
        };
        return string.Join("; ", parts.Where(p => p.Length > 0)) + ".";
    }

    /// <summary>The mean width, space and repeat of a run measured over all, with their errors; null where that was not measured.</summary>
    public static string? Of(JsonObject run)
    {
        if (run["over"] is not JsonObject over || MeasureType.Of(over["run"]) is not { } length)
        {
            return null;
        }

        JsonObject[] groups = [.. (run["groups"] as JsonArray ?? []).OfType<JsonObject>()];
        if (groups.Length > 1)
        {
            return T("Measured over all, but the run has several groups: a mean width would mix them.");
        }

        var tucks = Say.Number(over["tucks"] ?? groups.FirstOrDefault()?["tucks"]);
        if (tucks == 0)
        {
            return T("Measured over all; how many tucks that took in is not recorded.");
        }

        var typed = over["run"]!["text"]!.ToString();
        var unit = Length.UnitOf(typed);
        var (tape, tapeWords) = unit == LengthUnit.Inches ? (Length.FromSixtyFourthsOfInch(4), "1/16 in") : (Length.FromMillimetres(1), "1 mm");
        try
        {
            var found = MeasuredRun.Of(new(
                [new(length, (int)tucks, MeasureType.Of(over["widthLeast"]), MeasureType.Of(over["widthMost"]))], [],
                [.. groups.Select(g => MeasureType.Of(g["width"])).OfType<Length>()], [.. groups.Select(g => MeasureType.Of(g["space"])).OfType<Length>()], tape));
            string[] means =
            [
                .. found.Width is { } width ? [T($"width {Text(width, unit)}")] : Array.Empty<string>(),
                .. found.Space is { } space ? [T($"plain cloth between {Text(space, unit)}")] : Array.Empty<string>(),
                T($"stitching to stitching {Text(found.Repeat, unit)}"),
            ];
            var said = string.Join(", ", means);
            return N(tucks, $"{Written.Number(tucks)} tuck over {typed}: on the mean {said}, if the tape was read to {tapeWords}.", $"{Written.Number(tucks)} tucks over {typed}: on the mean {said}, if the tape was read to {tapeWords}.")
                + (found.Disagreement is > 2 ? " " + T("The measures disagree by more than the tape explains: measure once more.") : "");
        }
        catch (FaultException e)
        {
            return N(tucks, $"{Written.Number(tucks)} tuck over {typed}.", $"{Written.Number(tucks)} tucks over {typed}.") + " " + e.Faults[0].Message;
        }
    }

    private static string Text(Estimate estimate, LengthUnit unit) => unit == LengthUnit.Inches
        ? FormattableString.Invariant($"{estimate.Value.Millimetres / 25.4m:0.###} in ± {estimate.Error.Millimetres / 25.4m:0.###}")
        : FormattableString.Invariant($"{estimate.Value.Millimetres:0.##} mm ± {estimate.Error.Millimetres:0.##}");

    private static string Plain(JsonNode slug) => Say.Plain(slug.ToString()).ToLowerInvariant();
}
