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
        return Sewing.Drawing.Svg.Of(Diagram.Panels(worksheet.Result, Width, onPaper: false), $"Diagram: {worksheet.Title}", Description(worksheet));
    }

    /// <summary>What the picture shows, in words.</summary>
    internal static string Description(Worksheet worksheet)
    {
        var result = worksheet.Result;
        var plan = result["plan"] ?? result;
        var tucks = DrawnTuck.All(result);
        var insertions = DrawnInsertion.All(result).Count;
        return $"{Counted(tucks.Count, "tuck")}{(insertions > 0 ? $" and {Counted(insertions, "insertion")}" : "")} on {plan["cloth"].Text()} of cloth, "
            + $"{plan["finished"].Text()} when sewn, measured from {result["datum"]!["text"].Text()}. "
            + (tucks.Any(t => !t.TwinNeedle) ? "Folds are solid lines with the number of the tuck, stitching lines are dashed, with the number and a or b. " : "")
            + (tucks.Any(t => t.TwinNeedle) ? "Of a twin-needle tuck the line to follow is thin and solid, the two lines of the needles are dashed. " : "")
            + (insertions > 0 ? "Lines that begin with L are those of the insertions. " : "")
            + "Every position is in the table.";
    }

    private static string Counted(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";
}
