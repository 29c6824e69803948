using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Api;

/// <summary>The entries of a garment's lists, one at a time. Pictures come by upload; here they are changed and left out.</summary>
public static class EntriesApi
{
    public static void MapEntries(this IEndpointRouteBuilder app)
    {
        foreach (var list in (string[])["techniques", "examinations", "condition", "repairs", "pictures"])
        {
            var entries = app.MapGroup($"/api/garments/{{id:guid}}/{list}").WithTags("Entries");
            if (list != "pictures")
            {
                entries.MapPost("/", (Guid id, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct) =>
                    Add(id, list, http, archive, index, ct)).Accepts<JsonObject>("application/json").WithSummary($"Add an entry to {list}.");
            }

            entries.MapGet("/{entry:guid}", (Guid id, Guid entry, HttpResponse response, Archive archive, CancellationToken ct) =>
                Read(id, list, entry, response, archive, ct)).WithSummary($"One entry of {list}.");
            entries.MapPut("/{entry:guid}", (Guid id, Guid entry, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct) =>
                Put(id, list, entry, http, archive, index, ct)).Accepts<JsonObject>("application/json").WithSummary($"Put an entry of {list} as sent.");
            entries.MapDelete("/{entry:guid}", (Guid id, Guid entry, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct) =>
                Remove(id, list, entry, http, archive, index, ct)).WithSummary($"Take an entry out of {list}; history keeps it.");
        }
    }

    private static async Task<IResult> Add(Guid id, string list, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        var sent = await Body.ReadObject(http.Request, ct);
        var saved = await archive.AddEntry(id, seen, list, sent, Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        http.Response.Headers.Location = $"/api/garments/{id}/{list}/{saved.Entry["id"]}";
        return Api.Json(saved.Entry.DeepClone(), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Read(Guid id, string list, Guid entry, HttpResponse response, Archive archive, CancellationToken ct)
    {
        var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
        var found = (garment.State()[list] as JsonArray)?.FirstOrDefault(e => e?["id"]?.GetValue<string>() == entry.ToString())
            ?? throw new NotFoundException($"The garment's {list} have no entry with the id {entry}.");
        Versions.Tag(response, garment.Version);
        return Api.Json(found.DeepClone());
    }

    private static async Task<IResult> Put(Guid id, string list, Guid entry, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        var sent = await Body.ReadObject(http.Request, ct);
        var saved = await archive.PutEntry(id, seen, list, entry, sent, Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        return Api.Json(saved.Entry.DeepClone());
    }

    private static async Task<IResult> Remove(Guid id, string list, Guid entry, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var saved = await archive.RemoveEntry(id, Versions.Seen(http.Request), list, entry, Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        return Results.NoContent();
    }
}
