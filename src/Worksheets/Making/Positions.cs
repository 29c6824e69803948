using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The table of positions: each from the one line, and from the cut edge, rounded by itself; none added up from another.</summary>
internal static class Positions
{
    public static JsonObject Of(Whole run, Datum datum, Allowances allow, Rounding rounding)
    {
        var edge = allow.Start + allow.Shaping;
        return new JsonObject
        {
            ["unit"] = rounding.Name,
            ["text"] = string.Join(" ", Told(run, datum, rounding)),
            ["fromDatum"] = T($"from {datum.Text}"),
            ["fromCutEdge"] = FromCutEdge(allow, rounding.Text(edge)),
            ["sewn"] = T("when sewn"),
            ["beside"] = rounding.Unit == LengthUnit.Inches ? "mm" : "in",
            ["rows"] = new JsonArray([.. run.Parts.SelectMany(p => p.Tucks.Select(t => Row(run, p, t, datum, edge, rounding)))]),
            ["insertions"] = new JsonArray([.. run.Insertions.Select(p => Insertion(run, p, datum, edge, rounding))]),
        };
    }

    private static IEnumerable<string> Told(Whole run, Datum datum, Rounding rounding)
    {
        yield return T($"Everything is measured from {datum.Text}, marked first; never from the line before.");
        yield return rounding.Unit == LengthUnit.Inches
            ? T($"Figures are {rounding.Words}; ≈ stands before one that was rounded (halves go up); the small figures are the same in millimetres.")
            : T($"Figures are {rounding.Words}; ≈ stands before one that was rounded (halves go up); the small figures are the same in inches.");
        yield return run.AllTwinNeedle
            ? T("Lines a and b are where the two needles run, the line between them is the one to follow.")
            : T("Lines a and b are the two stitching lines of a tuck and come together when it is sewn.");
        if (run.AnyTwinNeedle && !run.AllTwinNeedle)
        {
            yield return T("Of twin-needle tucks no fold is made: the line between a and b is the one to follow.");
        }

        if (run.Insertions.Any())
        {
            yield return T("Lines that begin with L belong to the insertions.");
        }

        if (datum.Line == "centre")
        {
            yield return T("Of each pair of numbers alike, one lies towards the start and one towards the end.");
        }
    }

    /// <summary>Where an insertion is laid on the flat cloth, or the one line at which the cloth is cut for it.</summary>
    private static JsonObject Insertion(Whole run, Part part, Datum datum, Length edge, Rounding rounding)
    {
        var (name, laidOn) = ($"L{part.Strip}", part.Insertion!.LaidOn);
        return new JsonObject
        {
            ["insertion"] = part.Strip,
            ["section"] = part.Number,
            ["half"] = part.Half,
            ["laidOn"] = laidOn,
            ["width"] = LengthJson.Write(part.Insertion.Width.Length, part.Insertion.Width.Text),
            ["lines"] = laidOn
                ? new JsonArray(Line(run, $"{name}a", T("edge of the insertion"), part.FlatFrom, datum, edge, rounding), Line(run, $"{name}b", T("edge of the insertion"), part.FlatTo, datum, edge, rounding))
                : new JsonArray(Line(run, name, T("cut here and let in"), part.FlatFrom, datum, edge, rounding)),
            ["sewnFrom"] = rounding.Shown(datum.Sewn(run, part.FinishedFrom)),
            ["sewnTo"] = rounding.Shown(datum.Sewn(run, part.FinishedTo)),
        };
    }

    private static JsonObject Line(Whole run, string number, string what, Length at, Datum datum, Length edge, Rounding rounding) => new JsonObject
    {
        ["number"] = number,
        ["what"] = what,
        ["fromDatum"] = rounding.Shown(datum.Flat(run, at)),
        ["fromDatumBeside"] = rounding.Beside(datum.Flat(run, at)),
        ["fromCutEdge"] = rounding.Shown(at + edge),
        ["fromCutEdgeBeside"] = rounding.Beside(at + edge),
    };

    private static JsonObject Row(Whole run, Part part, Tuck tuck, Datum datum, Length edge, Rounding rounding)
    {
        JsonObject At(string number, string what, Length at) => Line(run, number, what, at, datum, edge, rounding);
        return new JsonObject
        {
            ["section"] = part.Number,
            ["tuck"] = tuck.Number,
            ["group"] = tuck.Group,
            ["half"] = tuck.Half,
            ["width"] = rounding.Exact(tuck.Width),
            ["lines"] = new JsonArray(
                At($"{tuck.Number}a", T("stitching"), tuck.First),
                At($"{tuck.Number}", part.Run!.TwinNeedle ? T("line to follow") : T("fold"), tuck.Fold),
                At($"{tuck.Number}b", T("stitching"), tuck.Second)),
            ["sewnStitching"] = rounding.Shown(datum.Sewn(run, tuck.SewnStitch)),
            ["sewnFold"] = rounding.Shown(datum.Sewn(run, tuck.SewnFold)),
        };
    }

    private static string FromCutEdge(Allowances allow, string edge) => (allow.Start > Length.Zero, allow.Shaping > Length.Zero) switch
    {
        (false, false) => T("from the cut edge at the start, nothing added"),
        (true, false) => T($"from the cut edge at the start, {edge} of allowance included"),
        (false, true) => T($"from the cut edge at the start, {edge} of shaping included"),
        (true, true) => T($"from the cut edge at the start, {edge} of allowance and shaping included"),
    };
}
