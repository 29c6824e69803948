using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>
/// What an annotation shows: a <c>TextualBody</c>, or the address of a technique, a finding, a repair of the same garment, or of
/// a word, by itself, as <c>id</c>, or as the <c>source</c> of a <c>SpecificResource</c>.
/// </summary>
internal static class AnnotationBodies
{
    /// <summary>The most things one region shows, and the longest text.</summary>
    public const int Most = 10, LongestText = 2_000;

    private static string Right => T("send the address of a technique, a condition or a repair of this garment, of a word, or a TextualBody");

    public static IReadOnlyList<ShownThing> Read(JsonNode? body, RegionFrame frame, Region? before, ICollection<Fault> faults)
    {
        if (body is null)
        {
            return [];
        }

        var items = body is JsonArray list ? list.Select((b, i) => (Body: b, Path: $"body[{i}]")).ToList() : [(body, "body")];
        if (items.Count > Most)
        {
            faults.Add(new("body", T($"{items.Count} things are shown; a region shows at most {Most}.")));
            return [];
        }

        var shown = items.Select(i => One(i.Body, i.Path, frame, before, faults)).OfType<ShownThing>().ToList();
        return [.. shown.DistinctBy(s => (s.Kind, s.Value))];
    }

    private static ShownThing? One(JsonNode? body, string path, RegionFrame frame, Region? before, ICollection<Fault> faults)
    {
        if (Vocabulary.Text(body) is { } address)
        {
            return Named(address, null, path, frame, before, faults);
        }

        if (body is not JsonObject sent)
        {
            faults.Add(new(path, $"{Vocabulary.Show(body)} is no body: {Right}.", FaultKind.Unreadable));
            return null;
        }

        if (sent["purpose"] is { } purpose && !Vocabulary.Motivations.Contains(Vocabulary.Text(purpose)))
        {
            faults.Add(new($"{path}.purpose", $"{Vocabulary.Show(purpose)} is no purpose; there are {string.Join(", ", Vocabulary.Motivations)}."));
        }

        var why = Vocabulary.Text(sent["purpose"]);
        if (sent.ContainsKey("value"))
        {
            Vocabulary.OnlyKnown(sent, path, faults, "type", "value", "format", "language", "purpose", "id");
            return Textual(sent, why, path, faults);
        }

        Vocabulary.OnlyKnown(sent, path, faults, "type", "source", "purpose", "id", "format");
        var named = sent["source"] ?? sent["id"];
        var at = sent["source"] is null ? $"{path}.id" : $"{path}.source";
        if (Vocabulary.Text(named is JsonObject inner ? inner["id"] : named) is { } source)
        {
            return Named(source, why, at, frame, before, faults);
        }

        faults.Add(new(at, $"It is not said what is shown: {Right}.", FaultKind.Unreadable));
        return null;
    }

    private static ShownThing? Textual(JsonObject sent, string? why, string path, ICollection<Fault> faults)
    {
        if (Vocabulary.Text(sent["value"]) is not { } text)
        {
            faults.Add(new($"{path}.value", $"{Vocabulary.Show(sent["value"])} is not a text.", FaultKind.Unreadable));
            return null;
        }

        if (sent["format"] is { } format && Vocabulary.Text(format) != "text/plain")
        {
            faults.Add(new($"{path}.format", $"{Vocabulary.Show(format)} is not kept here; send text/plain."));
        }

        var language = Vocabulary.Text(sent["language"] is JsonArray { Count: 1 } only ? only[0] : sent["language"]);
        if (sent["language"] is not null && language is not { Length: > 0 and <= 35 })
        {
            faults.Add(new($"{path}.language", $"{Vocabulary.Show(sent["language"])} is no language; send one such as en."));
        }

        text = text.Trim();
        if (text.Length is 0 or > LongestText || text.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t')))
        {
            faults.Add(new($"{path}.value", text.Length == 0 ? T("The text is empty.") : T($"The text has {text.Length} signs, or control characters; send up to {LongestText} plain ones.")));
            return null;
        }

        return new(ShownKind.Text, text, why, language);
    }

    private static ShownThing? Named(string address, string? why, string path, RegionFrame frame, Region? before, ICollection<Fault> faults)
    {
        var steps = Vocabulary.Steps(address);
        var shown = steps switch
        {
            ["api", "garments", var garment, var list, var entry] when Same(garment, frame.Garment.Id) => Entry(list, entry),
            ["api", "words", var facet, var slug] => new(ShownKind.Word, $"{facet}/{slug}"),
            [var facet, var slug] when Words.FacetNames.Contains(facet) => new(ShownKind.Word, $"{facet}/{slug}"),
            [var entry] when Guid.TryParse(entry, out _) => ((string[])["techniques", "condition", "repairs"]).Select(l => Entry(l, entry)).FirstOrDefault(e => frame.Find(e!) is not null),
            _ => null,
        };
        var problem = shown switch
        {
            null => T($"“{FragmentSelector.Short(address)}” is nothing that a region of this picture can show: {Right}."),
            // What was there when it was marked may have been taken out of the record since.
            _ when before?.Keys.Contains(shown.Key) == true => null,
            { Kind: ShownKind.Word, Value: var word } => WordProblem(word.Split('/')),
            _ => frame.Find(shown) is null ? T($"The garment has no such entry as “{FragmentSelector.Short(address)}”; its entries are in GET /api/garments/{frame.Garment.Id}.") : null,
        };
        if (problem is not null)
        {
            faults.Add(new(path, problem));
            return null;
        }

        return shown! with { Purpose = why };
    }

    private static ShownThing? Entry(string list, string entry) => !Guid.TryParse(entry, out var id) ? null : list switch
    {
        "techniques" => new(ShownKind.Technique, id.ToString()),
        "condition" => new(ShownKind.Condition, id.ToString()),
        "repairs" => new(ShownKind.Repair, id.ToString()),
        _ => null,
    };

    private static string? WordProblem(string[] word)
    {
        if (Words.Find(word[0], word[1]) is not null)
        {
            return null;
        }

        var (said, nearest) = (FragmentSelector.Short(string.Join('/', word)), Words.Nearest(word[0], word[1]));
        return nearest.Count == 0 ? T($"“{said}” is not among the words.") : T($"“{said}” is not among the words; nearest: {string.Join(", ", nearest)}.");
    }

    private static bool Same(string text, Guid id) => Guid.TryParse(text, out var read) && read == id;
}
