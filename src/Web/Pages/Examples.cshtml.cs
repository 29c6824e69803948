using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>Finding: one box, the groups of facets, and what was understood as parts that can be taken away.</summary>
public sealed class ExamplesModel(GarmentIndex index, Archive archive, ShownOnPictures places) : PageModel
{
    private const int Size = 24;
    private JsonObject answer = [];

    /// <summary>A value of a facet, with the number of pieces that choosing it would show.</summary>
    public sealed record FacetValue(string Value, string Label, long Count, bool Chosen);

    /// <summary>A facet of a group.</summary>
    public sealed record FacetView(string Name, string Label, IReadOnlyList<FacetValue> Values);

    /// <summary>Something typed: a year or a length.</summary>
    public sealed record Box(string Name, string Label, string Value);

    /// <summary>Conditions that hold together.</summary>
    public sealed record GroupView(string Title, string Help, IReadOnlyList<FacetView> Facets, IReadOnlyList<Box> Boxes, bool Open);

    /// <summary>One part of what is asked for, and the address without it.</summary>
    public sealed record Part(string Label, string Without);

    public Form Form { get; } = new([]);

    /// <summary>This question's own address.</summary>
    public string Here => Request.Path + Request.QueryString;

    /// <summary>What is asked, as it may be kept: without the page and the order.</summary>
    public string Question => QueryString.Create(Request.Query.Where(p => p.Key is not ("page" or "size" or "sort" or "seen"))
        .SelectMany(p => p.Value, (p, v) => KeyValuePair.Create(p.Key, v)).Where(p => !string.IsNullOrWhiteSpace(p.Value))).ToString();

    public string Q { get; private set; } = "";

    public string Sort { get; private set; } = "";

    public long Total { get; private set; }

    public IReadOnlyList<TileView> Found { get; private set; } = [];

    public IReadOnlyList<Part> Parts { get; private set; } = [];

    public IReadOnlyList<GroupView> Groups { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public IReadOnlyList<(string Value, string Label)> Orders => Q.Length > 0
        ? [("relevance", T("best match")), ("number", T("number")), ("name", T("name")), ("dated", T("date")), ("newest", T("newest first"))]
        : [("number", T("number")), ("name", T("name")), ("dated", T("date")), ("newest", T("newest first"))];

    public async Task<IActionResult> OnGet(CancellationToken ct)
    {
        var asked = Request.Query.SelectMany(p => p.Value, (p, v) => KeyValuePair.Create(p.Key, v)).Where(p => !string.IsNullOrWhiteSpace(p.Value)).ToList();
        Q = Request.Query["q"].ToString().Trim();
        try
        {
            var request = SearchRequest.Read([.. asked.Where(p => p.Key != "size"), KeyValuePair.Create<string, string?>("size", $"{Size}")]);
            Sort = Request.Query["sort"].ToString() is { Length: > 0 } sort ? sort : Orders[0].Value;
            answer = index.Search(request);
            Pager = new(request.Page, Size, Math.Min(Long("total"), SearchRequest.Deepest), n => ExamplesLinks.With(asked, "page", $"{n}"));
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Pager = new(1, Size, 0, _ => "/examples");
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        Total = Long("total");
        Parts = ExamplesLinks.Parts(asked, Q, answer["understood"] as JsonArray ?? []);
        Groups = ExamplesFacets.Of(answer["facets"] as JsonObject ?? [], asked);
        Found = await Tiles(ct);
        return Page();
    }

    private long Long(string name) => Say.Number(answer[name]);

    private async Task<IReadOnlyList<TileView>> Tiles(CancellationToken ct)
    {
        var (tiles, found) = (new List<TileView>(), new List<(JsonObject Item, Garment Garment)>());
        foreach (var item in (answer["items"] as JsonArray ?? []).OfType<JsonObject>())
        {
            // The index may know a piece a moment longer than the record does.
            if (await archive.Find(Guid.Parse(item["id"]!.ToString()), ct) is { } garment)
            {
                found.Add((item, garment));
            }
        }

        await places.Learn([.. found.Where(f => f.Item["techniques"] is JsonArray { Count: > 0 }).Select(f => f.Garment)], ct);
        foreach (var (item, garment) in found)
        {
            var state = garment.State(Viewer.Now.Sight.WithoutPrivate);
            var met = (item["techniques"] as JsonArray ?? []).Select(t => t?.ToString()).ToHashSet();
            var techniques = (state["techniques"] as JsonArray ?? []).OfType<JsonObject>().Where(t => met.Contains(t["id"]?.ToString())).ToList();
            var tile = TileView.Of(state);
            tiles.Add(tile with
            {
                To = techniques.Count > 0 ? $"{tile.To}#{techniques[0]["id"]}" : tile.To,
                Close = await places.Closest(garment.Id.ToString(), "techniques", techniques.Select(t => t["id"]?.ToString())),
                Snippet = item["snippet"]?.ToString(),
                Collect = !Viewer.Now.Sight.Teaching ? null : techniques.Count > 0 ? Lessons.AddModel.Named(garment.Id.ToString(), "technique", techniques[0]["id"]!.ToString()) : garment.Id.ToString(),
                Lines = [.. techniques.Take(3).Select(t => Say.Entry("techniques", t))],
            });
        }

        return tiles;
    }
}
