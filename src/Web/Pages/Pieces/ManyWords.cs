using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A change of many pieces in words.</summary>
public static class ManyWords
{
    /// <summary>"Kept on shelf 7; tagged spring class".</summary>
    public static string Of(ManyChange many)
    {
        var (change, tags) = (many.Asked["change"] as JsonObject ?? [], many.Asked["tags"] as JsonObject ?? []);
        var words = new List<string>();
        if (change.ContainsKey("kind"))
        {
            words.Add(change["kind"] is { } kind ? T($"kind {Say.Word("kinds", kind).ToLowerInvariant()}") : T("no kind"));
        }

        if (change.ContainsKey("place"))
        {
            words.Add(change["place"] is JsonObject place ? T($"kept: {string.Join(", ", place.Select(p => $"{Say.Plain(p.Key).ToLowerInvariant()} {p.Value?.ToString() ?? T("none")}"))}") : T("no place"));
        }

        if (Tags(tags["add"]) is { Length: > 0 } added)
        {
            words.Add(T($"tagged {added}"));
        }

        if (Tags(tags["remove"]) is { Length: > 0 } removed)
        {
            words.Add(T($"no longer tagged {removed}"));
        }

        return Say.Capital(string.Join("; ", words));
    }

    private static string Tags(JsonNode? tags) => string.Join(", ", (tags as JsonArray ?? []).Select(t => t?.ToString()));
}
