using System.Buffers;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search;

/// <summary>A length met in a text, and where it stands.</summary>
internal readonly record struct Measure(int Start, int End, string Text, Length Length);

/// <summary>Finds lengths in running text, however the inches are written.</summary>
internal static partial class Measures
{
    private static readonly SearchValues<char> Numbers = SearchValues.Create("0123456789¼½¾⅓⅔⅛⅜⅝⅞");

    /// <summary>Every length in the text, in order; numbers without a unit are none.</summary>
    public static IEnumerable<Measure> In(string text)
    {
        if (text.AsSpan().IndexOfAny(Numbers) < 0)
        {
            yield break;
        }

        foreach (Match match in Shape().Matches(text))
        {
            var unit = match.Groups["unit"].Value.ToLowerInvariant();
            unit = unit switch
            {
                "mm" or "cm" or "m" => unit,
                _ when unit.StartsWith('y') => "yd",
                _ when unit.StartsWith("nail", StringComparison.Ordinal) => "nail",
                _ => "in",
            };
            var number = Spaces().Replace(match.Groups["number"].Value.Replace('⁄', '/'), " ").Replace(" /", "/").Replace("/ ", "/");
            if (Length.TryParse($"{number} {unit}", out var length, out _))
            {
                yield return new Measure(match.Index, match.Index + match.Length, $"{number} {unit}", length);
            }
        }
    }

    // At most three digits before the unit: "in Bath 1905 in spring" is a year, not an inch.
    [GeneratedRegex("""
        (?<![\w/.,⁄])
        (?<number>(?:\d{1,3}\s+)?\d{1,3}\s?[/⁄]\s?\d{1,3}|\d{0,3}\s?[¼½¾⅓⅔⅛⅜⅝⅞]|\d{1,3}(?:[.,]\d{1,6})?)
        \s?
        (?<unit>inch(?:es)?|in|mm|cm|m|yards?|yds?|nails?|["″”]|'')
        (?!\w)
        """, RegexOptions.IgnorePatternWhitespace | RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Shape();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
