using System.Text.Json;

namespace HeirloomArchive.Catalogue;

/// <summary>One term of the trade, in one facet.</summary>
/// <param name="Facet">The facet it belongs to: <c>laces</c>.</param>
/// <param name="Slug">Its value in the record, unique in its facet: <c>bucks-point</c>.</param>
/// <param name="Label">As it is shown: "Bucks point".</param>
/// <param name="Definition">A sentence of our own.</param>
/// <param name="Synonyms">Other words for it, as people type them.</param>
/// <param name="Broader">The slug of the broader term in the same facet, or null.</param>
public sealed record Word(
    string Facet, string Slug, string Label, string Definition, IReadOnlyList<string> Synonyms, string? Broader);

/// <summary>The thesaurus: the words a record may use, read once from the data files in <c>Words/</c>.</summary>
public static class Words
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    private static readonly Dictionary<string, Dictionary<string, Word>> Facets = Read();

    /// <summary>Every facet's name, in the order of the files.</summary>
    public static IReadOnlyCollection<string> FacetNames => Facets.Keys;

    /// <summary>All words of all facets.</summary>
    public static IEnumerable<Word> All => Facets.Values.SelectMany(f => f.Values);

    /// <summary>The words of one facet; none if there is no such facet.</summary>
    public static IReadOnlyCollection<Word> In(string facet) =>
        Facets.TryGetValue(facet, out var words) ? words.Values : [];

    /// <summary>The word with this slug, or null.</summary>
    public static Word? Find(string facet, string slug) =>
        Facets.TryGetValue(facet, out var words) ? words.GetValueOrDefault(slug) : null;

    /// <summary>The label of a slug, or the slug itself if it is not among the words.</summary>
    public static string Label(string facet, string slug) => Find(facet, slug)?.Label ?? slug;

    /// <summary>Up to three slugs of a facet that are nearest in spelling, by the slug itself, its label or a synonym; none if nothing is near.</summary>
    public static IReadOnlyList<string> Nearest(string facet, string typed)
    {
        var names = In(facet).SelectMany(w => w.Synonyms.Append(w.Label).Append(w.Slug), (w, name) => (name, w.Slug)).ToLookup(n => n.name, n => n.Slug);
        return [.. Sent.Nearest(typed, names.Select(n => n.Key), 12).SelectMany(n => names[n]).Distinct().Take(3)];
    }

    private static Dictionary<string, Dictionary<string, Word>> Read()
    {
        var facets = new Dictionary<string, Dictionary<string, Word>>();
        var assembly = typeof(Words).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.EndsWith(".words.json", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using var stream = assembly.GetManifestResourceStream(name)!;
            var file = JsonSerializer.Deserialize<WordFile>(stream, Reading)!;
            facets[file.Facet] = file.Words.ToDictionary(
                w => w.Slug, w => new Word(file.Facet, w.Slug, w.Label, w.Definition ?? "", w.Synonyms ?? [], w.Broader));
        }

        return facets;
    }

    private sealed record WordFile(string Facet, IReadOnlyList<Entry> Words);

    private sealed record Entry(string Slug, string Label, string? Definition, IReadOnlyList<string>? Synonyms, string? Broader);
}
