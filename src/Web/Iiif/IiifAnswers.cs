using System.Text.Json.Nodes;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Iiif;

/// <summary>What answers of linked data share.</summary>
internal static class IiifAnswers
{
    /// <summary>Where the archive is for whoever asks, as <c>http://127.0.0.1:5080</c>.</summary>
    public static string Site(HttpRequest request) => $"{request.Scheme}://{request.Host}{request.PathBase}";

    /// <summary>A document as JSON-LD, or as plain JSON for those who ask for that alone.</summary>
    /// <param name="http">Who asks.</param>
    /// <param name="document">The answer.</param>
    /// <param name="profile">Its context.</param>
    /// <param name="status">Its status.</param>
    public static IResult Linked(HttpContext http, JsonNode document, string profile, int status = StatusCodes.Status200OK)
    {
        http.Response.Headers.Append(HeaderNames.Vary, HeaderNames.Accept);
        return Results.Json(document, Api.Api.Writing, WantsPlain(http.Request) ? "application/json" : $"application/ld+json; profile=\"{profile}\"", status);
    }

    /// <summary>
    /// Lets pages of the archive's own other names (localhost, 127.0.0.1) read it. Pages of other sites never come as far as
    /// here, and none is invited while nobody signs in: see docs/iiif.md.
    /// </summary>
    public static void Cors(HttpContext http)
    {
        http.Response.Headers.Append(HeaderNames.Vary, HeaderNames.Origin);
        if (http.Request.Headers.Origin is { Count: 1 } origin)
        {
            http.Response.Headers.AccessControlAllowOrigin = origin;
            http.Response.Headers.AccessControlExposeHeaders = "Link, ETag";
        }
    }

    private static bool WantsPlain(HttpRequest request)
    {
        var accepted = request.GetTypedHeaders().Accept;
        return accepted.Any(a => a.MediaType == "application/json") && !accepted.Any(a => a.MediaType == "application/ld+json");
    }
}
