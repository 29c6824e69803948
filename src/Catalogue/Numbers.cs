using System.Globalization;

namespace HeirloomArchive.Catalogue;

/// <summary>Numbers as she gives them: what stands before and after their last digits is her pattern, and the digits count.</summary>
public static class Numbers
{
    /// <summary>A number's pattern (what stands before its last digits, a tab, what stands after) and what they count, as text of the same order; empty and null without digits.</summary>
    internal static (string Pattern, string? Place) Pattern(string number)
    {
        var (before, digits, after) = Cut(number);
        var counts = digits.TrimStart('0');
        return digits.Length == 0 ? ("", null) : ($"{before}\t{after}", counts.Length.ToString("D3", CultureInfo.InvariantCulture) + counts);
    }

    /// <summary>The greatest number of the commonest pattern; null where no number has digits. Of two patterns as common, the first in the alphabet.</summary>
    public static string? Greatest(IEnumerable<string> numbers) => numbers
        .Select(n => (Number: n, Cut: Cut(n))).Where(n => n.Cut.Digits.Length > 0)
        .GroupBy(n => (n.Cut.Before, n.Cut.After))
        .OrderByDescending(p => p.Count()).ThenBy(p => p.Key.Before, StringComparer.Ordinal).ThenBy(p => p.Key.After, StringComparer.Ordinal)
        .FirstOrDefault()?
        .MaxBy(n => n.Cut.Digits.TrimStart('0'), Counting).Number;

    /// <summary>The number after this one, with as many digits: <c>G-014</c>, <c>G-015</c>; null if it has no digits.</summary>
    public static string? After(string number)
    {
        var (before, digits, after) = Cut(number);
        return digits.Length == 0
            ? null
            : before + (System.Numerics.BigInteger.Parse(digits, CultureInfo.InvariantCulture) + 1).ToString("D" + digits.Length, CultureInfo.InvariantCulture) + after;
    }

    // Without leading zeros the longer is the greater.
    private static Comparer<string> Counting { get; } = Comparer<string>.Create((a, b) => a.Length != b.Length ? a.Length - b.Length : string.CompareOrdinal(a, b));

    private static (string Before, string Digits, string After) Cut(string number)
    {
        var end = number.Length;
        while (end > 0 && !char.IsAsciiDigit(number[end - 1]))
        {
            end--;
        }

        var start = end;
        while (start > 0 && char.IsAsciiDigit(number[start - 1]))
        {
            start--;
        }

        return (number[..start], number[start..end], number[end..]);
    }
}
