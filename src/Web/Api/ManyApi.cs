using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Api;

/// <summary>A place, tags or a kind changed on many pieces at once, in the background, with one undo.</summary>
public static class ManyApi
{
    public static void MapMany(this IEndpointRouteBuilder app)
    {
        var many = app.MapGroup("/api/many").WithTags("Many at once");
        many.MapPost("/", Ask).WithSummary("Change the place, tags or kind of many pieces; done in the background, one event a piece.").Accepts<JsonObject>("application/json");
        many.MapGet("/{id:guid}", Read).WithSummary("How far it is, and which pieces were left as they were (page, size).");
        many.MapPost("/{id:guid}/undo", Undo).WithSummary("Undo it as one; what was changed since is left alone and reported.");
    }

    private static async Task<IResult> Ask(HttpContext http, ManyAtOnce many, PieceList list, CancellationToken ct)
    {
        var asked = await many.Ask(await Body.ReadObject(http.Request, ct), Versions.Who, ct);
        http.Response.Headers.Location = $"/api/many/{asked.Id}";
        return Api.Json(await State(asked.Id, many, list, new(1, 20), ct), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Read(Guid id, HttpRequest request, ManyAtOnce many, PieceList list, CancellationToken ct) =>
        Api.Json(await State(id, many, list, Paging.Read(request), ct));

    private static async Task<IResult> Undo(Guid id, ManyAtOnce many, PieceList list, CancellationToken ct) =>
        Api.Json(await State((await many.Undo(id, ct)).Id, many, list, new(1, 20), ct));

    private static async Task<JsonObject> State(Guid id, ManyAtOnce many, PieceList list, Paging paging, CancellationToken ct)
    {
        var progress = await many.Find(id, ct);
        var left = await many.Left(id, paging.Page, paging.Size, ct);
        var rows = (await list.Find([.. left.Select(p => p.Garment)], ct)).ToDictionary(r => r.Id);
        return new()
        {
            ["id"] = id.ToString(),
            ["who"] = progress.Many.Who,
            ["when"] = progress.Many.When.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", System.Globalization.CultureInfo.InvariantCulture),
            ["change"] = progress.Many.Asked["change"]?.DeepClone(),
            ["tags"] = progress.Many.Asked["tags"]?.DeepClone(),
            ["state"] = (progress.Many.Open, progress.Many.Undoing) switch { (true, null) => "running", (false, null) => "done", (true, _) => "undoing", _ => "undone" },
            ["total"] = progress.Many.Total,
            ["done"] = progress.Done,
            ["changed"] = progress.Count(ManyOutcome.Changed),
            ["same"] = progress.Count(ManyOutcome.Same),
            ["stopped"] = progress.Count(ManyOutcome.Stopped),
            ["undone"] = progress.Count(ManyOutcome.Undone),
            ["left"] = new JsonObject
            {
                ["total"] = progress.Count(ManyProgress.LeftAlone),
                ["items"] = new JsonArray([.. left.Select(p => new JsonObject
                {
                    ["garment"] = p.Garment.ToString(),
                    ["number"] = rows.GetValueOrDefault(p.Garment)?.Number,
                    ["name"] = rows.GetValueOrDefault(p.Garment)?.Name,
                    ["outcome"] = p.Outcome switch { ManyOutcome.Aside => "set-aside", ManyOutcome.Refused => "refused", _ => "changed-since" },
                    ["why"] = p.Why,
                })]),
            },
        };
    }
}
