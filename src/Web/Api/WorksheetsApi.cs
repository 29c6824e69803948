using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>Worksheets: made once, kept whole, printed alike every time.</summary>
public static class WorksheetsApi
{
    public static void MapWorksheets(this IEndpointRouteBuilder app)
    {
        var worksheets = app.MapGroup("/api/worksheets").WithTags("Worksheets");
        worksheets.MapPost("/", Make).WithSummary("Make a worksheet from a technique and a cloth, and keep it.").Accepts<JsonObject>("application/json");
        worksheets.MapGet("/", List).WithSummary("All worksheets, newest first.");
        worksheets.MapGet("/{id:guid}", Read).WithSummary("A worksheet as it was made.");
        app.MapGet("/worksheets/{id:guid}.pdf", Print).WithTags("Worksheets").WithSummary("Its print, at true size.");
    }

    private static async Task<IResult> Make(HttpContext http, Archive archive, IDocumentStore store, TimeProvider clock, CancellationToken ct)
    {
        var request = await Body.ReadObject(http.Request, ct);
        JsonObject? state = null;
        if (WorksheetMaker.GarmentOf(request) is { } id)
        {
            var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
            state = garment.State();
        }

        var worksheet = WorksheetMaker.Make(request, state, clock.GetUtcNow());
        await using var session = store.LightweightSession();
        session.Insert(worksheet);
        await session.SaveChangesAsync(ct);
        http.Response.Headers.Location = $"/api/worksheets/{worksheet.Id}";
        return Api.Json(worksheet.ToJson(), StatusCodes.Status201Created);
    }

    private static async Task<IResult> List(HttpRequest request, IDocumentStore store, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        await using var session = store.QuerySession();
        var total = await session.Query<Worksheet>().CountAsync(ct);

        // The ids are version 7: they rise with the time they were made.
        var page = await session.Query<Worksheet>().OrderByDescending(w => w.Id)
            .Skip((paging.Page - 1) * paging.Size).Take(paging.Size)
            .Select(w => new WorksheetEntry(w.Id, w.Title, w.Made, w.Garment)).ToListAsync(ct);
        return Api.Json(new JsonObject
        {
            ["total"] = total,
            ["items"] = new JsonArray([.. page.Select(w => new JsonObject
            {
                ["id"] = w.Id,
                ["title"] = w.Title,
                ["made"] = w.Made,
                ["garment"] = w.Garment,
            })]),
        });
    }

    private static async Task<IResult> Read(Guid id, IDocumentStore store, CancellationToken ct) =>
        Api.Json((await Find(id, store, ct)).ToJson());

    private static async Task<IResult> Print(Guid id, HttpContext http, IDocumentStore store, CancellationToken ct)
    {
        if (http.Request.Query.ContainsKey("printer"))
        {
            throw new FaultException("printer", "A printer's own scale is not served yet; print at 100 % and check the control marks.");
        }

        var worksheet = await Find(id, store, ct);
        http.Response.Headers.ContentDisposition = $"inline; filename=\"worksheet-{id}.pdf\"";
        return Results.Bytes(WorksheetPdf.Render(worksheet), "application/pdf");
    }

    private static async Task<Worksheet> Find(Guid id, IDocumentStore store, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Worksheet>(id, ct) ?? throw new NotFoundException($"No worksheet has the id {id}.");
    }

    private sealed record WorksheetEntry(Guid Id, string Title, DateTimeOffset Made, Guid? Garment);
}
