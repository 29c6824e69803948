using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>Lessons: made, read, put whole, taken away and brought back; entries added from anywhere.</summary>
public static class LessonsApi
{
    /// <summary>What the lessons ask of another room: whether a worksheet is there.</summary>
    public static WorksheetIsThere AsksForWorksheets(IServiceProvider services) => async (id, ct) =>
    {
        await using var session = services.GetRequiredService<IDocumentStore>().QuerySession();
        return await session.Query<Worksheet>().AnyAsync(w => w.Id == id, ct);
    };

    public static void MapLessons(this IEndpointRouteBuilder app)
    {
        var lessons = app.MapGroup("/api/lessons").WithTags("Lessons");
        lessons.MapGet("/", List).WithSummary("All lessons, newest first; away: true for those taken away.");
        lessons.MapPost("/", Make).WithSummary("Make a lesson.").Accepts<JsonObject>("application/json");
        lessons.MapGet("/{id:guid}", Read).WithSummary("A lesson with its entries in their order.");
        lessons.MapPut("/{id:guid}", Put).WithSummary("Put a lesson as sent, its order included.").Accepts<JsonObject>("application/json");
        lessons.MapDelete("/{id:guid}", TakeAway).WithSummary("Take a lesson away; it can be brought back.");
        lessons.MapPost("/{id:guid}/bring-back", BringBack).WithSummary("Bring a lesson back that was taken away.");
        lessons.MapGet("/{id:guid}/versions", Earlier).WithSummary("What the lesson was at each version, newest first.");
        lessons.MapPost("/{id:guid}/entries", Add).WithSummary("Add an entry at the end; no If-Match.").Accepts<JsonObject>("application/json");
        lessons.MapGet("/{id:guid}/entries/{entry:guid}", ReadEntry).WithSummary("One entry of a lesson.");
    }

    private static async Task<IResult> List(HttpRequest request, LessonBook lessons, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        var away = Asked.YesOrNo(request, "away") ?? false;
        var (total, items) = await lessons.Page(paging.Page, paging.Size, away && Viewer.Now.Sight.Teaching, ct);
        return Api.Json(new JsonObject { ["total"] = total, ["items"] = new JsonArray([.. items.Select(l => l.State())]) });
    }

    private static async Task<IResult> Make(HttpContext http, LessonBook lessons, CancellationToken ct)
    {
        var lesson = await lessons.Make(await Body.ReadObject(http.Request, ct), Versions.Who, ct);
        http.Response.Headers.Location = $"/api/lessons/{lesson.Id}";
        return Answer(http.Response, lesson, StatusCodes.Status201Created);
    }

    private static async Task<IResult> Read(Guid id, HttpResponse response, LessonBook lessons, CancellationToken ct) =>
        Answer(response, await Find(id, lessons, ct));

    private static async Task<IResult> Put(Guid id, HttpContext http, LessonBook lessons, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        return Answer(http.Response, await lessons.Put(id, seen, await Body.ReadObject(http.Request, ct), Versions.Who, ct));
    }

    private static async Task<IResult> TakeAway(Guid id, HttpRequest request, LessonBook lessons, CancellationToken ct)
    {
        await lessons.TakeAway(id, Versions.Seen(request), Versions.Who, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> BringBack(Guid id, HttpResponse response, LessonBook lessons, CancellationToken ct) =>
        Answer(response, await lessons.BringBack(id, Versions.Who, ct));

    private static async Task<IResult> Earlier(Guid id, HttpRequest request, LessonBook lessons, CancellationToken ct)
    {
        var paging = Paging.Read(request);
        var versions = await lessons.Versions(id, ct);
        if (versions.Count == 0)
        {
            throw new NotFoundException($"No lesson has the id {id}.");
        }

        return Api.Json(new JsonObject
        {
            ["total"] = versions.Count,
            ["items"] = new JsonArray([.. versions.Skip((paging.Page - 1) * paging.Size).Take(paging.Size).Select(v => new JsonObject
            {
                ["version"] = v.Version, ["when"] = v.When, ["who"] = v.Who, ["what"] = v.What, ["lesson"] = LessonShape.Seen(v.Fields),
            })]),
        });
    }

    private static async Task<IResult> Add(Guid id, HttpContext http, LessonBook lessons, CancellationToken ct)
    {
        var lesson = await lessons.Add(id, [await Body.ReadObject(http.Request, ct)], Versions.Who, ct);
        var entry = lesson.State()["entries"]!.AsArray()[^1]!;
        Versions.Tag(http.Response, lesson.Version);
        http.Response.Headers.Location = $"/api/lessons/{id}/entries/{entry["id"]}";
        return Api.Json(entry.DeepClone(), StatusCodes.Status201Created);
    }

    private static async Task<IResult> ReadEntry(Guid id, Guid entry, HttpResponse response, LessonBook lessons, CancellationToken ct)
    {
        var lesson = await Find(id, lessons, ct);
        var found = lesson.State()["entries"]!.AsArray().FirstOrDefault(e => e!["id"]!.ToString() == entry.ToString())
            ?? throw new NotFoundException($"The lesson has no entry with the id {entry}.");
        Versions.Tag(response, lesson.Version);
        return Api.Json(found.DeepClone());
    }

    private static async Task<Lesson> Find(Guid id, LessonBook lessons, CancellationToken ct) =>
        await lessons.Find(id, ct) ?? throw new NotFoundException($"No lesson has the id {id}.");

    private static IResult Answer(HttpResponse response, Lesson lesson, int status = StatusCodes.Status200OK)
    {
        Versions.Tag(response, lesson.Version);
        return Api.Json(lesson.State(), status);
    }
}
