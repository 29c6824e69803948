using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>A word of one facet of the thesaurus, or <c>{"own":"my word"}</c>.</summary>
public sealed class WordType(string facet) : FieldType
{
    private static readonly TextType Own = new(100, lines: false);

    /// <summary>The facet: <c>laces</c>.</summary>
    public string Facet => facet;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (sent is JsonObject own)
        {
            return ReadOwn(own, path, faults);
        }

        if (!Sent.IsText(sent, path, () => T($"a word of {facet}, or {{\"own\":\"my word\"}}"), faults, out var slug))
        {
            return null;
        }

        if (Words.Find(facet, slug) is not null)
        {
            return JsonValue.Create(slug);
        }

        if (string.IsNullOrWhiteSpace(slug))
        {
            return null;
        }

        var nearest = Words.Nearest(facet, slug);
        faults.Senseless(path, nearest.Count == 0
            ? T($"{Sent.Quote(sent)} is not among the words of {facet}; a word of your own is sent as {{\"own\":\"my word\"}}.")
            : T($"{Sent.Quote(sent)} is not among the words of {facet}; nearest: {string.Join(", ", nearest)}; a word of your own is sent as {{\"own\":\"my word\"}}."));
        return null;
    }

    private static JsonObject? ReadOwn(JsonObject sent, string path, ICollection<Fault> faults)
    {
        if (sent.Select(m => m.Key).FirstOrDefault(k => k != "own") is { } unknown)
        {
            faults.Add(new(RecordType.At(path, unknown), T($"A word of your own has the field \"own\" only, not \"{RecordType.Short(unknown)}\"."), FaultKind.Unreadable));
            return null;
        }

        return sent["own"] is { } word && Own.Read(word, $"{path}.own", faults) is { } text ? new JsonObject { ["own"] = text } : null;
    }
}
