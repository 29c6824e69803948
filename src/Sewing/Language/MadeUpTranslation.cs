using System.Text.RegularExpressions;

namespace HeirloomArchive.Sewing.Language;

/// <summary>
/// Every text there is, between ‹ and ›, with its vowels doubled and accented: a third longer, as a translation may be.
/// What stands outside the marks on such a page is the record's own, or was forgotten.
/// </summary>
internal sealed partial class MadeUpTranslation() : Translation(Languages.MadeUp, [])
{
    private const string Plain = "aeiouAEIOU";
    private const string Accented = "áéíóúÁÉÍÓÚ";

    // What was put together from translated parts is translated already.
    public override string Find(string english) => english is ['‹', .., '›'] ? english : $"‹{Kept().Replace(english, m => m.Groups["kept"].Success ? m.Value : Doubled(m.Value))}›";

    public override string Find(string english, long number) => Find(english.Split('|')[number == 1 ? 0 : ^1]);

    private static string Doubled(string letter) => Plain.IndexOf(letter[0], StringComparison.Ordinal) is var at and >= 0 ? $"{letter}{Accented[at]}" : letter;

    // Places, tags and entities stay as they are.
    [GeneratedRegex(@"(?<kept>\{\d+\}|<[^>]*>|&\w+;)|.", RegexOptions.Singleline)]
    private static partial Regex Kept();
}
