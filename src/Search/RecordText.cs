using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Search;

/// <summary>A text with its words.</summary>
internal readonly record struct Said(string Text, List<Token> Words);

/// <summary>What can be found by words in one part of a record: its sentences, its chosen words, its measures.</summary>
internal sealed class RecordText
{
    // Ids, dates and what is computed say nothing to a reader; what is private must not be found or shown.
    private static readonly HashSet<string> Silent =
    [
        "id", "version", "setAside", "lies", "sha256", "examination", "continues", "answers", "under", "crosses", "belongsWith",
        "acquired", "place", "shown", "whereabouts", "date", "ended", "sure", "side", "face", "taken", "byEye",
        "techniques", "condition", "repairs",
    ];

    private static readonly HashSet<string> Closed =
    [
        "sewn", "laceMade", "form", "set", "joined", "ribbon", "remains", "traces", "runs", "measuredFrom", "turned",
        "severity", "attention", "trend", "holds", "light", "overall", "handling", "made", "weight", "cut",
    ];

    private static readonly Dictionary<string, string> FacetOf = new()
    {
        ["part"] = "parts", ["tuckKind"] = "tucks", ["lace"] = "laces", ["trim"] = "trims", ["work"] = "whitework",
        ["handStitch"] = "stitches", ["stitches"] = "stitches", ["seam"] = "seams", ["hemKind"] = "hems",
        ["fastening"] = "fastenings", ["motif"] = "motifs", ["method"] = "repairs", ["word"] = "cloth", ["view"] = "views",
        ["garment/kind"] = "kinds", ["techniques/kind"] = "techniques", ["condition/what"] = "findings", ["measures/name"] = "measures",
    };

    private static readonly HashSet<string> ClosedInPlace = ["repairs/when", "repairs/why", "examinations/why"];

    // The labels of words come again and again; there are not many of them.
    private static readonly ConcurrentDictionary<string, List<Token>> KnownLabels = new();

    /// <summary>Sentences as they were typed.</summary>
    public List<Said> Free { get; } = [];

    /// <summary>Chosen words, as they are shown.</summary>
    public List<Said> Labels { get; } = [];

    /// <summary>Chosen words as <c>laces/torchon</c>, with their broader ones.</summary>
    public HashSet<string> Chosen { get; } = [];

    /// <summary>Measures that have a field of their own, in nanometres.</summary>
    public HashSet<long> Lengths { get; } = [];

    /// <summary>Words of the trade met in sentences.</summary>
    public HashSet<string> Told { get; } = [];

    /// <summary>Measures met in sentences.</summary>
    public HashSet<long> ToldLengths { get; } = [];

    /// <summary>Words of one's own, as <c>laces/what was typed</c>.</summary>
    public HashSet<string> OwnTexts { get; } = [];

    /// <summary>Reads one object of the record; <paramref name="place"/> is <c>garment</c> or the name of its list.</summary>
    public static RecordText Of(JsonObject entry, string place)
    {
        var text = new RecordText();
        text.Walk(entry, place);
        return text;
    }

    /// <summary>The facet's word and its broader ones, as they stand in the index.</summary>
    public static IEnumerable<string> TradeOf(string facet, string slug)
    {
        var seen = new HashSet<string>();
        for (string? at = Words.Meant(facet, slug); at is not null && seen.Add(at); at = Words.Find(facet, at)?.Broader)
        {
            yield return $"{facet}/{at}";
        }
    }

    /// <summary>Takes in the sentences of one of the garment's entries; its chosen words stay with the entry.</summary>
    public void Hear(RecordText entry)
    {
        Free.AddRange(entry.Free);
        Told.UnionWith(entry.Told);
        OwnTexts.UnionWith(entry.OwnTexts);
        ToldLengths.UnionWith(entry.ToldLengths);
    }

    private void Say(string sentence)
    {
        var said = new Said(sentence, Analysis.Tokens(sentence));
        Free.Add(said);
        Told.UnionWith(TradeIn(said.Words));
        ToldLengths.UnionWith(Measures.In(sentence).Select(m => m.Length.Nanometres));
    }

    private static IEnumerable<string> TradeIn(List<Token> words) => Vocabulary.Trade.All(words)
        .SelectMany(spot => spot.Meanings).SelectMany(m => TradeOf(m.Facet, m.Slug));

    private void Walk(JsonObject entry, string place)
    {
        foreach (var (key, node) in entry)
        {
            if (!Silent.Contains(key))
            {
                Take(key, node, place);
            }
        }
    }

    private void Take(string key, JsonNode? node, string place)
    {
        switch (node)
        {
            case JsonArray array when key != "pictures" || place == "garment":
                foreach (var item in array)
                {
                    Take(key, item, item is JsonObject && place == "garment" ? key : place);
                }

                break;
            case JsonObject length when length["mm"] is { } mm:
                Lengths.Add(Nanometres(mm));
                break;
            case JsonObject own when own["own"] is not null:
                Own(own["own"]!.ToString(), FacetAt(key, place));
                break;
            case JsonObject inner:
                Walk(inner, place);
                break;
            case JsonValue value when value.TryGetValue<string>(out var text):
                if (FacetAt(key, place) is { } facet)
                {
                    Choose(Words.Label(facet, text), (facet, text));
                }
                else if (Closed.Contains(key) || ClosedInPlace.Contains($"{place}/{key}"))
                {
                    Choose(text.Replace('-', ' '), null);
                }
                else
                {
                    Say(text);
                }

                break;
        }
    }

    private static string? FacetAt(string key, string place) => FacetOf.GetValueOrDefault(key) ?? FacetOf.GetValueOrDefault($"{place}/{key}");

    private void Own(string text, string? facet)
    {
        Choose(text, null);
        if (facet is not null)
        {
            OwnTexts.Add($"{facet}/{text}");
            Chosen.UnionWith(TradeOf(facet, text));
        }
    }

    private void Choose(string label, (string Facet, string Slug)? word)
    {
        // "not determined" is an answer to a question, nothing one would look for.
        if (label == "not determined")
        {
            return;
        }

        var said = new Said(label, word is null ? Analysis.Tokens(label) : KnownLabels.GetOrAdd(label, Analysis.Tokens));
        Labels.Add(said);
        Chosen.UnionWith(word is { } w ? TradeOf(w.Facet, w.Slug) : TradeIn(said.Words));
    }

    /// <summary>The <c>mm</c> of a length, exactly.</summary>
    public static long Nanometres(JsonNode millimetres) => decimal.ToInt64(decimal.Round(Exactly(millimetres) * 1_000_000m));

    // Most stand in the record as JSON and are read as they stand; the others go by what they would be written as.
    private static decimal Exactly(JsonNode number) => number.AsValue().TryGetValue<decimal>(out var exact)
        ? exact
        : decimal.Parse(number.ToJsonString(), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture);
}
