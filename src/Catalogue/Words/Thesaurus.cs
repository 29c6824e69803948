using System.Globalization;
using System.Text;
using System.Text.Json;

namespace HeirloomArchive.Catalogue;

/// <summary>A thesaurus as it is at one moment: words in facets, with what leads from one to another. It never changes.</summary>
public sealed class Thesaurus
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    /// <summary>The words of the trade, from the data files beside this one.</summary>
    public static readonly Thesaurus OfTrade = Read();

    private readonly IReadOnlyDictionary<string, string> titles;
    private readonly Dictionary<string, Facet> facets = [];
    private readonly ILookup<(string Facet, string? Slug), Word> narrower;

    private Thesaurus(IReadOnlyDictionary<string, string> titles, IReadOnlyList<Word> words)
    {
        this.titles = titles;
        var related = words.SelectMany(w => w.Related, (w, other) => (From: w.Id, To: other))
            .SelectMany(r => new[] { r, (From: r.To, To: r.From) }).Distinct().ToLookup(r => r.From, r => r.To);
        foreach (var facet in titles.Keys)
        {
            facets[facet] = Settle([.. words.Where(w => w.Facet == facet)], related);
        }

        All = [.. facets.Values.SelectMany(f => f.Shown)];
        narrower = All.Where(w => w.Broader is not null).ToLookup(w => (w.Facet, w.Broader));
    }

    /// <summary>Every facet's name.</summary>
    public IReadOnlyCollection<string> FacetNames => facets.Keys;

    /// <summary>All words that can be chosen.</summary>
    public IReadOnlyList<Word> All { get; }

    /// <summary>The words that were merged into others.</summary>
    public IEnumerable<Word> Merged => facets.Values.SelectMany(f => f.BySlug.Values).Where(w => w.MergedInto is not null);

    /// <summary>A facet's name as it is shown.</summary>
    public string Title(string facet) => titles[facet];

    /// <summary>The words of one facet that can be chosen; none if there is no such facet.</summary>
    public IReadOnlyCollection<Word> In(string facet) => facets.TryGetValue(facet, out var words) ? words.Shown : [];

    /// <summary>The word with this slug, also one that was merged into another; or null.</summary>
    public Word? Find(string facet, string slug) => facets.TryGetValue(facet, out var words) ? words.BySlug.GetValueOrDefault(slug) : null;

    /// <summary>The words directly below this one, by label.</summary>
    public IEnumerable<Word> Narrower(Word word) => narrower[(word.Facet, word.Slug)].OrderBy(w => w.Label, StringComparer.OrdinalIgnoreCase);

    /// <summary>The words of a facet that have none above them, by label.</summary>
    public IEnumerable<Word> Top(string facet) => In(facet).Where(w => w.Broader is null).OrderBy(w => w.Label, StringComparer.OrdinalIgnoreCase);

    /// <summary>The word that has this name, as its label, its slug or a synonym; null if none has.</summary>
    public Word? Named(string facet, string name) =>
        facets.TryGetValue(facet, out var words) && words.ByName.TryGetValue(Fold(name), out var slug) ? words.BySlug[slug] : null;

    /// <summary>What a value of the record counts as, see <see cref="Words.Meant"/>.</summary>
    public string Meant(string facet, string value)
    {
        if (!facets.TryGetValue(facet, out var words))
        {
            return value;
        }

        return words.BySlug.TryGetValue(value, out var word) ? Resolve(word, words.BySlug).Slug : words.ByName.GetValueOrDefault(Fold(value), value);
    }

    /// <summary>These words and hers; one of hers never takes the place of one that is there.</summary>
    public Thesaurus With(IEnumerable<Word> own) =>
        new(titles, [.. facets.Values.SelectMany(f => f.BySlug.Values).Concat(own).DistinctBy(w => w.Id)]);

    /// <summary>A name as it is compared: without capitals, accents, apostrophes, hyphens and double spaces.</summary>
    public static string Fold(string name)
    {
        var plain = new StringBuilder();
        foreach (var c in name.Normalize(NormalizationForm.FormKD).ToLowerInvariant())
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) is not UnicodeCategory.NonSpacingMark and not UnicodeCategory.Control && c is not '\'' and not '’')
            {
                plain.Append(c is '-' || char.IsWhiteSpace(c) ? ' ' : c);
            }
        }

        return string.Join(' ', plain.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    private static Word Resolve(Word word, Dictionary<string, Word> words)
    {
        var seen = new HashSet<string>();
        while (word.MergedInto is { } into && seen.Add(word.Slug) && words.TryGetValue(into, out var next))
        {
            word = next;
        }

        return word;
    }

    private static Facet Settle(IReadOnlyList<Word> words, ILookup<string, string> related)
    {
        var given = words.ToDictionary(w => w.Slug);
        var merged = words.Where(w => Resolve(w, given) != w).ToLookup(w => Resolve(w, given).Slug);
        var shown = new List<Word>();
        foreach (var word in words.Where(w => Resolve(w, given) == w))
        {
            var names = word.Synonyms.Concat(merged[word.Slug].SelectMany(w => w.Synonyms.Prepend(w.Label)));
            shown.Add(word with
            {
                Synonyms = [.. names.Where(n => n != word.Label).Distinct()],
                Broader = Above(word, given),
                Related = [.. related[word.Id].Order(StringComparer.Ordinal)],
            });
        }

        var bySlug = words.ToDictionary(w => w.Slug);
        shown.ForEach(w => bySlug[w.Slug] = w);
        var byName = new Dictionary<string, string>();
        foreach (var word in shown.OrderBy(w => w.IsOwn))
        {
            foreach (var name in word.Synonyms.Prepend(word.Label).Prepend(word.Slug))
            {
                byName.TryAdd(Fold(name), word.Slug);
            }
        }

        return new(bySlug, shown, byName);
    }

    // The word above, or what that was merged into; none where the way up would lead back.
    private static string? Above(Word word, Dictionary<string, Word> words)
    {
        Word? Up(Word from) => from.Broader is { } slug && words.TryGetValue(slug, out var up) ? Resolve(up, words) : null;
        var seen = new HashSet<string> { word.Slug };
        for (var up = Up(word); up is not null; up = Up(up))
        {
            if (!seen.Add(up.Slug))
            {
                return null;
            }
        }

        return Up(word)?.Slug;
    }

    private static Thesaurus Read()
    {
        var titles = new Dictionary<string, string>();
        var words = new List<Word>();
        var assembly = typeof(Words).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.EndsWith(".words.json", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using var stream = assembly.GetManifestResourceStream(name)!;
            var file = JsonSerializer.Deserialize<WordFile>(stream, Reading)!;
            titles[file.Facet] = file.Title;
            words.AddRange(file.Words.Select(w => new Word(file.Facet, w.Slug, w.Label, w.Definition, w.Synonyms ?? [], w.Broader)
            {
                Related = [.. (w.Related ?? []).Select(r => r.Contains('/', StringComparison.Ordinal) ? r : $"{file.Facet}/{r}")],
                Note = w.Note,
            }));
        }

        return new(titles, words);
    }

    private sealed record Facet(Dictionary<string, Word> BySlug, IReadOnlyList<Word> Shown, Dictionary<string, string> ByName);

    private sealed record WordFile(string Facet, string Title, IReadOnlyList<Entry> Words);

    private sealed record Entry(
        string Slug, string Label, string Definition, IReadOnlyList<string>? Synonyms, string? Broader, IReadOnlyList<string>? Related, string? Note);
}
