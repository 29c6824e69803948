using System.Text.Json.Nodes;
using HeirloomArchive.Pictures;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Api;

/// <summary>What came of a worksheet, with its picture if she sends one: JSON, or the same fields and <c>file</c> as a form.</summary>
public static class MadeUpApi
{
    public static void MapMadeUp(this IEndpointRouteBuilder app)
    {
        var made = app.MapGroup("/api/worksheets/{id:guid}/made-up").WithTags("Worksheets");
        made.MapGet("/", List).WithSummary("What came of it, newest first: planned, measured and the difference.");
        made.MapPost("/", Add).WithSummary("Record what came of it: JSON, or multipart/form-data with the same fields and file.")
            .WithMetadata(new RequestSizeLimitAttribute(PicturesApi.LargestUpload)).Accepts<JsonObject>("application/json", "multipart/form-data");
    }

    private static async Task<IResult> List(Guid id, IDocumentStore store, CancellationToken ct)
    {
        var worksheet = await WorksheetsApi.Find(id, store, ct);
        await using var session = store.QuerySession();
        var made = await session.Query<MadeUp>().Where(m => m.Worksheet == id).OrderByDescending(m => m.Id).ToListAsync(ct);
        return Api.Json(new JsonObject { ["total"] = made.Count, ["items"] = new JsonArray([.. made.Select(m => m.ToJson(worksheet))]) });
    }

    private static async Task<IResult> Add(
        Guid id, HttpContext http, MadeUpKeeping keeping, PictureStore pictures, PictureLimits limits, IDocumentStore store, CancellationToken ct)
    {
        List<IncomingFile> files = [];
        try
        {
            var body = Multipart.Is(http.Request)
                ? Object(await Multipart.Receive(http.Request, files, pictures, limits, ["date", "cloth", "finished", "note"], ct))
                : await Body.ReadObject(http.Request, ct);
            var worksheet = await WorksheetsApi.Find(id, store, ct);
            var made = await keeping.Keep(worksheet, body, files, ct);
            http.Response.Headers.Location = $"/api/worksheets/{id}/made-up";
            return Api.Json(made.ToJson(worksheet), StatusCodes.Status201Created);
        }
        finally
        {
            files.ForEach(f => f.Dispose());
        }
    }

    // A field left blank in a form is one left out.
    private static JsonObject Object(IReadOnlyDictionary<string, string> texts) =>
        new(texts.Where(t => t.Value.Length > 0).Select(t => KeyValuePair.Create(t.Key, (JsonNode?)t.Value)));
}
