using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace HeirloomArchive.Sewing.Language;

/// <summary>An interpolated sentence taken apart: its words with numbered places, and what stands in them.</summary>
[InterpolatedStringHandler]
public readonly struct Sentence
{
    private readonly StringBuilder key;
    private readonly List<string> values;

    /// <summary>Begins one; called by the compiler.</summary>
    /// <param name="letters">Letters of its words.</param>
    /// <param name="places">Values in it.</param>
    public Sentence(int letters, int places) => (key, values) = (new(letters + (3 * places)), new(places));

    private Sentence(StringBuilder key, List<string> values) => (this.key, this.values) = (key, values);

    /// <summary>The words with their places: <c>{0} of {1} are kept</c>; a brace of the text is doubled.</summary>
    public string Key => key.ToString();

    /// <summary>What stands in the places, already written out.</summary>
    public IReadOnlyList<string> Values => values;

    /// <summary>Adds words; called by the compiler.</summary>
    public void AppendLiteral(string words) => key.Append(words.Replace("{", "{{").Replace("}", "}}"));

    /// <summary>Adds a value, written by the reader's culture; called by the compiler.</summary>
    /// <exception cref="FormatException">The format is none for such a value.</exception>
    public void AppendFormatted<TValue>(TValue value, string? format = null)
    {
        key.Append(CultureInfo.InvariantCulture, $"{{{values.Count}}}");
        values.Add(value is IFormattable number ? number.ToString(format, CultureInfo.CurrentCulture) : value?.ToString() ?? "");
    }

    /// <summary>The same sentence with each value changed: encoded for where it is to stand.</summary>
    public Sentence Each(Func<string, string> change) => new(key, [.. values.Select(change)]);

    /// <summary>The sentence in a language, or in English where that has none.</summary>
    public string In(Translation? language) => Filled(language?.Find(Key) ?? Key);

    /// <summary>Words with places, filled with these values.</summary>
    internal string Filled(string words) => string.Format(CultureInfo.InvariantCulture, words, [.. values]);
}
