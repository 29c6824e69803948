using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Api;

/// <summary>A garment as a whole: enter, read, change, set aside, bring back.</summary>
public static class GarmentsApi
{
    public static void MapGarments(this IEndpointRouteBuilder app)
    {
        var garments = app.MapGroup("/api/garments").WithTags("Garments");
        garments.MapGet("/", List).WithSummary("All pieces, newest first; those set aside left out.");
        garments.MapPost("/", Enter).WithSummary("Enter a piece: one event that carries everything sent.").Accepts<JsonObject>("application/json");
        garments.MapGet("/{id:guid}", Read).WithSummary("The whole record of a piece.");
        garments.MapPatch("/{id:guid}", Change).WithSummary("Change fields by JSON merge patch (RFC 7396).").Accepts<JsonObject>("application/merge-patch+json", "application/json");
        garments.MapDelete("/{id:guid}", SetAside).WithSummary("Set a piece aside; it keeps its number and its history.");
        garments.MapPost("/{id:guid}/bring-back", BringBack).WithSummary("Bring a piece back that was set aside.");
    }

    private static async Task<IResult> List(HttpRequest request, Archive archive, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        var (total, items) = await archive.Page(paging.Page, paging.Size, ct);
        return Api.Json(new JsonObject { ["total"] = total, ["items"] = new JsonArray([.. items.Select(g => g.State())]) });
    }

    private static async Task<IResult> Enter(HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var sent = await Body.ReadObject(http.Request, ct);
        var saved = await archive.Enter(sent, Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        http.Response.Headers.Location = $"/api/garments/{saved.Garment.Id}";
        return Api.Json(saved.Garment.State(), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Read(Guid id, HttpResponse response, Archive archive, CancellationToken ct)
    {
        var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
        Versions.Tag(response, garment.Version);
        return Api.Json(garment.State());
    }

    private static async Task<IResult> Change(Guid id, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        var patch = await Body.ReadObject(http.Request, ct);
        return await Answer(http.Response, await archive.Change(id, seen, patch, Versions.Who, ct), index);
    }

    private static async Task<IResult> SetAside(Guid id, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var saved = await archive.SetAside(id, Versions.Seen(http.Request), Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        return Results.NoContent();
    }

    private static async Task<IResult> BringBack(Guid id, HttpResponse response, Archive archive, IndexFollower index, CancellationToken ct) =>
        await Answer(response, await archive.BringBack(id, Versions.Who, ct), index);

    internal static async Task<IResult> Answer(HttpResponse response, Saved saved, IndexFollower index)
    {
        await Versions.Written(response, saved.Garment, saved.Position, index);
        return Api.Json(saved.Garment.State());
    }
}
