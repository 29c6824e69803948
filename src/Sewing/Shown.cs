using System.Text;

namespace HeirloomArchive.Sewing;

/// <summary>What was sent, fit to be repeated in a message: short, one line, nothing that can't be printed.</summary>
internal static class Shown
{
    private const int Longest = 40;

    public static string Short(ReadOnlySpan<char> value)
    {
        var shown = new StringBuilder();
        foreach (var rune in value.Trim()[..Math.Min(value.Trim().Length, Longest + 2)].EnumerateRunes())
        {
            if (shown.Length >= Longest)
            {
                return shown.Append('…').ToString();
            }

            var unprintable = Rune.IsControl(rune) || Rune.GetUnicodeCategory(rune) is
                System.Globalization.UnicodeCategory.Format or System.Globalization.UnicodeCategory.LineSeparator or System.Globalization.UnicodeCategory.ParagraphSeparator;
            shown.Append(unprintable ? "�" : rune.ToString());
        }

        return shown.ToString();
    }
}
