using System.ComponentModel;
using System.Globalization;
using System.Net;
using System.Text;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Numbers;

/// <summary>One number of a chart, and the search that finds those pieces.</summary>
/// <param name="Value">How many pieces.</param>
/// <param name="To">The search.</param>
public sealed record Counted(long Value, string To);

/// <summary>One row of a chart: a value of a facet with a number for each series.</summary>
public sealed record ChartRow(string Facet, string Value, IReadOnlyList<Counted> Numbers)
{
    /// <summary>The value in the reader's words.</summary>
    public string Label => ExamplesFacets.Plain(Facet, Value);
}

/// <summary>A bar chart, shown with the equal table beside it.</summary>
/// <param name="Id">Names it in the page.</param>
/// <param name="Title">What is counted, in English: a chart is kept for all readers.</param>
/// <param name="Series">What each bar of a row is, in English; one name for one bar.</param>
/// <param name="Rows">In their order.</param>
public sealed record Chart(string Id, [Localizable(true)] string Title, IReadOnlyList<string> Series, IReadOnlyList<ChartRow> Rows)
{
    private const double Wide = 360, Labels = 118, Numbers = 46, Bar = 15, Between = 9;

    /// <summary>
    /// A whole <c>svg</c> element; every bar leads to its search. The reader by ear and the keyboard have the table, which says the same, so the
    /// drawing is hidden from both.
    /// </summary>
    public string Svg()
    {
        var most = Math.Max(1, Rows.SelectMany(r => r.Numbers).Select(n => n.Value).DefaultIfEmpty(0).Max());
        var tall = (Rows.Count * ((Series.Count * Bar) + Between)) + 2;
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"bars\" aria-hidden=\"true\" focusable=\"false\" viewBox=\"0 0 {Wide} {N(tall)}\">");
        var y = 2.0;
        foreach (var row in Rows)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{N(Labels - 6)}\" y=\"{N(y + (Series.Count * Bar / 2) + 4.5)}\" text-anchor=\"end\">{Short(row.Label)}</text>");
            for (var i = 0; i < row.Numbers.Count; i++, y += Bar)
            {
                var (value, to) = (row.Numbers[i].Value, row.Numbers[i].To);
                var wide = (Wide - Labels - Numbers) * value / most;
                svg.Append(CultureInfo.InvariantCulture, $"<a href=\"{WebUtility.HtmlEncode(to)}\" tabindex=\"-1\"{(i == 0 ? "" : " class=\"second\"")}><title>{WebUtility.HtmlEncode(row.Label)}: {value}</title>");
                svg.Append(CultureInfo.InvariantCulture, $"<rect x=\"{Labels}\" y=\"{N(y + 1)}\" width=\"{N(Math.Max(wide, value > 0 ? 1.5 : 0))}\" height=\"{N(Bar - 2)}\" rx=\"1\"/>");
                svg.Append(CultureInfo.InvariantCulture, $"<text class=\"count\" x=\"{N(Labels + wide + 5)}\" y=\"{N(y + Bar - 3)}\">{value}</text></a>");
            }

            y += Between;
        }

        return svg.Append("</svg>").ToString();
    }

    // The table has the whole label.
    private static string Short(string label) => WebUtility.HtmlEncode(label.Length <= 19 ? label : label[..18].TrimEnd() + "…");

    private static string N(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
