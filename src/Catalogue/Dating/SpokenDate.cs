using System.Text.RegularExpressions;

namespace HeirloomArchive.Catalogue.Dating;

/// <summary>
/// What a date means that is said as people say it: "about 1900", "early 1890s", "before the war of 1914". Understood,
/// asked back ("12/5/1905" is two days), or not understood and told what is.
/// </summary>
/// <param name="Edtf">The recorded form, EDTF level 0 or 1; null when it must be asked or was not understood.</param>
/// <param name="Either">Other readings that it could have; she chooses.</param>
/// <param name="Note">The rule it was read by where the words alone do not say it, the question, or what would be understood.</param>
public sealed partial record SpokenDate(string? Edtf, IReadOnlyList<string> Either, string? Note)
{
    private static string Help =>
        T("Say a year (1905), about 1905, perhaps 1905, 1890s, early 1890s, 19th century, between 1895 and 1905, before 1910, after 1918, spring 1905, May 1905 or 12 May 1905.");

    /// <summary>Reads what was said. Never throws; what is not understood has no reading and a note that helps.</summary>
    public static SpokenDate Read(string said)
    {
        ArgumentNullException.ThrowIfNull(said);
        var text = Blanks().Replace(said.Trim(), " ");
        text = text.EndsWith("..", StringComparison.Ordinal) ? text : text.TrimEnd('.', ',');
        if (Catalogue.Edtf.TryParse(text, out _, out _))
        {
            return MonthOrSpan().Match(text) is { Success: true } two && SpokenMoment.Later(two.Groups[1].Value, two.Groups[2].Value) is { } last
                ? new(text, [$"{two.Groups[1].Value}/{last}"], T($"{text} is a month, {DateInWords.Say(text)}; for a span write {two.Groups[1].Value} to {last}."))
                : new(text, [], null);
        }

        if (text.Length is 0 or > 100)
        {
            return new(null, [], Help);
        }

        if (SpokenPeriods.Asked(text) is { } asked)
        {
            return asked;
        }

        return Whole(text) is { } heard && heard.Edtf.Replace("!", "", StringComparison.Ordinal) is var edtf && Catalogue.Edtf.TryParse(edtf, out _, out _)
            ? new(edtf, [], heard.Rule)
            : new(null, [], Help);
    }

    /// <summary>A date or span with what goes before or after it: "perhaps", "before", "between … and …".</summary>
    private static Heard? Whole(string text)
    {
        if (Marked(text) is var (mark, rest))
        {
            return Whole(rest) is { } heard ? Mark(heard, mark) : null;
        }

        if (SpokenPeriods.Find(text) is { } period)
        {
            return period;
        }

        if (Before().Match(text) is { Success: true } before)
        {
            var not = before.Groups["not"].Success;
            return Whole(before.Groups["at"].Value) is not { } at || at.First(out _) is not { } first || at.Last(out _) is not { } last ? null
                : not ? at with { Edtf = "../" + last } : SpokenMoment.Step(first, -1) is { } day ? at with { Edtf = "../" + day } : null;
        }

        if (After().Match(text) is { Success: true } after)
        {
            return Whole(after.Groups["at"].Value)?.Last(out _) is { } last && SpokenMoment.Step(last, 1) is { } day ? new(day + "/..") : null;
        }

        if (Until().Match(text) is { Success: true } until)
        {
            return Whole(until.Groups["at"].Value)?.Last(out _) is { } last ? new((until.Groups["lost"].Success ? "/" : "../") + last) : null;
        }

        if (From().Match(text) is { Success: true } from)
        {
            return Whole(from.Groups["at"].Value)?.First(out _) is { } first ? new(first + (from.Groups["lost"].Success ? "/" : "/..")) : null;
        }

        return SpokenMoment.Read(text) ?? Between(text);
    }

    private static Heard? Between(string text)
    {
        if (Short().Match(text) is { Success: true } two)
        {
            var (from, to) = (two.Groups[1].Value, two.Groups[2].Value);
            return (to.Length == 4 ? to : SpokenMoment.Later(from, to)) is { } last ? new($"{from}/{last}") : null;
        }

        if (Span().Match(text) is not { Success: true } span || Whole(span.Groups["from"].Value) is not { } start || Whole(span.Groups["to"].Value) is not { } end)
        {
            return null;
        }

        var rule = span.Groups["or"].Success ? T("One or the other is kept as the span of both.") : null;
        return start.First(out var a) is { } first && end.Last(out var b) is { } last2 ? new($"{first}/{last2}", rule ?? a ?? b) : null;
    }

    private static (char Mark, string Said)? Marked(string text)
    {
        if (Ish().Match(text) is { Success: true } ish)
        {
            return ('~', ish.Groups[1].Value);
        }

        if (text.EndsWith('?') || text.EndsWith("(?)", StringComparison.Ordinal))
        {
            return ('?', text.TrimEnd('(', '?', ')').TrimEnd());
        }

        return About().Match(text) is { Success: true } about ? ('~', text[about.Length..])
            : Perhaps().Match(text) is { Success: true } perhaps ? ('?', text[perhaps.Length..])
            : Exactly().Match(text) is { Success: true } exactly ? ('!', text[exactly.Length..]) : null;
    }

    // A mark counts for both ends of a span unless one says otherwise; "!" stands for "exactly" until then.
    private static Heard Mark(Heard heard, char mark)
    {
        if (!heard.Edtf.Contains('/', StringComparison.Ordinal) && mark != '!' && SpokenMoment.Markable(SpokenMoment.Bare(heard.Edtf)))
        {
            return heard with { Edtf = With(heard.Edtf, mark) };
        }

        var whole = heard.Edtf.Contains('/', StringComparison.Ordinal) || mark == '!' ? heard.Edtf : $"{heard.First(out _)}/{heard.Last(out _)}";
        return heard with { Edtf = string.Join('/', whole.Split('/').Select(end => end is "" or ".." ? end : With(end, mark))) };
    }

    private static string With(string date, char mark) => (date[^1], mark) switch
    {
        ('!', _) => date,
        (_, '!') => date + mark,
        ('%', _) => date,
        ('~', '?') or ('?', '~') => date[..^1] + "%",
        ('~' or '?', _) => date,
        _ => date + mark,
    };

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"^(?:about|around|circa|approximately|abt\b\.?|roughly|some time about|say|c(?:a|irc)?\b\.?|c\.?(?=[0-9]))\s*", RegexOptions.IgnoreCase)]
    private static partial Regex About();

    [GeneratedRegex(@"^(?:perhaps|maybe|possibly|probably|likely|it may be|uncertain:?)\s+", RegexOptions.IgnoreCase)]
    private static partial Regex Perhaps();

    [GeneratedRegex(@"^exactly\s+", RegexOptions.IgnoreCase)]
    private static partial Regex Exactly();

    [GeneratedRegex(@"^(.+?)(?:\s*-?ish|,? or so|,? or thereabouts)$", RegexOptions.IgnoreCase)]
    private static partial Regex Ish();

    [GeneratedRegex(@"^(?:(?<not>not after|not later than|no later than)|before|earlier than|prior to|pre)[\s-]+(?<at>.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex Before();

    [GeneratedRegex(@"^(?:after|later than|post)[\s-]+(?<at>.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex After();

    [GeneratedRegex(@"^(?:(?:until|till|up to|by|to the end of)\s+(?<at>.+?)(?<lost>, the start not known)?|(?<at>.+?),? (?:or|and) (?:earlier|before))$", RegexOptions.IgnoreCase)]
    private static partial Regex Until();

    [GeneratedRegex(@"^(?:since (?<at>.+)|not (?:before|earlier than) (?<at>.+)|from (?<at>.+?)(?:(?<lost>, the end not known)| on(?:wards)?)|(?<at>.+?)(?:,? (?:or|and) (?:later|after)|,? on(?:wards)?)|from (?<at>-?[0-9XY]+(?:-[0-9][0-9])*))$", RegexOptions.IgnoreCase)]
    private static partial Regex From();

    [GeneratedRegex(@"^([0-9]{4})\s?[-–—/]\s?([0-9]{4}|[0-9]{2}|[0-9])$")]
    private static partial Regex Short();

    [GeneratedRegex(@"^(?:between (?<from>.+) and|(?:from )?(?<from>.+?)(?: to| until| till| through|(?<or> or)| [-–—]|–|—)) ?(?<to>.+)$", RegexOptions.IgnoreCase)]
    private static partial Regex Span();

    [GeneratedRegex(@"^([0-9]{4})-([0-9]{2})$")]
    private static partial Regex MonthOrSpan();
}

/// <summary>A reading while it is worked on: a date or an interval, and the rule it was read by.</summary>
internal sealed record Heard(string Edtf, string? Rule = null)
{
    /// <summary>Its first date as an end of an interval may be written; null when it is open.</summary>
    public string? First(out string? rule) => End(0, out rule);

    /// <summary>Its last date, likewise.</summary>
    public string? Last(out string? rule) => End(1, out rule);

    private string? End(int which, out string? rule)
    {
        rule = Rule;
        var ends = Edtf.Split('/');
        var end = ends.Length == 2 ? ends[which] : ends[0];
        return end is "" or ".." ? null : SpokenMoment.AsEnd(end, last: which == 1);
    }
}
