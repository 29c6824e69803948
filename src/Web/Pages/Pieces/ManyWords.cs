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
            words.Add(change["kind"] is { } kind ? $"kind {Say.Word("kinds", kind).ToLowerInvariant()}" : "no kind");
        }

        if (change.ContainsKey("place"))
        {
            words.Add(change["place"] is JsonObject place ? "kept: " + string.Join(", ", place.Select(p => $"{p.Key} {p.Value?.ToString() ?? "none"}")) : "no place");
        }

        words.AddRange(Tags(tags["add"], "tagged"));
        words.AddRange(Tags(tags["remove"], "no longer tagged"));
        return Say.Capital(string.Join("; ", words));
    }

    private static IEnumerable<string> Tags(JsonNode? tags, string what) =>
        tags is JsonArray { Count: > 0 } some ? [$"{what} {string.Join(", ", some.Select(t => t?.ToString()))}"] : [];
}
