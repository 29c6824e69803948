namespace HeirloomArchive.Catalogue;

/// <summary>One term of the trade, or a word of her own, in one facet.</summary>
/// <param name="Facet">The facet it belongs to: <c>laces</c>.</param>
/// <param name="Slug">Its value in the record, unique in its facet: <c>bucks-point</c>.</param>
/// <param name="Label">As it is shown: "Bucks point".</param>
/// <param name="Definition">A sentence of our own; empty where she gave none.</param>
/// <param name="Synonyms">Other words for it, as people type them; those of words merged into it too.</param>
/// <param name="Broader">The slug of the broader term in the same facet, or null.</param>
public sealed record Word(
    string Facet, string Slug, string Label, string Definition, IReadOnlyList<string> Synonyms, string? Broader)
{
    /// <summary>Unique among all words: <c>laces/bucks-point</c>.</summary>
    public string Id => $"{Facet}/{Slug}";

    /// <summary>The ids of words that have to do with it, of this facet or another; each of them names it in turn.</summary>
    public IReadOnlyList<string> Related { get; init; } = [];

    /// <summary>What else is to be known of it, or null.</summary>
    public string? Note { get; init; }

    /// <summary>Whether she made it.</summary>
    public bool IsOwn { get; init; }

    /// <summary>The slug of the word it counts as, or null: what was entered with it stays as entered.</summary>
    public string? MergedInto { get; init; }
}

/// <summary>The words a record may use: those of the trade, and her own as they are now. Any thread may ask.</summary>
public static class Words
{
    private static readonly Lock Learning = new();

    // By who keeps them: several archives may be open in one process.
    private static readonly Dictionary<object, IReadOnlyList<Word>> Own = [];

    private static volatile Thesaurus now = Thesaurus.OfTrade;

    /// <summary>The words as they are at this moment, which never change: for several questions that belong together.</summary>
    public static Thesaurus Now => now;

    /// <summary>Every facet's name, in the order of the alphabet.</summary>
    public static IReadOnlyCollection<string> FacetNames => now.FacetNames;

    /// <summary>All words that can be chosen, of all facets.</summary>
    public static IReadOnlyList<Word> All => now.All;

    /// <summary>The words of one facet that can be chosen; none if there is no such facet.</summary>
    public static IReadOnlyCollection<Word> In(string facet) => now.In(facet);

    /// <summary>The word with this slug, also one that was merged into another; or null.</summary>
    public static Word? Find(string facet, string slug) => now.Find(facet, slug);

    /// <summary>The label of a slug, or the slug itself if it is not among the words.</summary>
    public static string Label(string facet, string slug) => now.Find(facet, slug)?.Label ?? slug;

    /// <summary>What a value of the record counts as when it is searched for.</summary>
    /// <param name="facet">The facet of its field.</param>
    /// <param name="value">A slug, or the text of an own word.</param>
    /// <returns>The slug of the word that it is, was merged into, or names; the value itself where it is no word.</returns>
    public static string Meant(string facet, string value) => now.Meant(facet, value);

    /// <summary>Up to three slugs of a facet that are nearest in spelling, by the slug itself, its label or a synonym; none if nothing is near.</summary>
    public static IReadOnlyList<string> Nearest(string facet, string typed)
    {
        var names = In(facet).SelectMany(w => w.Synonyms.Append(w.Label).Append(w.Slug), (w, name) => (name, w.Slug)).ToLookup(n => n.name, n => n.Slug);
        return [.. Sent.Nearest(typed, names.Select(n => n.Key), 12).SelectMany(n => names[n]).Distinct().Take(3)];
    }

    /// <summary>How many letters must be put in, taken out, exchanged or swapped with their neighbour to make one word of the other.</summary>
    public static int Distance(string a, string b) => Sent.Distance(a, b);

    /// <summary>Takes the words of one archive in place of those it had; null takes them all away.</summary>
    internal static void Learn(object keeper, IReadOnlyList<Word>? own)
    {
        lock (Learning)
        {
            if (own is null ? !Own.Remove(keeper) : Own.TryGetValue(keeper, out var before) && Same(before, own))
            {
                return;
            }

            if (own is not null)
            {
                Own[keeper] = own;
            }

            now = Thesaurus.OfTrade.With(Own.Values.SelectMany(words => words));
        }
    }

    // Unchanged words leave what was built from them standing.
    private static bool Same(IReadOnlyList<Word> before, IReadOnlyList<Word> own) => before.Count == own.Count
        && before.Zip(own).All(p => p.First.Synonyms.SequenceEqual(p.Second.Synonyms) && p.First == p.Second with { Synonyms = p.First.Synonyms, Related = p.First.Related });
}
