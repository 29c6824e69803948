using System.Globalization;
using System.Net;
using System.Text;

namespace HeirloomArchive.Sewing.Drawing;

/// <summary>Drawings as SVG, light, dark and in print; the look is one style element that a page may allow by its hash.</summary>
public static class Svg
{
    private const double Gap = 3;

    /// <summary>The style element's text.</summary>
    // Fold and stitching differ by dash and by number as well as by colour; in the dark the ground dims, cloth stays white and ink dark.
    public const string Look = """
        .drawn{font-family:"Source Sans 3",sans-serif;max-width:100%;height:auto}
        .drawn .ground{fill:#dfe8ec}
        .drawn .cloth{fill:#fff}
        .drawn .allowance{fill:#efe7d8}
        .drawn .takenup{fill:#eef3f5}
        .drawn .tuck{fill:#e3ebee}
        .drawn .lace{fill:#f4efe6;stroke:#8a7a5c;stroke-width:.25;stroke-dasharray:.3 .5}
        .drawn .cutedge{stroke:#5b6b74;stroke-width:.3;stroke-dasharray:.4 .8}
        .drawn .fold{stroke:#1f2d36;stroke-width:.4}
        .drawn .foldfine{stroke:#1f2d36;stroke-width:.15}
        .drawn .stitching{stroke:#9c4221;stroke-width:.3;stroke-dasharray:1.2 .8}
        .drawn .datum{stroke:#2f5d73;stroke-width:.5}
        .drawn .line{fill:none}
        .drawn text{stroke:none}
        .drawn text.number{fill:#1f2d36;font-weight:600}
        .drawn text.stitchnumber{fill:#7c3318}
        .drawn text.datum{fill:#244b5e;stroke:none}
        .drawn text.caption{fill:#3c4d57}
        @media screen and (prefers-color-scheme:dark){.drawn .ground{fill:#b8c8d0}}
        @media print{.drawn .ground{fill:#fff;stroke:#9fb0b9;stroke-width:.2}}
        """;

    /// <summary>A whole <c>svg</c> element to stand in a page, its strips one below the other; it carries a title and a description for reading aloud.</summary>
    /// <param name="panels">One or more strips.</param>
    /// <param name="title">What it is.</param>
    /// <param name="description">What it shows, in words.</param>
    public static string Of(IReadOnlyList<Panel> panels, string title, string description)
    {
        ArgumentNullException.ThrowIfNull(panels);
        var width = panels.Max(p => p.Width);
        var height = panels.Sum(p => p.Height) + (Gap * (panels.Count - 1));
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture,
            $"""<svg xmlns="http://www.w3.org/2000/svg" class="drawn" role="img" aria-labelledby="diagram-title diagram-text" viewBox="0 0 {N(width)} {N(height)}">""");
        svg.Append(CultureInfo.InvariantCulture, $"<title id=\"diagram-title\">{Escaped(title)}</title><desc id=\"diagram-text\">{Escaped(description)}</desc>");
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
            case Outline o:
                svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{look}{(o.Filled ? "" : " line")}\" d=\"M{string.Join("L", o.Points.Select(p => $"{N(p.X)} {N(p.Y)}"))}{(o.Filled ? "Z" : "")}\"/>");
                break;
            case Label t:
                var anchor = t.Anchor.ToString().ToLowerInvariant();
                svg.Append(CultureInfo.InvariantCulture,
                    $"<text class=\"{look}\" x=\"{N(t.X)}\" y=\"{N(t.Y)}\" font-size=\"{N(t.Size)}\" text-anchor=\"{anchor}\">{Escaped(t.Text)}</text>");
                break;
        }
    }

    private static string N(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
