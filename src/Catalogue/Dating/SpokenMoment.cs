using System.Globalization;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>One date as people say it: a year, a decade or century or a part of one, a season, a month, a day.</summary>
internal static partial class SpokenMoment
{
    internal static readonly string[] Months = // texts
        ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

    internal static readonly string[] Seasons = ["spring", "summer", "autumn", "winter"];

    /// <summary>The recorded form of one date, or null.</summary>
    public static Heard? Read(string said)
    {
        var text = Before().Replace(said, "");
        if (Edtf.TryParse(text, out var whole, out _) && !whole.IsInterval)
        {
            return new(text);
        }

        return Decade(text) ?? Century(text) ?? Season(text) ?? Day(text) ?? Unknown(text);
    }

    /// <summary>A date as it may stand at an end of an interval: no X, no season, a mark stays.</summary>
    public static string? AsEnd(string date, bool last)
    {
        var bare = Bare(date);
        var mark = date[bare.Length..];
        if (Markable(bare))
        {
            return date;
        }

        if (!Edtf.TryParse(bare, out var read, out _) || read.Start is not { } span)
        {
            return null;
        }

        var (year, month, _) = last ? span.To : span.From;
        return (span.Precision == "season" ? $"{year:0000}-{month:00}" : span.Precision == "long year" || bare.Contains('T', StringComparison.Ordinal) || year < 0 ? bare
            : bare.Count(c => c == '-') == 2 && !bare.Contains("-XX-", StringComparison.Ordinal) ? $"{year:0000}-{month:00}" : $"{year:0000}") + mark;
    }

    /// <summary>Without its marks.</summary>
    public static string Bare(string date) => date.TrimEnd('~', '?', '%', '!');

    /// <summary>Whether level 1 has a mark for it.</summary>
    public static bool Markable(string date) => Edtf.TryParse(date + "~", out var read, out _) && !read.IsInterval;

    /// <summary>The date of the same precision before (-1) or after (1) one of a plain calendar date; a mark stays.</summary>
    public static string? Step(string date, int by)
    {
        var bare = Bare(date);
        var mark = date[bare.Length..];
        return DateTime.TryParseExact(bare, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? Text("yyyy-MM-dd", d => d.AddDays(by), day)
            : DateTime.TryParseExact(bare, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) ? Text("yyyy-MM", d => d.AddMonths(by), month)
            : DateTime.TryParseExact(bare, "yyyy", CultureInfo.InvariantCulture, DateTimeStyles.None, out var year) ? Text("yyyy", d => d.AddYears(by), year) : null;

        string? Text(string form, Func<DateTime, DateTime> step, DateTime from) =>
            from.Year is > 1 and < 9999 ? step(from).ToString(form, CultureInfo.InvariantCulture) + mark : null;
    }

    /// <summary>The end of "1895-99": the next year after the first that ends in these digits; null when there is none in that century.</summary>
    public static string? Later(string from, string digits) =>
        from[..^digits.Length] + digits is var last && string.CompareOrdinal(last, from) > 0 ? last : null;

    private static Heard? Decade(string text)
    {
        if (DecadeForm().Match(text) is not { Success: true } decade)
        {
            return null;
        }

        var ten = decade.Groups["ten"].Value;
        return Part(decade.Groups["part"].Value) switch
        {
            "early" => new($"{ten}0/{ten}3", T($"Early {ten}0s is taken as {ten}0 to {ten}3.")),
            "middle" => new($"{ten}4/{ten}6", T($"The middle of the {ten}0s is taken as {ten}4 to {ten}6.")),
            "late" => new($"{ten}7/{ten}9", T($"Late {ten}0s is taken as {ten}7 to {ten}9.")),
            _ => new(ten + "X", ten.EndsWith('0') ? T($"{ten}0s is taken as the ten years {ten}0 to {ten}9; for the hundred years say {Ordinal(int.Parse(ten[..2], CultureInfo.InvariantCulture) + 1)} century.") : null),
        };
    }

    private static Heard? Century(string text)
    {
        if (CenturyForm().Match(text) is not { Success: true } form || int.Parse(form.Groups["nth"].Value, CultureInfo.InvariantCulture) is < 1 or > 100)
        {
            return null;
        }

        var nth = int.Parse(form.Groups["nth"].Value, CultureInfo.InvariantCulture);
        var first = (nth - 1) * 100;
        Heard Years(int from, int to) => new($"{first + from:0000}/{first + to:0000}", T($"{form.Value} is taken as {first + from} to {first + to}."));
        return (Part(form.Groups["part"].Value), form.Groups["share"].Value.ToLowerInvariant(), form.Groups["of"].Value.ToLowerInvariant()) switch
        {
            ("early", _, _) => Years(0, 33),
            ("middle", _, _) => Years(34, 66),
            ("late", _, _) => Years(67, 99),
            (_, "first", "half") => Years(0, 49),
            (_, "second" or "last", "half") => Years(50, 99),
            (_, "first", "quarter") => Years(0, 24),
            (_, "second", "quarter") => Years(25, 49),
            (_, "third", "quarter") => Years(50, 74),
            (_, "fourth" or "last", "quarter") => Years(75, 99),
            (_, "", _) => new($"{nth - 1:00}XX", T($"Counted {first} to {first + 99}.")),
            _ => null,
        };
    }

    private static Heard? Season(string text)
    {
        if (SeasonForm().Match(text) is not { Success: true } form)
        {
            return null;
        }

        var (year, later) = (form.Groups["year"].Value, form.Groups["later"].Value);
        var season = form.Groups["season"].Value.ToLowerInvariant() is "fall" ? 2 : Array.IndexOf(Seasons, form.Groups["season"].Value.ToLowerInvariant());
        return later.Length == 0 ? new($"{year}-{21 + season}")
            : season == 3 && int.Parse(later, CultureInfo.InvariantCulture) == (int.Parse(year, CultureInfo.InvariantCulture) + 1) % (later.Length == 2 ? 100 : 10_000)
            ? new($"{year}-12/{int.Parse(year, CultureInfo.InvariantCulture) + 1:0000}-02", T("A winter over two years is taken as December to February.")) : null;
    }

    private static Heard? Day(string text)
    {
        var form = DayForm().Match(text) is { Success: true } before ? before : MonthForm().Match(text);
        if (!form.Success)
        {
            return null;
        }

        var said = form.Groups["month"].Value.TrimEnd('.');
        var month = 1 + Array.FindIndex(Months, m => said.Length >= 3 && m.StartsWith(said, StringComparison.OrdinalIgnoreCase));
        return month == 0 ? null
            : $"{form.Groups["year"].Value}-{month:00}" + (form.Groups["day"].Success ? $"-{int.Parse(form.Groups["day"].Value, CultureInfo.InvariantCulture):00}" : "") is var date
            && Edtf.TryParse(date + (form.Groups["time"].Success ? "T" + form.Groups["time"].Value : ""), out var whole, out _) ? new(whole.Text) : null;
    }

    private static Heard? Unknown(string text) => UnknownForm().Match(text) is { Success: true } form
        ? form.Groups["what"].Value.Equals("month", StringComparison.OrdinalIgnoreCase)
            ? Edtf.TryParse(form.Groups["at"].Value, out _, out _) ? new(form.Groups["at"].Value + "-XX") : null
            : Read(form.Groups["at"].Value) is { Edtf: { Length: 4 or 7 } at } ? new(at.Length == 4 ? at + "-XX-XX" : at + "-XX") : null
        : null;

    private static string Part(string said) => said.ToLowerInvariant().Trim('-', ' ') switch
    {
        "early" or "beginning of" or "start of" => "early",
        "mid" or "middle" or "middle of" => "middle",
        "late" or "end of" => "late",
        _ => "",
    };

    internal static string Ordinal(int n) => n + ((n % 100) is >= 11 and <= 13 ? "th" : (n % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" });

    [GeneratedRegex(@"^(?:in |during |on |at )?(?:the )?(?:year )?", RegexOptions.IgnoreCase)]
    private static partial Regex Before();

    [GeneratedRegex(@"^(?:(?<part>early|mid|middle|late|(?:beginning|start|middle|end) of)[\s-]+(?:the )?)?(?<ten>[0-9]{3})0['’]?s$", RegexOptions.IgnoreCase)]
    private static partial Regex DecadeForm();

    [GeneratedRegex(@"^(?:(?<part>early|mid|middle|late|(?:beginning|start|middle|end) of)[\s-]+(?:the )?|(?<share>first|second|third|fourth|last) (?<of>half|quarter) of (?:the )?)?(?<nth>[0-9]{1,3})(?:st|nd|rd|th)[\s-]century$", RegexOptions.IgnoreCase)]
    private static partial Regex CenturyForm();

    [GeneratedRegex(@"^(?<season>spring|summer|autumn|fall|winter)(?: of)?,? (?<year>[0-9]{4})(?:\s?[-–/]\s?(?<later>[0-9]{4}|[0-9]{2}))?$", RegexOptions.IgnoreCase)]
    private static partial Regex SeasonForm();

    [GeneratedRegex(@"^(?<day>[0-9]{1,2})(?:st|nd|rd|th)?(?: of)? (?<month>[A-Za-z]+\.?),? (?<year>[0-9]{4})(?: at (?<time>[0-9:+\-Z]+))?$", RegexOptions.IgnoreCase)]
    private static partial Regex DayForm();

    [GeneratedRegex(@"^(?<month>[A-Za-z]+\.?)(?: (?<day>[0-9]{1,2})(?:st|nd|rd|th)?)?(?: of)?,? (?<year>[0-9]{4})$", RegexOptions.IgnoreCase)]
    private static partial Regex MonthForm();

    [GeneratedRegex(@"^(?:some|a|one) (?<what>month|day) (?:of|in) (?<at>.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex UnknownForm();
}
