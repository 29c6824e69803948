using System.Globalization;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>What the text of an extent was read as.</summary>
public enum ExtentKind
{
    /// <summary>A length, in nanometres.</summary>
    Length,

    /// <summary>An area, in square nanometres.</summary>
    Area,

    /// <summary>A share of the whole, 0 to 1.</summary>
    Share,
}

/// <summary>
/// How much a finding takes in: the text as she typed it, read as a length ("4 in"), an area ("2 x 3 in", "4 sq in") or a
/// share ("a third of the hem", "30 %") where it can be. Two of one kind can be compared.
/// </summary>
/// <param name="Kind">What it is.</param>
/// <param name="Amount">How much, in the unit of its kind.</param>
public sealed partial record Extent(ExtentKind Kind, decimal Amount)
{
    private static readonly (string Text, decimal Share)[] Shares =
    [
        ("three quarters", 0.75m), ("two thirds", 2m / 3), ("a quarter", 0.25m), ("one quarter", 0.25m), ("a third", 1m / 3), ("one third", 1m / 3),
        ("half", 0.5m), ("a fifth", 0.2m), ("a tenth", 0.1m), ("the whole", 1m), ("all of", 1m), ("all over", 1m), ("all round", 1m),
    ];

    /// <summary>Reads a text; null where it is none of the three. "About" and what follows "of" make no difference.</summary>
    public static Extent? Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            return null;
        }

        var said = About().Replace(text.Trim().ToLowerInvariant().Replace('-', ' '), "");
        return ReadShare(said) ?? ReadArea(said) ?? ReadLength(said);
    }

    /// <summary>Whether this is more than another: above 0, below 0, or 0 for as much; null where they are not of one kind.</summary>
    public int? Against(Extent? other) => other is null || other.Kind != Kind ? null : Amount.CompareTo(other.Amount);

    private static Extent? ReadShare(string said)
    {
        if (Percent().Match(said) is { Success: true } percent && Number(percent.Groups[1].Value) is { } hundredths and <= 100)
        {
            return new(ExtentKind.Share, hundredths / 100);
        }

        if (Fraction().Match(said) is { Success: true } part)
        {
            var (top, bottom) = (decimal.Parse(part.Groups[1].Value, CultureInfo.InvariantCulture), decimal.Parse(part.Groups[2].Value, CultureInfo.InvariantCulture));
            return bottom > 0 && top <= bottom ? new(ExtentKind.Share, top / bottom) : null;
        }

        return Shares.Where(s => said == s.Text || said.StartsWith(s.Text + " ", StringComparison.Ordinal)).Select(s => new Extent(ExtentKind.Share, s.Share)).FirstOrDefault();
    }

    private static Extent? ReadArea(string said)
    {
        if (Square().Match(said) is { Success: true } square && One($"1 {square.Groups[2].Value}{square.Groups[3].Value}") is { } side && Number(square.Groups[1].Value) is { } many)
        {
            return new(ExtentKind.Area, many * side * side);
        }

        if (By().Match(said) is not { Success: true } by)
        {
            return null;
        }

        // "2 x 3 in": the unit stands once and counts for both.
        var (first, second) = (by.Groups[1].Value, by.Groups[2].Value);
        return (One(first) ?? One($"{first} {UnitAtEnd().Match(second).Value}")) is { } across && One(second) is { } along ? new(ExtentKind.Area, across * along) : null;
    }

    private static Extent? ReadLength(string said) =>
        (One(said) ?? One(UpToUnit().Match(said).Value)) is { } length ? new(ExtentKind.Length, length) : null;

    private static decimal? One(string text) =>
        Length.TryParse(text, out var length, out _) && length > Length.Zero ? length.Nanometres : null;

    private static decimal? Number(string text) =>
        decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && number < 1_000_000 ? number : null;

    [GeneratedRegex(@"^(about|around|roughly|some|nearly|almost|up to|over|at least)\s+")]
    private static partial Regex About();

    [GeneratedRegex(@"^(\d{1,3}(?:[.,]\d{1,3})?)\s*(?:%|per ?cent)")]
    private static partial Regex Percent();

    [GeneratedRegex(@"^(\d{1,3})/(\d{1,3})(?: of\b|$)")]
    private static partial Regex Fraction();

    [GeneratedRegex(@"^(\d{1,6}(?:[.,]\d{1,4})?)\s*(?:sq(?:uare)?\.?\s*(in|mm|cm|m)(?:ch(?:es)?)?\b|(in|mm|cm|m)²)")]
    private static partial Regex Square();

    [GeneratedRegex(@"^(.{1,30}?)\s*(?:x|×|by)\s*(.{1,30}?)(?:\s+(?:on|at|of|near|in the)\b.*)?$")]
    private static partial Regex By();

    [GeneratedRegex(@"(?:[a-z]+|[""″])$")]
    private static partial Regex UnitAtEnd();

    [GeneratedRegex(@"^[\d\s./,¼½¾⅛⅜⅝⅞]+(?:in|inch|inches|mm|cm|m|yd|[""″])\b?(?=\s|,|$)")]
    private static partial Regex UpToUnit();
}
