using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace HeirloomArchive.Catalogue;

/// <summary>How sure a date is: the mark at its end.</summary>
public enum EdtfMark
{
    /// <summary>None.</summary>
    None,

    /// <summary><c>?</c>: uncertain.</summary>
    Uncertain,

    /// <summary><c>~</c>: approximate, "about".</summary>
    Approximate,

    /// <summary><c>%</c>: both.</summary>
    Both,
}

/// <summary>One date: what is written of it, nothing more.</summary>
/// <param name="From">Its first day, as year, month, day.</param>
/// <param name="To">Its last day.</param>
/// <param name="Precision">What its last part is: <c>year, month, day, season, long year</c>; <c>2004-XX</c> is a month, <c>2004</c> a year.</param>
/// <param name="Unspecified">Whether an <c>X</c> stands in it.</param>
/// <param name="Mark">How sure it is.</param>
public readonly record struct EdtfDate(
    (int Year, int Month, int Day) From, (int Year, int Month, int Day) To, string Precision, bool Unspecified, EdtfMark Mark);

/// <summary>
/// A date of the Extended Date/Time Format, levels 0 and 1 (Library of Congress, 4 February 2019; ISO 8601-2): a date,
/// a season, an unspecified digit, a mark at the end, or an interval of dates with ends that may be open or unknown.
/// </summary>
/// <param name="Text">As it was written.</param>
/// <param name="IsInterval">Whether it is an interval.</param>
/// <param name="Start">The date, or the interval's first; null when open or unknown.</param>
/// <param name="End">The date, or the interval's last; null when open or unknown.</param>
/// <param name="OpenStart">The start is given as open: <c>..</c></param>
/// <param name="OpenEnd">The end is given as open: <c>..</c></param>
public sealed record Edtf(string Text, bool IsInterval, EdtfDate? Start, EdtfDate? End, bool OpenStart, bool OpenEnd)
{
    /// <summary>
    /// The first and last year it can be: <c>? ~ %</c> do not widen it, an <c>X</c> is 0 to 9, an end that is open or
    /// unknown has no bound (null).
    /// </summary>
    public (int? From, int? To) Years => (Start?.From.Year, End?.To.Year);

    /// <summary>Reads a text.</summary>
    /// <param name="text">Without blanks around it.</param>
    /// <param name="date">The date read.</param>
    /// <param name="problem">What is wrong, as a sentence that says what would be right.</param>
    public static bool TryParse(string text, [NotNullWhen(true)] out Edtf? date, out string problem)
    {
        (date, problem) = (null, "");
        if (text.Length > 60)
        {
            problem = T("it is too long for a date.");
        }
        else if (text.IndexOf('/', StringComparison.Ordinal) is >= 0 and var slash)
        {
            date = Interval(text, text[..slash], text[(slash + 1)..], out problem);
        }
        else if (EdtfReading.Date(text, out problem) is { } single)
        {
            date = new(text, false, single, single, false, false);
        }

        return date is not null;
    }

    private static Edtf? Interval(string text, string from, string to, out string problem)
    {
        EdtfDate? start = null, end = null;
        problem = "";
        if (from is not ("" or "..") && (start = EdtfReading.Date(from, out problem)) is null)
        {
            return null;
        }

        if (to is not ("" or "..") && (end = EdtfReading.Date(to, out problem)) is null)
        {
            return null;
        }

        problem = (start, end) switch
        {
            (null, null) => T("an interval needs a date at one end at least."),
            ({ } a, { } b) when a.From.CompareTo(b.To) > 0 => T("its end is before its start."),
            ({ Precision: "season" or "long year" } or { Unspecified: true }, _) or (_, { Precision: "season" or "long year" } or { Unspecified: true }) =>
                T("the ends of an interval are whole dates in levels 0 and 1, no X and no season; 190X/192X is written 1900/1929."),
            _ => "",
        };
        return problem.Length == 0 ? new(text, true, start, end, from == "..", to == "..") : null;
    }
}

/// <summary>Reads the parts of one date.</summary>
internal static class EdtfReading
{
    private static string Form => T("write a year (1905), a month (1905-04) or a day (1905-04-12), 190X for the 1900s, 1905~ for about 1905, 1895/1905 for a span.");

    public static EdtfDate? Date(string text, out string problem)
    {
        problem = Old(text);
        if (problem.Length > 0)
        {
            return null;
        }

        var mark = text.Length == 0 ? EdtfMark.None : text[^1] switch
        {
            '?' => EdtfMark.Uncertain,
            '~' => EdtfMark.Approximate,
            '%' => EdtfMark.Both,
            _ => EdtfMark.None,
        };
        var bare = mark == EdtfMark.None ? text : text[..^1];
        var read = bare.StartsWith('Y') ? LongYear(bare, out problem) : bare.Contains('T', StringComparison.Ordinal) ? WithTime(bare, out problem) : Calendar(bare, out problem);
        if (read is { } odd && mark != EdtfMark.None && (odd.Unspecified || odd.Precision is "season" or "long year" || bare.Contains('T', StringComparison.Ordinal)))
        {
            problem = T($"{text[^1]} marks a date without X, season or time in level 1; write {bare}, or a year or span such as 1905~.");
            return null;
        }

        return read is { } date ? date with { Mark = mark } : null;
    }

    // Drafts before 2019 wrote these; taken silently they would be read as something else or not at all.
    private static string Old(string text) => text switch
    {
        "unknown" => T("\"unknown\" is of an old draft; an unknown end is left empty: 1905/"),
        "open" => T("\"open\" is of an old draft; an open end is two full stops: 1905/.."),
        _ when text.EndsWith("?~", StringComparison.Ordinal) || text.EndsWith("~?", StringComparison.Ordinal) => T("\"?~\" is of an old draft; uncertain and approximate is %: 1905%"),
        _ when text.StartsWith('y') => T("\"y\" is of an old draft; a year of more than four digits begins with Y."),
        _ when text.Length > 0 && char.IsAsciiDigit(text[0]) && text.Contains('u', StringComparison.Ordinal) => T("\"u\" is of an old draft; an unspecified digit is X: 190X"),
        _ when text.Contains('x', StringComparison.Ordinal) && text.Any(char.IsAsciiDigit) => T("an unspecified digit is a capital X: 190X"),
        _ => "",
    };

    private static EdtfDate? LongYear(string text, out string problem)
    {
        var digits = text.Length > 1 && text[1] == '-' ? text[2..] : text[1..];
        if (digits.Length < 5 || digits[0] == '0' || !digits.All(char.IsAsciiDigit))
        {
            problem = T("Y stands before a year of more than four digits, Y17000, and before no other.");
            return null;
        }

        if (!int.TryParse(text[1..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var year))
        {
            problem = T("the year is too far away.");
            return null;
        }

        problem = "";
        return new((year, 1, 1), (year, 12, 31), "long year", false, EdtfMark.None);
    }

    private static EdtfDate? WithTime(string text, out string problem)
    {
        var (day, time) = (text[..text.IndexOf('T', StringComparison.Ordinal)], text[(text.IndexOf('T', StringComparison.Ordinal) + 1)..]);
        var zone = time.Length > 8 ? time[8..] : "";
        if (Calendar(day, out problem) is not { Precision: "day", Unspecified: false } date)
        {
            problem = problem.Length > 0 ? problem : T("a time stands after a whole day only: 1985-04-12T23:20:30");
            return null;
        }

        if (time.Length >= 8 && IsClock(time[..8], "HH:mm:ss") && (zone is "" or "Z" || (zone[0] is '+' or '-' && (IsClock(zone[1..], "HH:mm") || IsClock(zone[1..], "HH")))))
        {
            return date;
        }

        problem = T("a time is hours, minutes and seconds, perhaps with a zone: 1985-04-12T23:20:30Z");
        return null;
    }

    private static bool IsClock(string text, string form) => TimeOnly.TryParseExact(text, form, CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    private static EdtfDate? Calendar(string text, out string problem)
    {
        problem = Form;
        var before = text.StartsWith('-');
        var parts = (before ? text[1..] : text).Split('-');
        if (parts.Length > 3 || parts[0].Length != 4 || parts.Skip(1).Any(p => p.Length != 2) || !parts.All(p => p.All(c => char.IsAsciiDigit(c) || c == 'X')))
        {
            problem = Hint(parts) ?? Form;
            return null;
        }

        var (year, month, day) = (parts[0], parts.Length > 1 ? parts[1] : null, parts.Length > 2 ? parts[2] : null);
        if (before && year == "0000")
        {
            problem = T("the year 0 has no minus: 0000.");
            return null;
        }

        if (!XsAreLast(year, month, day))
        {
            problem = T("level 1 has X for the last one or two digits of a year (190X, 19XX), for a whole month (1905-XX) or a whole day (1905-04-XX, 1905-XX-XX).");
            return null;
        }

        var (first, last) = (Number(year.Replace('X', '0')), Number(year.Replace('X', '9')));
        if (before)
        {
            (first, last) = (-last, -first);
        }

        return (month, day) switch
        {
            (null, _) => Span((first, 1, 1), (last, 12, 31), "year", year),
            ("21" or "22" or "23" or "24", null) => Season(first, Number(month), out problem),
            ("XX", null) => Span((first, 1, 1), (last, 12, 31), "month", month),
            ("XX", _) => Span((first, 1, 1), (last, 12, 31), "day", month),
            _ => MonthOrDay(first, Number(month), day, out problem),
        };
    }

    private static EdtfDate? MonthOrDay(int year, int month, string? day, out string problem)
    {
        problem = "";
        if (month is < 1 or > 12)
        {
            problem = T($"there is no month {month:00}; months are 01 to 12, seasons 21 to 24.");
            return null;
        }

        var days = DaysIn(year, month);
        if (day is null or "XX")
        {
            return Span((year, month, 1), (year, month, days), day is null ? "month" : "day", day ?? "");
        }

        if (Number(day) is >= 1 and var d && d <= days)
        {
            return Span((year, month, d), (year, month, d), "day", "");
        }

        problem = T($"that month has the days 01 to {days}.");
        return null;
    }

    // Months as in the north; of a winter its December alone, so that it stays in the year it is written with.
    private static EdtfDate Season(int year, int season, out string problem)
    {
        problem = "";
        var (start, end) = (3 * (season - 20), Math.Min(12, (3 * (season - 20)) + 2));
        return new((year, start, 1), (year, end, DaysIn(year, end)), "season", false, EdtfMark.None);
    }

    private static EdtfDate Span((int, int, int) from, (int, int, int) to, string precision, string part) =>
        new(from, to, precision, part.Contains('X', StringComparison.Ordinal), EdtfMark.None);

    private static bool XsAreLast(string year, string? month, string? day)
    {
        var wholeYear = !year.Contains('X', StringComparison.Ordinal);
        var lastXs = year.TrimEnd('X').Length >= 2 && !year.TrimEnd('X').Contains('X', StringComparison.Ordinal);
        return (wholeYear || (lastXs && month is null))
            && (month is null or "XX" || !month.Contains('X', StringComparison.Ordinal))
            && (day is null or "XX" || !day.Contains('X', StringComparison.Ordinal))
            && !(month == "XX" && day is not (null or "XX"));
    }

    private static string? Hint(string[] parts) =>
        parts is [{ Length: > 4 } digits] && digits.All(char.IsAsciiDigit) ? T("dates are written with hyphens: 1905-04-12; a year of more than four digits begins with Y.")
        : parts.Length is 2 or 3 && parts[0].Length == 4 && parts.All(p => p.Length > 0 && p.All(char.IsAsciiDigit)) ? T("months and days have two digits: 1905-04-12.")
        : null;

    private static int DaysIn(int year, int month) => month switch
    {
        2 => year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) ? 29 : 28,
        4 or 6 or 9 or 11 => 30,
        _ => 31,
    };

    private static int Number(string digits) => int.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture);
}
