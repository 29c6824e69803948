using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>What has been changed, when and by whom; and how to put it back.</summary>
public static class HistoryApi
{
    public static void MapHistory(this IEndpointRouteBuilder app)
    {
        var history = app.MapGroup("/api/garments/{id:guid}/history").WithTags("History");
        history.MapGet("/", Read).WithSummary("Every change, newest first.");
        history.MapPost("/{version:long}/put-back", PutBack).Accepts<JsonObject>("application/json")
            .WithSummary("Put back the record as it was at a version, or one field of it.");
    }

    private static async Task<IResult> Read(Guid id, HttpRequest request, Archive archive, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        return Api.Json(await archive.History(id, paging.Page, paging.Size, ct));
    }

    private static async Task<IResult> PutBack(Guid id, long version, HttpContext http, Archive archive, IndexFollower index, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        var field = Field(await Body.ReadObjectOrNothing(http.Request, ct));
        return await GarmentsApi.Answer(http.Response, await archive.PutBack(id, seen, version, field, Versions.Who, ct), index);
    }

    private static string? Field(JsonObject? body)
    {
        if (body?.FirstOrDefault(m => m.Key != "field").Key is { } unknown)
        {
            throw new FaultException(unknown, "Put back reads one field only: \"field\".", FaultKind.Unreadable);
        }

        return body?["field"] switch
        {
            null => null,
            JsonValue v when v.GetValueKind() == JsonValueKind.String => v.GetValue<string>(),
            _ => throw new FaultException("field", "A field is named by a text, such as \"name\".", FaultKind.Unreadable),
        };
    }
}
