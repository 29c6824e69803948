using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>One change of a piece as its history tells it.</summary>
public sealed record ChangeView(long Version, string What, string When, string Who, IReadOnlyList<(string Where, string? Was, string Is)> Lines, int More)
{
    private const int MostLines = 40;

    /// <param name="item">As <see cref="Archive.History"/> writes it.</param>
    /// <param name="now">The record that ids point into.</param>
    public static ChangeView Of(JsonObject item, JsonObject now)
    {
        var changes = (item["changes"] as JsonArray ?? []).OfType<JsonObject>().ToList();
        return new(
            Say.Number(item["version"]), ChangeWords.What(item["what"]?.ToString() ?? ""), Say.When(item["when"]?.ToString() ?? ""),
            item["who"]?.ToString() is { } who && who != Viewer.Owner.Name ? who : "",
            [.. changes.Take(MostLines).Select(c => Line(c, now))], Math.Max(0, changes.Count - MostLines));
    }

    private static (string, string?, string) Line(JsonObject change, JsonObject now)
    {
        var path = change["path"]?.ToString() ?? "";
        var field = ChangeWords.FieldAt(path);
        return (ChangeWords.Place(path), change["old"] is { } old ? ChangeWords.Value(field, old, now) : null,
            change["new"] is null ? change["old"] is null ? "" : T("taken out") : ChangeWords.Value(field, change["new"], now));
    }
}
