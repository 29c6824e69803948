using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The table of positions: each from the one line, and from the cut edge, rounded by itself; none added up from another.</summary>
internal static class Positions
{
    public static JsonObject Of(Run run, Datum datum, Allowances allow, Rounding rounding)
    {
        var edge = allow.Start + allow.Shaping;
        return new JsonObject
        {
            ["unit"] = rounding.Name,
            ["text"] = $"Everything is measured from {datum.Text}, marked first; never from the line before. Figures are {rounding.Words}; "
                + "≈ stands before one that was rounded (halves go up). Lines a and b are the two stitching lines of a tuck and come together when it is sewn."
                + (datum.Line == "centre" ? " Of each pair of numbers alike, one lies towards the start and one towards the end." : ""),
            ["fromDatum"] = $"from {datum.Text}",
            ["fromCutEdge"] = edge == Length.Zero
                ? "from the cut edge at the start, nothing added"
                : $"from the cut edge at the start, {rounding.Text(edge)} of {Added(allow)} included",
            ["sewn"] = "when sewn",
            ["rows"] = new JsonArray([.. run.Tucks.Select(t => Row(run, t, datum, edge, rounding))]),
        };
    }

    private static JsonObject Row(Run run, Tuck tuck, Datum datum, Length edge, Rounding rounding)
    {
        JsonNode Line(string number, string what, Length at) => new JsonObject
        {
            ["number"] = number,
            ["what"] = what,
            ["fromDatum"] = rounding.Shown(datum.Flat(run, at)),
            ["fromCutEdge"] = rounding.Shown(at + edge),
        };
        return new JsonObject
        {
            ["tuck"] = tuck.Number,
            ["group"] = tuck.Group,
            ["half"] = tuck.Half,
            ["width"] = rounding.Exact(tuck.Width),
            ["lines"] = new JsonArray(
                Line($"{tuck.Number}a", "stitching", tuck.First),
                Line($"{tuck.Number}", "fold", tuck.Fold),
                Line($"{tuck.Number}b", "stitching", tuck.Second)),
            ["sewnStitching"] = rounding.Shown(datum.Sewn(run, tuck.SewnStitch)),
            ["sewnFold"] = rounding.Shown(datum.Sewn(run, tuck.SewnFold)),
        };
    }

    private static string Added(Allowances allow) =>
        allow.Shaping == Length.Zero ? "allowance" : allow.Start == Length.Zero ? "shaping" : "allowance and shaping";
}
