using System.Globalization;
using System.Text;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>
/// Lines of time to one scale: a row for each thing followed, a sign for each time it was seen, which says by its shape how
/// bad it was. A picture beside a list that says the same in words, so it is hidden from those who hear the page.
/// </summary>
/// <param name="From">The first day.</param>
/// <param name="To">The last day, after the first.</param>
/// <param name="Looked">The days on which the piece was looked over.</param>
public sealed record TimeLine(DateOnly From, DateOnly To, IReadOnlyList<DateOnly> Looked)
{
    private const int Width = 320;
    private const int Height = 28;
    private const int Margin = 12;

    /// <summary>The line of a piece from the first date in it to the last; null where there are not two different days.</summary>
    public static TimeLine? Of(ConditionHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        var looked = history.Examinations.Select(e => e.Date).OfType<DateOnly>().Distinct().ToList();
        var days = history.Sightings.SelectMany(s => new[] { s.Date, s.EndedOn }).OfType<DateOnly>().Concat(looked).ToList();
        return days.Count == 0 || days.Min() == days.Max() ? null : new(days.Min(), days.Max(), looked);
    }

    /// <summary>One row, a whole <c>svg</c> element.</summary>
    public string Row(FollowedFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"time-line\" viewBox=\"0 0 {Width} {Height}\" aria-hidden=\"true\" focusable=\"false\">");
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"tl-axis\" d=\"M{Margin} {Height / 2}H{Width - Margin}\"/>");
        foreach (var day in Looked)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"tl-look\" d=\"M{X(day)} 4V{Height - 4}\"/>");
        }

        var seen = finding.Sightings.Where(s => s.Date is not null).ToList();
        if (seen.Count > 0)
        {
            var end = finding.IsOver ? finding.Latest.EndedOn ?? seen[^1].Date!.Value : To;
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"tl-span\" d=\"M{X(seen.Min(s => s.Date!.Value))} {Height / 2}H{X(end)}\"/>");
            foreach (var one in seen)
            {
                svg.Append(Sign(one.Severity ?? 0, X(one.Date!.Value)));
            }

            if (finding.IsOver)
            {
                svg.Append(CultureInfo.InvariantCulture, $"<path class=\"tl-end\" d=\"M{X(end)} 5V{Height - 5}\"/>");
            }
        }

        return svg.Append("</svg>").ToString();
    }

    /// <summary>A sign alone, for the words that explain it.</summary>
    public static string Sign(int severity) =>
        $"<svg class=\"tl-sign\" viewBox=\"0 0 {Height} {Height}\" width=\"20\" height=\"20\" aria-hidden=\"true\" focusable=\"false\">{Sign(severity, "14")}</svg>";

    // By shape and size, not by colour alone: a ring, a dot, a square on its point.
    private static string Sign(int severity, string x) => severity switch
    {
        3 => $"<path class=\"tl-severe\" d=\"M{x} {(Height / 2) - 9}l9 9l-9 9l-9 -9z\"/>",
        2 => $"<circle class=\"tl-moderate\" cx=\"{x}\" cy=\"{Height / 2}\" r=\"6\"/>",
        1 => $"<circle class=\"tl-slight\" cx=\"{x}\" cy=\"{Height / 2}\" r=\"4.5\"/>",
        _ => $"<path class=\"tl-untold\" d=\"M{x} {Height / 2}m-5 0h10m-5 -5v10\"/>",
    };

    private string X(DateOnly day) =>
        (Margin + ((Width - (2m * Margin)) * (day.DayNumber - From.DayNumber) / (To.DayNumber - From.DayNumber))).ToString("0.#", CultureInfo.InvariantCulture);
}
