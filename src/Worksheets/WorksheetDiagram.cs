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
        var plan = worksheet.Result["plan"]!;
        var count = plan["lines"]!.AsArray().Count;
        return $"{count} {(count == 1 ? "tuck" : "tucks")} on {plan["cloth"].Text()} of cloth, {plan["finished"].Text()} when sewn, "
            + $"measured from {worksheet.Result["datum"]!["text"].Text()}. Folds are solid lines with the number of the tuck, "
            + "stitching lines are dashed, with the number and a or b. Every position is in the table.";
    }
}
