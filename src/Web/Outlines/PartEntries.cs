using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Outlines;

/// <summary>What is recorded of one part: the equal list beside the drawing, and the marks on it.</summary>
/// <param name="Part">The part's slug, her own word for it, or null where none is recorded.</param>
/// <param name="Label">As it is shown.</param>
/// <param name="Usual">Whether the kind usually has it, or that is not known.</param>
/// <param name="Entries">The techniques, findings and repairs there, in this order.</param>
public sealed record PartEntries(string? Part, string Label, bool Usual, IReadOnlyList<PlacedEntry> Entries)
{
    private static readonly string[] Lists = ["techniques", "condition", "repairs"];

    /// <summary>The id of its row in the list.</summary>
    public string Id => "part-" + (Part is null ? "none" : string.Concat(Part.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')));

    /// <summary>"2 techniques, 1 finding".</summary>
    public string Counts => string.Join(", ", Lists.Select(l => (List: l, Count: Entries.Count(e => e.List == l))).Where(c => c.Count > 0)
        .Select(c => c.List switch
        {
            "techniques" => N(c.Count, $"{Written.Number(c.Count)} technique", $"{Written.Number(c.Count)} techniques"),
            "condition" => N(c.Count, $"{Written.Number(c.Count)} finding", $"{Written.Number(c.Count)} findings"),
            _ => N(c.Count, $"{Written.Number(c.Count)} repair", $"{Written.Number(c.Count)} repairs"),
        }));

    /// <summary>Everything recorded of a garment by its part, in the order of the words; what has no part comes last. Findings that ended, or that a later one continues, are left to the page.</summary>
    public static IReadOnlyList<PartEntries> Of(JsonObject garment)
    {
        var kind = garment["kind"];
        var order = Catalogue.Words.In("parts").Select(w => w.Slug).ToList();
        var continued = Recorded(garment, "condition").Select(f => f["continues"]?.ToString()).OfType<string>().ToHashSet();
        return [.. Lists
            .SelectMany(list => Recorded(garment, list)
                .Where(e => list != "condition" || (e["ended"] is null && !continued.Contains(e["id"]!.ToString())))
                .SelectMany(e => Places(list, e)))
            .GroupBy(p => p.Word, p => p.Entry)
            .OrderBy(g => g.Key is null ? int.MaxValue : order.IndexOf(g.Key) is >= 0 and var place ? place : int.MaxValue - 1)
            .Select(g => new PartEntries(
                g.Key, g.Key is null ? T("No part named") : Say.Word("parts", g.Key),
                g.Key is null || OutlineKinds.IsUsual(kind, g.Key), [.. g]))];
    }

    // The same work elsewhere on the piece is shown there too.
    private static IEnumerable<(string? Word, PlacedEntry Entry)> Places(string list, JsonObject entry)
    {
        var repeats = (entry["repeats"] as JsonArray ?? []).OfType<JsonObject>();
        return repeats.Prepend(entry)
            .Select(place => (Text(place["part"]), new PlacedEntry(
                list, entry["id"]!.ToString(), place == entry ? Say.Entry(list, entry) : T($"{Say.Entry(list, entry)}, again here"), place["side"]?.ToString())));
    }

    private static string? Text(JsonNode? word) => word is JsonObject own ? own["own"]?.ToString() : word?.ToString();

    private static IEnumerable<JsonObject> Recorded(JsonObject garment, string list) => (garment[list] as JsonArray ?? []).OfType<JsonObject>();
}

/// <summary>An entry at a part.</summary>
/// <param name="List"><c>techniques</c>, <c>condition</c> or <c>repairs</c>.</param>
/// <param name="Id">The entry's.</param>
/// <param name="Name">What it is, in a line.</param>
/// <param name="Side">The wearer's side, or null.</param>
public sealed record PlacedEntry(string List, string Id, string Name, string? Side)
{
    /// <summary>Its name with its side.</summary>
    public string Said => Side switch { null => Name, "both" => T($"{Name}, both sides"), _ => $"{Name}, {Say.Plain(Side).ToLowerInvariant()}" };

    /// <summary>Whether it may be at a region of that side: one that tells no side may be on either.</summary>
    public bool MayBeAt(string? side) => side is null || Side is not ("left" or "right") || Side == side;
}
