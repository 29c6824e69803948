using HeirloomArchive.Worksheets.Drawing;

namespace HeirloomArchive.Worksheets;

/// <summary>The diagram of a worksheet as SVG, in proportion; a page stretches it to its own width, so it is no gauge and says so.</summary>
public static class WorksheetDiagram
{
    private const double Width = 180;

    /// <summary>A whole <c>svg</c> element to stand in a page; it carries its title and description for reading aloud.</summary>
    public static string Svg(Worksheet worksheet)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        return Sewing.Drawing.Svg.Of(Diagram.Panels(worksheet.Result, Width, onPaper: false), T($"Diagram: {worksheet.Title}"), Description(worksheet));
    }

    /// <summary>What the picture shows, in words.</summary>
    internal static string Description(Worksheet worksheet)
    {
        var result = worksheet.Result;
        var plan = result["plan"] ?? result;
        var tucks = DrawnTuck.All(result);
        var insertions = DrawnInsertion.All(result).Count;
        var drawn = N(tucks.Count, $"{tucks.Count} tuck", $"{tucks.Count} tucks");
        var what = insertions == 0 ? drawn : N(insertions, $"{drawn} and {insertions} insertion", $"{drawn} and {insertions} insertions");
        List<string> told = [T($"{what} on {plan["cloth"].Text()} of cloth, {plan["finished"].Text()} when sewn, measured from {result["datum"]!["text"].Text()}.")];
        if (tucks.Any(t => !t.TwinNeedle))
        {
            told.Add(T("Folds are solid lines with the number of the tuck, stitching lines are dashed, with the number and a or b."));
        }

        if (tucks.Any(t => t.TwinNeedle))
        {
            told.Add(T("Of a twin-needle tuck the line to follow is thin and solid, the two lines of the needles are dashed."));
        }

        if (insertions > 0)
        {
            told.Add(T("Lines that begin with L are those of the insertions."));
        }

        told.Add(T("Every position is in the table."));
        return string.Join(" ", told);
    }
}
