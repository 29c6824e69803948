using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>The words of a facet to choose from, for <c>_WordOptions.cshtml</c>: by label, those with narrower ones as a group.</summary>
/// <param name="Facet">Which.</param>
/// <param name="Chosen">The slug that is chosen; kept in the list even if it was merged or has gone.</param>
/// <param name="But">A slug that is left out, or null.</param>
public sealed record WordOptions(string Facet, string Chosen, string? But = null)
{
    /// <summary>In the order of the alphabet; a group begins with the word it is named after.</summary>
    public IReadOnlyList<WordGroup> Groups
    {
        get
        {
            var words = Words.Now;
            var groups = ByLabel(words.Top(Facet)).Select(w => Group(words, w)).Where(g => g.Choices.Count > 0).ToList();
            return Chosen.Length > 0 && !groups.Exists(g => g.Choices.Any(c => c.Value == Chosen)) && Chosen != But
                ? [.. groups, new(null, [(Chosen, Say.Word(Facet, Chosen))])]
                : groups;
        }
    }

    /// <summary>The same for boxes to tick: words with narrower ones a group each, all others together as the last.</summary>
    public static IEnumerable<WordGroup> Together(string facet, IEnumerable<string> chosen)
    {
        var groups = new WordOptions(facet, "").Groups;
        var gone = chosen.Where(c => !groups.Any(g => g.Choices.Any(o => o.Value == c))).Select(c => (c, Say.Word(facet, c)));
        return groups.Where(g => g.Label is not null).Append(new(null, [.. groups.Where(g => g.Label is null).Select(g => g.Choices[0]), .. gone]));
    }

    private WordGroup Group(Thesaurus words, Word word)
    {
        var below = Below(words, word).ToList();
        IEnumerable<(string Slug, string Label)> all = [(word.Slug, Say.Label(word)), .. below];
        return new(below.Count == 0 ? null : Say.Label(word), [.. all.Where(c => c.Slug != But)]);
    }

    private static IEnumerable<(string, string)> Below(Thesaurus words, Word word) => ByLabel(words.Narrower(word))
        .SelectMany(w => Below(words, w).Prepend((w.Slug, Say.Label(w))));

    // In the reader's language the alphabet goes another way.
    private static IEnumerable<Word> ByLabel(IEnumerable<Word> words) => words.OrderBy(Say.Label, StringComparer.OrdinalIgnoreCase);
}

/// <summary>Words that stand together; a single one has no label.</summary>
public sealed record WordGroup(string? Label, IReadOnlyList<(string Value, string Label)> Choices);
