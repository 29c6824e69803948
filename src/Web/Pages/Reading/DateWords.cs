using System.Globalization;
using System.Text.RegularExpressions;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>Between the way a person says a date and the way it is recorded (EDTF).</summary>
public static partial class DateWords
{
    /// <summary>The recorded form of "about 1900", "1890s", "before 1910", "1895 to 1905"; null where that is not clear.</summary>
    public static string? Offer(string typed)
    {
        var text = typed.Trim().ToLowerInvariant().TrimEnd('.');
        var about = Regex.Match(text, @"^(?:about|around|circa|ca\.?|c\.?|approximately|abt\.?|roughly)\s*");
        text = text[about.Length..];
        var offered = One(text);
        if (offered is null)
        {
            return null;
        }

        offered = about.Length > 0 && !offered.Contains('/') && !offered.Contains('X') ? offered + "~" : offered;
        return Edtf.TryParse(offered, out _, out _) ? offered : null;
    }

    /// <summary>A recorded date in words: <c>1900~</c> is "about 1900", <c>1895/1905</c> "1895 to 1905", <c>190X</c> "1900s".</summary>
    public static string Say(string edtf)
    {
        if (!Edtf.TryParse(edtf, out var date, out _))
        {
            return edtf;
        }

        var ends = edtf.Split('/');
        return !date.IsInterval ? Single(edtf)
            : ends[0] is ".." or "" ? $"until {Single(ends[1])}"
            : ends[1] is ".." or "" ? $"from {Single(ends[0])} on"
            : $"{Single(ends[0])} to {Single(ends[1])}";
    }

    private static string? One(string text)
    {
        if (Span().Match(text) is { Success: true } span)
        {
            var to = span.Groups[2].Value;
            return $"{span.Groups[1].Value}/{(to.Length == 2 ? span.Groups[1].Value[..2] + to : to)}";
        }

        return text switch
        {
            _ when Decade().Match(text) is { Success: true } d => d.Groups[1].Value[..3] + "X",
            _ when Before().Match(text) is { Success: true } b => "../" + (Year(b.Groups[2].Value) - (b.Groups[1].Value == "before" ? 1 : 0)).ToString("0000", CultureInfo.InvariantCulture),
            _ when After().Match(text) is { Success: true } a => (Year(a.Groups[2].Value) + (a.Groups[1].Value == "after" ? 1 : 0)).ToString("0000", CultureInfo.InvariantCulture) + "/..",
            _ when Perhaps().Match(text) is { Success: true } p => p.Groups[1].Value + "?",
            _ when Edtf.TryParse(text, out _, out _) => text,
            _ when DateTime.TryParseExact(text, ["d MMMM yyyy", "d MMM yyyy", "MMMM d yyyy", "MMMM d, yyyy"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) =>
                day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            _ when DateTime.TryParseExact(text, ["MMMM yyyy", "MMM yyyy"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) =>
                month.ToString("yyyy-MM", CultureInfo.InvariantCulture),
            _ => null,
        };
    }

    private static string Single(string text)
    {
        var mark = text.Length > 0 && text[^1] is '~' or '?' or '%' ? text[^1] : ' ';
        var plain = mark == ' ' ? text : text[..^1];
        plain = plain.EndsWith("XX", StringComparison.Ordinal) && plain.Length == 4 ? $"the {plain[..2]}00s (century)"
            : plain.EndsWith('X') && plain.Length == 4 ? plain[..3] + "0s"
            : DateTime.TryParseExact(plain, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day.ToString("d MMMM yyyy", CultureInfo.GetCultureInfo("en-GB"))
            : DateTime.TryParseExact(plain, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) ? month.ToString("MMMM yyyy", CultureInfo.GetCultureInfo("en-GB"))
            : plain;
        return mark switch { '~' => "about " + plain, '?' => "perhaps " + plain, '%' => "perhaps about " + plain, _ => plain };
    }

    private static int Year(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?:between\s+|from\s+)?(\d{4})\s*(?:-|–|to|and|until|/)\s*(\d{4}|\d{2})$")]
    private static partial Regex Span();

    [GeneratedRegex(@"^(?:the\s+)?(\d{3}0)'?s$")]
    private static partial Regex Decade();

    [GeneratedRegex(@"^(before|until|till|up to|by)\s+(\d{4})$")]
    private static partial Regex Before();

    [GeneratedRegex(@"^(after|since|from)\s+(\d{4})(?:\s+on)?$")]
    private static partial Regex After();

    [GeneratedRegex(@"^(?:perhaps|maybe|possibly|probably)\s+(\d{4})$")]
    private static partial Regex Perhaps();
}
