using System.Globalization;
using System.Net;
using System.Text;
using HeirloomArchive.Worksheets.Drawing;

namespace HeirloomArchive.Worksheets;

/// <summary>The diagram of a worksheet as SVG, in proportion; a page stretches it to its own width, so it is no gauge and says so.</summary>
public static class WorksheetDiagram
{
    private const double Width = 180, Gap = 3;

    /// <summary>The style element's text; a page that allows no other inline style allows this one by its hash.</summary>
    // Fold and stitching differ by dash and by number as well as by colour; cloth stays white in the dark.
    public const string Look = """
        .worksheet-diagram{font-family:"Source Sans 3",sans-serif;max-width:100%;height:auto}
        .worksheet-diagram .ground{fill:#dfe8ec}
        .worksheet-diagram .cloth{fill:#fff}
        .worksheet-diagram .allowance{fill:#efe7d8}
        .worksheet-diagram .takenup{fill:#eef3f5}
        .worksheet-diagram .tuck{fill:#e3ebee}
        .worksheet-diagram .cutedge{stroke:#5b6b74;stroke-width:.3;stroke-dasharray:.4 .8}
        .worksheet-diagram .fold{stroke:#1f2d36;stroke-width:.4}
        .worksheet-diagram .foldfine{stroke:#1f2d36;stroke-width:.15}
        .worksheet-diagram .stitching{stroke:#9c4221;stroke-width:.3;stroke-dasharray:1.2 .8}
        .worksheet-diagram .datum{stroke:#2f5d73;stroke-width:.5}
        .worksheet-diagram text{stroke:none}
        .worksheet-diagram text.number{fill:#1f2d36;font-weight:600}
        .worksheet-diagram text.stitchnumber{fill:#7c3318}
        .worksheet-diagram text.datum{fill:#244b5e;stroke:none}
        .worksheet-diagram text.caption{fill:#3c4d57}
        @media screen and (prefers-color-scheme:dark){
        .worksheet-diagram .ground{fill:#22313a}
        .worksheet-diagram text.number{fill:#f2f6f8}
        .worksheet-diagram text.stitchnumber{fill:#f0b59b}
        .worksheet-diagram text.datum{fill:#a9d3e6}
        .worksheet-diagram text.caption{fill:#c9d6dc}
        .worksheet-diagram line.datum{stroke:#5f9db8}}
        @media print{.worksheet-diagram .ground{fill:#fff;stroke:#9fb0b9;stroke-width:.2}}
        """;

    /// <summary>A whole <c>svg</c> element to stand in a page; it carries its title and description for reading aloud.</summary>
    public static string Svg(Worksheet worksheet)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        var panels = Diagram.Panels(worksheet.Result, Width, onPaper: false);
        var height = panels.Sum(p => p.Height) + (Gap * (panels.Count - 1));
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture,
            $"""<svg xmlns="http://www.w3.org/2000/svg" class="worksheet-diagram" role="img" aria-labelledby="diagram-title diagram-text" viewBox="0 0 {N(Width)} {N(height)}">""");
        svg.Append("<title id=\"diagram-title\">").Append(Escaped($"Diagram: {worksheet.Title}")).Append("</title>");
        svg.Append("<desc id=\"diagram-text\">").Append(Escaped(Description(worksheet))).Append("</desc>");
        svg.Append("<style>").Append(Look).Append("</style>");
        var y = 0.0;
        foreach (var panel in panels)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(0 {N(y)})\">");
            foreach (var shape in panel.Shapes)
            {
                Draw(svg, shape);
            }

            svg.Append("</g>");
            y += panel.Height + Gap;
        }

        return svg.Append("</svg>").ToString();
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

    private static void Draw(StringBuilder svg, Shape shape)
    {
        var look = shape.Ink.ToString().ToLowerInvariant();
        switch (shape)
        {
            case Box b:
                svg.Append(CultureInfo.InvariantCulture,
                    $"<rect class=\"{look}\" x=\"{N(b.X)}\" y=\"{N(b.Y)}\" width=\"{N(b.Width)}\" height=\"{N(b.Height)}\"{(b.Ink == Ink.Ground ? " rx=\"2\"" : "")}/>");
                break;
            case Stroke s:
                svg.Append(CultureInfo.InvariantCulture,
                    $"<line class=\"{look}\" x1=\"{N(s.X1)}\" y1=\"{N(s.Y1)}\" x2=\"{N(s.X2)}\" y2=\"{N(s.Y2)}\"/>");
                break;
            case Label t:
                var anchor = t.Anchor.ToString().ToLowerInvariant();
                svg.Append(CultureInfo.InvariantCulture,
                    $"<text class=\"{look}\" x=\"{N(t.X)}\" y=\"{N(t.Y)}\" font-size=\"{N(t.Size)}\" text-anchor=\"{anchor}\">{Escaped(t.Text)}</text>");
                break;
        }
    }

    private static string N(double number) => number.Invariant("0.####");

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
