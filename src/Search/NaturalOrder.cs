using System.Globalization;
using System.Text;

namespace HeirloomArchive.Search;

/// <summary>Sort keys that read numbers as numbers: G-2 stands before G-10.</summary>
internal static class NaturalOrder
{
    /// <summary>A key whose plain order is the natural order of the text; capitals and accents do not count.</summary>
    public static string Key(string text)
    {
        var key = new StringBuilder(text.Length + 8);
        var plain = WithoutMarks(text);
        for (var i = 0; i < plain.Length;)
        {
            if (!char.IsAsciiDigit(plain[i]))
            {
                key.Append(plain[i++]);
                continue;
            }

            var end = i;
            while (end < plain.Length && char.IsAsciiDigit(plain[end]))
            {
                end++;
            }

            // How many digits comes first, so that the longer number is the greater.
            var digits = plain[i..end].TrimStart('0');
            key.Append('0').Append(digits.Length.ToString("D4", CultureInfo.InvariantCulture)).Append(digits);
            i = end;
        }

        return key.ToString();
    }

    /// <summary>A number as it is compared when typed: NFKC, upper case, no white space.</summary>
    public static string Normal(string number) =>
        string.Concat(Safe(number).Normalize(NormalizationForm.FormKC).ToUpperInvariant().Where(c => !char.IsWhiteSpace(c)));

    private static string WithoutMarks(string text) => string.Concat(Safe(text).Normalize(NormalizationForm.FormKD).ToUpperInvariant()
        .Where(c => CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark));

    // Half a surrogate pair cannot be normalised.
    private static string Safe(string text) => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
}
