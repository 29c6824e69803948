using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
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
        worksheets.MapGet("/{id:guid}/ticks", ReadTicks).WithSummary("The steps ticked off.");
        worksheets.MapPut("/{id:guid}/ticks", PutTicks).WithSummary("Tick steps off; the whole list each time.").Accepts<JsonObject>("application/json");
        worksheets.MapPatch("/{id:guid}/ticks", ChangeTicks).WithSummary("Tick some steps off, or say that they are not done after all; the others stay.").Accepts<JsonObject>("application/json");
        worksheets.MapPost("/{id:guid}/corrected", Correct).WithSummary("Make it again with a test strip reckoned in.").Accepts<JsonObject>("application/json");
        app.MapGet("/api/printers", ListPrinters).WithTags("Worksheets").WithSummary("Printers whose control mark was measured.");
        app.MapPost("/api/printers", AddPrinter).WithTags("Worksheets").WithSummary("Keep what a printer's 50 mm mark measured.").Accepts<JsonObject>("application/json");
    }

    private static async Task<IResult> Make(HttpContext http, Archive archive, IDocumentStore store, TimeProvider clock, CancellationToken ct)
    {
        var request = await Body.ReadObject(http.Request, ct);
        var worksheet = WorksheetMaker.Make(request, await State(request, archive, ct), clock.GetUtcNow());
        return await Keep(worksheet, http, store, ct);
    }

    private static async Task<IResult> Correct(Guid id, HttpContext http, Archive archive, IDocumentStore store, TimeProvider clock, CancellationToken ct)
    {
        var body = await Body.ReadObject(http.Request, ct);
        var worksheet = await Find(id, store, ct);
        var corrected = Correction.Make(worksheet, body, await State(worksheet.Request, archive, ct), clock.GetUtcNow());
        return await Keep(corrected, http, store, ct);
    }

    private static async Task<JsonObject?> State(JsonObject request, Archive archive, CancellationToken ct) =>
        WorksheetMaker.GarmentOf(request) is { } id
            ? (await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.")).State()
            : null;

    private static async Task<IResult> Keep(Worksheet worksheet, HttpContext http, IDocumentStore store, CancellationToken ct)
    {
        await store.Keep(worksheet, ct);
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

    private static async Task<IResult> ReadTicks(Guid id, IDocumentStore store, CancellationToken ct)
    {
        await Find(id, store, ct);
        await using var session = store.QuerySession();
        return Api.Json((await session.LoadAsync<Ticks>(id, ct) ?? new Ticks { Id = id }).ToJson());
    }

    private static async Task<IResult> PutTicks(Guid id, HttpRequest request, IDocumentStore store, CancellationToken ct)
    {
        var ticks = Ticks.Read(await Body.ReadObject(request, ct), await Find(id, store, ct));
        return Api.Json((await store.Tick(id, _ => ticks, ct)).ToJson());
    }

    private static async Task<IResult> ChangeTicks(Guid id, HttpRequest request, IDocumentStore store, CancellationToken ct)
    {
        var change = TickChange.Read(await Body.ReadObject(request, ct), await Find(id, store, ct));
        return Api.Json((await store.Tick(id, now => now.With(change), ct)).ToJson());
    }

    private static async Task<IResult> ListPrinters(IDocumentStore store, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        var printers = await session.Query<Printer>().OrderBy(p => p.Name).ThenBy(p => p.Id).ToListAsync(ct);
        return Api.Json(new JsonObject { ["total"] = printers.Count, ["items"] = new JsonArray([.. printers.Select(p => p.ToJson())]) });
    }

    private static async Task<IResult> AddPrinter(HttpContext http, IDocumentStore store, CancellationToken ct)
    {
        var printer = Printer.Read(await Body.ReadObject(http.Request, ct));
        await using var session = store.LightweightSession();
        session.Insert(printer);
        await session.SaveChangesAsync(ct);
        http.Response.Headers.Location = "/api/printers";
        return Api.Json(printer.ToJson(), StatusCodes.Status201Created);
    }

    /// <summary>A stored worksheet.</summary>
    /// <exception cref="NotFoundException">There is none.</exception>
    internal static async Task<Worksheet> Find(Guid id, IDocumentStore store, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Worksheet>(id, ct) ?? throw new NotFoundException($"No worksheet has the id {id}.");
    }

    private sealed record WorksheetEntry(Guid Id, string Title, DateTimeOffset Made, Guid? Garment);
}
