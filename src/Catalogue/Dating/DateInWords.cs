using System.Globalization;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>A recorded date in words, so that <see cref="SpokenDate"/> reads the same date from them.</summary>
public static class DateInWords
{
    /// <summary><c>1900~</c> is "about 1900", <c>1895/1905</c> "1895 to 1905", <c>190X</c> "1900s"; what is no EDTF stays as it is.</summary>
    /// <remarks>In the reader's language, of which the reader of dates knows none but English.</remarks>
    public static string Say(string edtf)
    {
        ArgumentNullException.ThrowIfNull(edtf);
        if (!Edtf.TryParse(edtf, out var date, out _))
        {
            return edtf;
        }

        var ends = edtf.Split('/');
        return !date.IsInterval ? One(edtf)
            : ends[0].Length == 0 ? T($"until {One(ends[1])}, the start not known")
            : ends[0] == ".." ? T($"until {One(ends[1])}")
            : ends[1].Length == 0 ? T($"from {One(ends[0])}, the end not known")
            : ends[1] == ".." ? T($"from {One(ends[0])} on")
            : T($"{One(ends[0])} to {Second(ends[0][^1], ends[1])}");
    }

    /// <summary>The same in English whoever reads: for what is kept in the record.</summary>
    public static string SayInEnglish(string edtf)
    {
        var reader = CultureInfo.CurrentUICulture;
        CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
        try
        {
            return Say(edtf);
        }
        finally
        {
            CultureInfo.CurrentUICulture = reader;
        }
    }

    // "About" counts for both ends unless the second says otherwise.
    private static string Second(char first, string end) => (first, end[^1]) switch
    {
        ('~', '~') or ('?', '?') or ('%', '%') => One(end[..^1]),
        ('~' or '?' or '%', not ('~' or '?' or '%')) => T($"exactly {One(end)}"),
        ('~', '?') or ('?', '~') or ('%', '~' or '?') => T($"exactly {One(end)}"),
        _ => One(end),
    };

    private static string One(string text)
    {
        var plain = Plain(text.TrimEnd('~', '?', '%'));
        return text[^1] switch { '~' => T($"about {plain}"), '?' => T($"perhaps {plain}"), '%' => T($"perhaps about {plain}"), _ => plain };
    }

    private static string Plain(string text)
    {
        if (text.IndexOf('T', StringComparison.Ordinal) is > 0 and var time)
        {
            return text.StartsWith('-') ? text : T($"{Plain(text[..time])} at {text[(time + 1)..]}");
        }

        var parts = text.Split('-');
        return parts switch
        {
            ["" or "Y", ..] => text,
            [{ Length: 4 } year] when year.EndsWith("XX", StringComparison.Ordinal) => Century(Number(year[..2]) + 1),
            [{ Length: 4 } year] when year.EndsWith('X') => T($"{year[..3]}0s"),
            [var year, "XX"] => T($"some month of {year}"),
            [var year, "XX", "XX"] => T($"some day in {year}"),
            [var year, var month, "XX"] => T($"some day in {Month(month)} {year}"),
            [var year, ['2', var season]] => T($"{Season(season)} {year}"),
            [var year, var month] => T($"{Month(month)} {year}"),
            [var year, var month, var day] => T($"{Number(day)} {Month(month)} {year}"),
            _ => text,
        };
    }

    private static string Season(char digit) => digit switch { '1' => T("spring"), '2' => T("summer"), '3' => T("autumn"), _ => T("winter") };

    private static string Month(string two) => T(SpokenMoment.Months[Number(two) - 1]);

    // Another language may number them otherwise; those that pieces come from are whole texts.
    private static string Century(int nth) => nth switch
    {
        17 => T("17th century"),
        18 => T("18th century"),
        19 => T("19th century"),
        20 => T("20th century"),
        21 => T("21st century"),
        _ => T($"{SpokenMoment.Ordinal(nth)} century"),
    };

    private static int Number(string figures) => int.Parse(figures, NumberStyles.None, CultureInfo.InvariantCulture);
}
