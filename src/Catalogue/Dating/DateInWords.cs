using System.Globalization;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>A recorded date in words, so that <see cref="SpokenDate"/> reads the same date from them.</summary>
public static class DateInWords
{
    /// <summary><c>1900~</c> is "about 1900", <c>1895/1905</c> "1895 to 1905", <c>190X</c> "1900s"; what is no EDTF stays as it is.</summary>
    public static string Say(string edtf)
    {
        ArgumentNullException.ThrowIfNull(edtf);
        if (!Edtf.TryParse(edtf, out var date, out _))
        {
            return edtf;
        }

        var ends = edtf.Split('/');
        return !date.IsInterval ? One(edtf)
            : ends[0].Length == 0 ? $"until {One(ends[1])}, the start not known"
            : ends[0] == ".." ? $"until {One(ends[1])}"
            : ends[1].Length == 0 ? $"from {One(ends[0])}, the end not known"
            : ends[1] == ".." ? $"from {One(ends[0])} on"
            : $"{One(ends[0])} to {Second(ends[0][^1], ends[1])}";
    }

    // "About" counts for both ends unless the second says otherwise.
    private static string Second(char first, string end) => (first, end[^1]) switch
    {
        ('~', '~') or ('?', '?') or ('%', '%') => One(end[..^1]),
        ('~' or '?' or '%', not ('~' or '?' or '%')) => "exactly " + One(end),
        ('~', '?') or ('?', '~') or ('%', '~' or '?') => $"exactly {One(end)}",
        _ => One(end),
    };

    private static string One(string text)
    {
        var plain = text.TrimEnd('~', '?', '%');
        return text[^1] switch { '~' => "about ", '?' => "perhaps ", '%' => "perhaps about ", _ => "" } + Plain(plain);
    }

    private static string Plain(string text)
    {
        if (text.IndexOf('T', StringComparison.Ordinal) is > 0 and var time)
        {
            return text.StartsWith('-') ? text : $"{Plain(text[..time])} at {text[(time + 1)..]}";
        }

        var parts = text.Split('-');
        return parts switch
        {
            ["" or "Y", ..] => text,
            [{ Length: 4 } year] when year.EndsWith("XX", StringComparison.Ordinal) => SpokenMoment.Ordinal(Number(year[..2]) + 1) + " century",
            [{ Length: 4 } year] when year.EndsWith('X') => year[..3] + "0s",
            [var year, "XX"] => "some month of " + year,
            [var year, "XX", "XX"] => "some day in " + year,
            [var year, var month, "XX"] => $"some day in {Month(month)} {year}",
            [var year, ['2', var season]] => $"{SpokenMoment.Seasons[season - '1']} {year}",
            [var year, var month] => $"{Month(month)} {year}",
            [var year, var month, var day] => $"{Number(day)} {Month(month)} {year}",
            _ => text,
        };
    }

    private static string Month(string two) => SpokenMoment.Months[Number(two) - 1];

    private static int Number(string figures) => int.Parse(figures, NumberStyles.None, CultureInfo.InvariantCulture);
}
