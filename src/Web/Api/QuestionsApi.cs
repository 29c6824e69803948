using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Questions;

namespace HeirloomArchive.Web.Api;

/// <summary>Questions kept under a name, each with what is new to it.</summary>
public static class QuestionsApi
{
    public static void MapQuestions(this IEndpointRouteBuilder app)
    {
        var questions = app.MapGroup("/api/questions").WithTags("Finding");
        questions.MapGet("/", List).WithSummary("The questions kept, each with how many pieces fit now and how many of them are new.");
        questions.MapPost("/", Keep).WithSummary("Keep a search under a name: {\"name\",\"search\"}, search as in the address of GET /api/search.").Accepts<JsonObject>("application/json");
        questions.MapDelete("/{id:guid}", Forget).WithSummary("Forget a question.");
        questions.MapPost("/{id:guid}/seen", Seen).WithSummary("What fits now is seen.");
    }

    private static async Task<IResult> List(QuestionBook book, QuestionSearch search, CancellationToken ct)
    {
        var questions = await book.All(ct);
        return Api.Json(new JsonObject { ["total"] = questions.Count, ["items"] = new JsonArray([.. questions.Select(q => Written(q, search))]) });
    }

    private static async Task<IResult> Keep(HttpContext http, QuestionBook book, QuestionSearch search, CancellationToken ct)
    {
        var kept = await book.Keep(await Body.ReadObject(http.Request, ct), search.Find, ct);
        http.Response.Headers.Location = "/api/questions";
        return Api.Json(Written(kept, search), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Forget(Guid id, QuestionBook book, CancellationToken ct)
    {
        await book.Forget(id, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> Seen(Guid id, QuestionBook book, QuestionSearch search, CancellationToken ct) =>
        Api.Json(Written(await book.Look(id, search.Find, ct), search));

    private static JsonObject Written(Question question, QuestionSearch search)
    {
        var (total, fresh) = search.New(question);
        return new()
        {
            ["id"] = question.Id, ["name"] = question.Name, ["search"] = question.Search, ["made"] = question.Made, ["seen"] = question.Seen,
            ["total"] = total, ["new"] = fresh.Count,
        };
    }
}
