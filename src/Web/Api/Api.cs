using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Web.Iiif;

namespace HeirloomArchive.Web.Api;

/// <summary>The JSON API: its routes, and what all of them share.</summary>
public static class Api
{
    /// <summary>The most a JSON body may weigh, in bytes; a whole garment with its 2 000 entries is well below.</summary>
    public const int LargestBody = 4 * 1024 * 1024;

    internal static readonly JsonSerializerOptions Writing = new(JsonSerializerDefaults.Web)
    {
        // The answers are JSON and say so; "≈ 3/8 in" and "1½" stay readable.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>What the routes need: problem details for every refusal, and the OpenAPI page.</summary>
    public static IServiceCollection AddApi(this IServiceCollection services) => services
        .AddProblemDetails(problems => problems.CustomizeProblemDetails = Explain)
        .AddExceptionHandler<Refusals>()
        .AddSingleton<MadeUpKeeping>()
        .AddSingleton<QuestionSearch>()
        .AddSingleton(LessonsApi.AsksForWorksheets)
        .AddOpenApi();

    /// <summary>All routes under <c>/api</c>, and the description of them.</summary>
    public static void MapApi(this WebApplication app)
    {
        app.MapGarments();
        app.MapEntries();
        app.MapHistory();
        app.MapMany();
        app.MapPictures();
        app.MapResumable();
        app.MapRegions();
        app.MapIiif();
        app.MapSearch();
        app.MapLike();
        app.MapPlans();
        app.MapWords();
        app.MapDrafts();
        app.MapWorksheets();
        app.MapWorksheetPrints();
        app.MapMadeUp();
        app.MapLessons();
        app.MapLessonPrints();
        app.MapQuestions();
        app.MapOpenApi();
    }

    /// <summary>An answer in JSON, as every route here gives it.</summary>
    public static IResult Json(JsonNode node, int status = StatusCodes.Status200OK) =>
        Results.Json(node, Writing, statusCode: status);

    // A status that no handler of ours explained gets a sentence too.
    private static void Explain(ProblemDetailsContext context)
    {
        var request = context.HttpContext.Request;
        context.ProblemDetails.Detail ??= context.ProblemDetails.Status switch
        {
            StatusCodes.Status404NotFound => $"There is nothing at {Shown(request)}. An id is 32 hexadecimal digits in five groups, as in the answer that made it.",
            StatusCodes.Status405MethodNotAllowed => $"{request.Method} is not for {Shown(request)}; the header Allow says what is.",
            StatusCodes.Status415UnsupportedMediaType => $"\"{request.ContentType}\" is not a kind of content that {Shown(request)} reads; JSON is sent as application/json, files as multipart/form-data.",
            _ => null,
        };
    }

    private static string Shown(HttpRequest request) => request.Path.ToString().Short(200);
}
