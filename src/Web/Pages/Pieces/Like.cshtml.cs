using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>What is like a piece, or made like one of its techniques, each with why.</summary>
public sealed class LikeModel(Archive archive, GarmentIndex index, IDocumentStore documents) : PageModel
{
    private const int Most = 24;

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    /// <summary>The technique that is compared; null for the whole piece.</summary>
    public JsonObject? Technique { get; private set; }

    /// <summary>Only those of another size.</summary>
    public bool AnySize { get; private set; }

    /// <summary>Whether there is a width to be had at another size.</summary>
    public bool HasProportions => Technique?["groups"] is JsonArray { Count: > 0 };

    /// <summary>The nearest first.</summary>
    public IReadOnlyList<TileView> Found { get; private set; } = [];

    public async Task<IActionResult> OnGet(Guid id, Guid? technique, bool proportions, CancellationToken ct)
    {
        if ((await archive.Find(id, ct))?.State() is not { } state)
        {
            return NotFound();
        }

        (Id, Name, AnySize) = (id, state["name"]?.ToString() ?? "", proportions);
        if (technique is { } asked)
        {
            Technique = Techniques(state).FirstOrDefault(t => t["id"]?.ToString() == asked.ToString());
            if (Technique is null)
            {
                return NotFound();
            }
        }

        var like = Technique is null ? index.LikeGarment(id, state, Most) : index.LikeTechnique(id, Technique, proportions, Most);
        Found = await Tiles(like["items"]!.AsArray().OfType<JsonObject>().ToList(), ct);
        return Page();
    }

    private async Task<IReadOnlyList<TileView>> Tiles(List<JsonObject> items, CancellationToken ct)
    {
        await using var session = documents.QuerySession();
        var pieces = (await session.LoadManyAsync<Garment>(ct, items.Select(i => Guid.Parse(i["id"]!.ToString())).Distinct())).ToDictionary(g => g.Id.ToString(), g => g.State(Viewer.Now.Sight.WithoutPrivate));
        return [.. items.Where(i => pieces.ContainsKey(i["id"]!.ToString())).Select(i => Tile(pieces[i["id"]!.ToString()], i))];
    }

    private static TileView Tile(JsonObject state, JsonObject item)
    {
        var tile = TileView.Of(state);
        var other = Techniques(state).FirstOrDefault(t => t["id"]?.ToString() == item["technique"]?.ToString());
        return tile with
        {
            To = other is null ? tile.To : $"{tile.To}#{other["id"]}",
            Lines =
            [
                .. other is null ? (string[])[] : [Say.Entry("techniques", other)],
                .. item["why"]!.AsArray().Count == 0 ? (string[])[] : [T($"Why: {string.Join("; ", item["why"]!.AsArray())}.")],
            ],
        };
    }

    private static IEnumerable<JsonObject> Techniques(JsonObject state) => (state["techniques"] as JsonArray ?? []).OfType<JsonObject>();
}
