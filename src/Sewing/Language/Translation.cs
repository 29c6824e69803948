using System.Collections.Frozen;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace HeirloomArchive.Sewing.Language;

/// <summary>One language's texts, by their English.</summary>
/// <remarks>
/// Kept as XLIFF 2.0 (OASIS, "XLIFF Version 2.0", 2014): each <c>unit</c> has one <c>segment</c> with <c>source</c> and <c>target</c>, which
/// translators' tools open as they are. Texts that hang on a number have the forms one after another between upright strokes.
/// </remarks>
public partial class Translation
{
    /// <summary>XLIFF 2.0's namespace.</summary>
    public static readonly XNamespace Xliff = "urn:oasis:names:tc:xliff:document:2.0";

    private readonly FrozenDictionary<string, string> texts;

    /// <summary>Texts of a language.</summary>
    /// <param name="language">As BCP 47 writes it: <c>de</c>, <c>pt-BR</c>.</param>
    /// <param name="texts">Its texts by their English. One whose places are not those of the English is left out.</param>
    public Translation(string language, IEnumerable<KeyValuePair<string, string>> texts) =>
        (Language, this.texts) = (language, texts.Where(t => t.Value.Length > 0 && Places(t.Value).IsSubsetOf(Places(t.Key))).DistinctBy(t => t.Key).ToFrozenDictionary(StringComparer.Ordinal));

    /// <summary>As BCP 47 writes it.</summary>
    public string Language { get; }

    /// <summary>How many texts it has.</summary>
    public int Count => texts.Count;

    /// <summary>Reads an XLIFF 2.0 document; units with no target are passed over.</summary>
    /// <exception cref="FormatException">It is another kind of document, or names no language of its targets.</exception>
    public static Translation Read(XDocument document)
    {
        var root = document.Root!;
        var language = (string?)root.Attribute("trgLang");
        if (root.Name != Xliff + "xliff" || language is null)
        {
            throw new FormatException("A translation is an XLIFF 2.0 document with trgLang, its language.");
        }

        return new(language, root.Descendants(Xliff + "segment")
            .Select(s => KeyValuePair.Create((string?)s.Element(Xliff + "source") ?? "", (string?)s.Element(Xliff + "target") ?? "")));
    }

    /// <summary>A text by its English, or null.</summary>
    public virtual string? Find(string english) => texts.GetValueOrDefault(english);

    /// <summary>The form for a number by the English of all forms, or null.</summary>
    public virtual string? Find(string english, long number) =>
        Find(english)?.Split('|') is { } forms ? forms[Math.Min(Plurals.FormOf(number, Language), forms.Length - 1)] : null;

    private static HashSet<string> Places(string text)
    {
        try
        {
            _ = string.Format(null, text, [.. Enumerable.Repeat("", 20)]);
            return [.. Place().Matches(text).Select(m => m.Value)];
        }
        catch (FormatException)
        {
            // A lone brace, which would fail where it is filled: subset of nothing.
            return ["broken"];
        }
    }

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Place();
}
