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

    /// <summary>The number after this one, with as many digits: <c>G-014</c>, <c>G-015</c>; null if it has no digits.</summary>
    public static string? After(string number)
    {
        var (before, digits, after) = Cut(number);
        return digits.Length == 0
            ? null
            : before + (System.Numerics.BigInteger.Parse(digits, CultureInfo.InvariantCulture) + 1).ToString("D" + digits.Length, CultureInfo.InvariantCulture) + after;
    }

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
