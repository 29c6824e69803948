using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Api;

/// <summary>The JSON API: its routes, and what all of them share.</summary>
public static class Api
{
    /// <summary>The most a JSON body may weigh, in bytes; a whole garment with its 2 000 entries is well below.</summary>
    public const int LargestBody = 4 * 1024 * 1024;

    private static readonly JsonSerializerOptions Writing = new(JsonSerializerDefaults.Web)
    {
        // The answers are JSON and say so; "≈ 3/8 in" and "1½" stay readable.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>What the routes need: problem details for every refusal, and the OpenAPI page.</summary>
    public static IServiceCollection AddApi(this IServiceCollection services) => services
        .AddProblemDetails()
        .AddExceptionHandler<Refusals>()
        .AddOpenApi();

    /// <summary>All routes under <c>/api</c>, and the description of them.</summary>
    public static void MapApi(this WebApplication app)
    {
        app.MapGarments();
        app.MapEntries();
        app.MapHistory();
        app.MapPictures();
        app.MapSearch();
        app.MapPlans();
        app.MapWorksheets();
        app.MapOpenApi();
        app.Map("/api/{**rest}", NothingHere).ExcludeFromDescription();
    }

    /// <summary>An answer in JSON, as every route here gives it.</summary>
    public static IResult Json(JsonNode node, int status = StatusCodes.Status200OK) =>
        Results.Json(node, Writing, statusCode: status);

    private static IResult NothingHere(HttpRequest request) => Results.Problem(
        statusCode: StatusCodes.Status404NotFound,
        title: "There is nothing here.",
        detail: $"No route {request.Method} {request.Path}. An id is 32 hexadecimal digits in five groups, as in the answer that made it.");
}
