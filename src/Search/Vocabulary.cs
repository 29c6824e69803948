using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Search;

/// <summary>What a typed phrase may mean: a word of the trade, or one of a few of our own ways of saying.</summary>
internal readonly record struct Meaning(string Facet, string Slug);

/// <summary>A phrase of the vocabulary met in a run of words: where it begins, how many words it has, what it may mean.</summary>
internal readonly record struct Spot(int First, int Count, IReadOnlyList<Meaning> Meanings);

/// <summary>The thesaurus turned round: from every way of writing a word to the words it may be.</summary>
internal sealed class Vocabulary
{
    /// <summary>The facet of the ways to say who made it: by hand, by machine.</summary>
    public const string Made = "made";

    /// <summary>The facet of the forms a lace comes in.</summary>
    public const string Forms = "forms";

    /// <summary>The facet of how bad a finding is.</summary>
    public const string Severities = "severities";

    // A word of these facets names a sort of something; "plain" or "pin" alone may be anything.
    private static readonly Dictionary<string, string[]> Heads = new()
    {
        ["tucks"] = ["tucks"], ["laces"] = ["lace"], ["seams"] = ["seam"], ["hems"] = ["hem"], ["stitches"] = ["stitch"],
        ["whitework"] = ["work", "embroidery"],
    };

    private static readonly Dictionary<string, string> NeedsHead = new()
    {
        ["tucks"] = "tuck", ["seams"] = "seam", ["hems"] = "hem", ["stitches"] = "stitch",
    };

    private static readonly HashSet<string> TooPlain = ["tape", "needle", "knitted", "chemical", "bobbin", "pin", "spot", "bow", "length", "width"];

    private static readonly (string Facet, string Slug, string[] Phrases)[] Ours =
    [
        (Made, "hand", ["hand", "by hand", "hand sewn", "hand stitched", "hand made", "handsewn", "handmade", "handstitched", "hand worked"]),
        (Made, "machine", ["machine", "by machine", "machine sewn", "machine stitched", "machine made"]),
        (Made, "machine-lockstitch", ["machine lockstitch", "lockstitch", "lock stitch"]),
        (Made, "machine-chainstitch", ["machine chainstitch", "machine chain stitch"]),
        (Forms, "edging", ["edging"]), (Forms, "insertion", ["insertion"]), (Forms, "beading", ["beading"]),
        (Forms, "galloon", ["galloon"]), (Forms, "flouncing", ["flouncing"]), (Forms, "allover", ["allover", "all over"]),
        (Forms, "medallion", ["medallion"]),
        (Severities, "slight", ["slight"]), (Severities, "moderate", ["moderate"]), (Severities, "severe", ["severe"]),
    ];

    private static volatile Kept? latest;

    private readonly Dictionary<string, List<Meaning>> phrases = [];
    private readonly Dictionary<string, int> longestFrom = [];
    private readonly HashSet<string> single = [];

    private Vocabulary(Thesaurus words)
    {
        foreach (var word in words.All)
        {
            foreach (var phrase in PhrasesOf(word))
            {
                Add(phrase, new Meaning(word.Facet, word.Slug));
            }
        }

        foreach (var (facet, slug, ways) in Ours)
        {
            Array.ForEach(ways, way => Add(way, new Meaning(facet, slug)));
        }

        var all = string.Join('\n', phrases.OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key}={string.Join(',', p.Value)}"))
            + string.Join('\n', words.All.Select(w => $"{w.Id}={w.Label}<{w.Broader}").Concat(words.All.Where(w => w.IsOwn).SelectMany(w => w.Synonyms, (w, name) => $"{w.Id}:{name}")).Concat(words.Merged.Select(w => $"{w.Id}>{w.MergedInto}")));
        Fingerprint = Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(all)))[..12];
    }

    /// <summary>The words of the trade, and her own, as they are now.</summary>
    public static Vocabulary Trade
    {
        get
        {
            var (words, last) = (Catalogue.Words.Now, latest);
            return last is not null && last.Of == words ? last.Vocabulary : (latest = new(words, new(words))).Vocabulary;
        }
    }

    /// <summary>Changes with the words: text is indexed by them, so new words ask for a new index.</summary>
    public string Fingerprint { get; }

    /// <summary>Every single word in any way of writing one.</summary>
    public IReadOnlySet<string> Words => single;

    /// <summary>Every phrase in the words, those within longer ones too.</summary>
    public IEnumerable<Spot> All(IReadOnlyList<Token> tokens) =>
        Enumerable.Range(0, tokens.Count).SelectMany(first => At(tokens, first));

    /// <summary>The phrases that begin at one word, the longest first.</summary>
    public IEnumerable<Spot> At(IReadOnlyList<Token> tokens, int first)
    {
        for (var count = Math.Min(longestFrom.GetValueOrDefault(tokens[first].Stem), tokens.Count - first); count > 0; count--)
        {
            var key = string.Join(' ', Enumerable.Range(first, count).Select(i => tokens[i].Stem));
            if (phrases.TryGetValue(key, out var meanings))
            {
                yield return new Spot(first, count, meanings);
            }
        }
    }

    /// <summary>The words of the trade that a half-typed one may become, shortest label first.</summary>
    public static IEnumerable<Word> Completing(string typed) => Catalogue.Words.All
        .Where(w => PhrasesOf(w).Any(p => Fold(p).StartsWith(typed, StringComparison.Ordinal)))
        .OrderBy(w => Fold(w.Label).StartsWith(typed, StringComparison.Ordinal) ? 0 : 1)
        .ThenBy(w => w.Label.Length).ThenBy(w => w.Label, StringComparer.Ordinal);

    /// <summary>Every way of writing a word.</summary>
    public static IEnumerable<string> PhrasesOf(Word word)
    {
        var plain = word.Slug.Replace('-', ' ');
        foreach (var phrase in word.Synonyms.Prepend(word.Label).Prepend(plain))
        {
            if (phrase.Contains(' ', StringComparison.Ordinal)
                || (phrase.Contains(NeedsHead.GetValueOrDefault(word.Facet, ""), StringComparison.OrdinalIgnoreCase) && !TooPlain.Contains(Fold(phrase))))
            {
                yield return phrase;
            }
        }

        foreach (var head in Heads.GetValueOrDefault(word.Facet, []))
        {
            yield return $"{plain} {head}";
        }
    }

    /// <summary>Lower case and without accents, for comparing what is half typed.</summary>
    public static string Fold(string text) => string.Join(' ', Analysis.Tokens(text).Select(t => t.Word));

    private void Add(string phrase, Meaning meaning)
    {
        var tokens = Analysis.Tokens(phrase);
        single.UnionWith(tokens.Select(t => t.Word));
        var stems = tokens.ConvertAll(t => t.Stem);
        if (stems.Count == 0)
        {
            return;
        }

        var key = string.Join(' ', stems);
        longestFrom[stems[0]] = Math.Max(longestFrom.GetValueOrDefault(stems[0]), stems.Count);
        if (!phrases.TryGetValue(key, out var meanings))
        {
            phrases[key] = meanings = [];
        }

        if (!meanings.Contains(meaning))
        {
            meanings.Add(meaning);
        }
    }

    private sealed record Kept(Thesaurus Of, Vocabulary Vocabulary);
}
