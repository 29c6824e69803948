using System.Security.Cryptography;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Api;

/// <summary>The words, to read as SKOS, and hers to make, change, merge and set apart.</summary>
public static class WordsApi
{
    private const string JsonLd = "application/ld+json";

    private static volatile Kept? whole;

    public static void MapWords(this IEndpointRouteBuilder app)
    {
        var words = app.MapGroup("/api/words").WithTags("Words");
        words.MapGet("/", Whole).WithSummary("All words as SKOS in one graph (JSON-LD).");
        words.MapGet("/{facet}", Facet).WithSummary("The words of one facet.");
        words.MapGet("/{facet}/{slug}", One).WithSummary("One word.");
        words.MapPost("/{facet}", Add).WithSummary("Make a word of one's own.").Accepts<JsonObject>("application/json");
        words.MapPut("/{facet}/{slug}", Change).WithSummary("Say anew what a word of one's own is.").Accepts<JsonObject>("application/json");
        words.MapDelete("/{facet}/{slug}", Remove).WithSummary("Take away a word of one's own that nothing uses.");
        words.MapPost("/{facet}/{slug}/merge", Merge).WithSummary("Let a word of one's own count as another.").Accepts<JsonObject>("application/json");
        words.MapPost("/{facet}/{slug}/unmerge", Unmerge).WithSummary("Set a merged word apart again.");
    }

    private static IResult Whole(HttpContext http)
    {
        var (words, last) = (Words.Now, whole);
        if (last?.Of != words)
        {
            whole = last = new(words, Bytes(Skos.Whole(words)));
        }

        return Answer(http, last.Bytes);
    }

    private static IResult Facet(string facet, HttpContext http)
    {
        var words = Words.Now;
        return words.FacetNames.Contains(facet)
            ? Answer(http, Bytes(Skos.Facet(words, facet)))
            : throw new NotFoundException($"There is no such facet; the facets are {string.Join(", ", words.FacetNames)}.");
    }

    private static IResult One(string facet, string slug, HttpContext http)
    {
        var words = Words.Now;
        return Answer(http, Bytes(Skos.One(words, words.Find(facet, slug) ?? throw new NotFoundException($"There is no such word. {Near(facet, slug)}"))));
    }

    private static async Task<IResult> Add(string facet, HttpContext http, OwnWords own, CancellationToken ct)
    {
        var word = await own.Add(facet, await Body.ReadObject(http.Request, ct), Versions.Who, ct);
        http.Response.Headers.Location = $"/api/words/{word.Id}";
        return Api.Json(Skos.One(Words.Now, word), StatusCodes.Status201Created);
    }

    private static async Task<IResult> Change(string facet, string slug, HttpRequest request, OwnWords own, CancellationToken ct) =>
        Api.Json(Skos.One(Words.Now, await own.Change(facet, slug, await Body.ReadObject(request, ct), Versions.Who, ct)));

    private static async Task<IResult> Remove(string facet, string slug, OwnWords own, CancellationToken ct)
    {
        await own.Remove(facet, slug, ct);
        return Results.NoContent();
    }

    private static async Task<IResult> Merge(string facet, string slug, HttpRequest request, OwnWords own, CancellationToken ct)
    {
        var sent = await Body.ReadObject(request, ct);
        if (sent.Select(m => m.Key).FirstOrDefault(k => k != "into") is { } unknown)
        {
            throw new FaultException(unknown.Short(60), "Only \"into\" is sent here: the slug of the word that it shall count as.", FaultKind.Unreadable);
        }

        return sent["into"] is JsonValue into && into.TryGetValue<string>(out var target)
            ? Api.Json(Skos.One(Words.Now, await own.Merge(facet, slug, target, Versions.Who, ct)))
            : throw new FaultException("into", "Send the slug of the word that it shall count as: {\"into\":\"torchon\"}.", FaultKind.Unreadable);
    }

    private static async Task<IResult> Unmerge(string facet, string slug, OwnWords own, CancellationToken ct) =>
        Api.Json(Skos.One(Words.Now, await own.Unmerge(facet, slug, Versions.Who, ct)));

    private static string Near(string facet, string slug) => Words.Nearest(facet, slug) is { Count: > 0 } near
        ? $"Nearest: {string.Join(", ", near)}."
        : "All words are at /api/words.";

    private static byte[] Bytes(JsonObject json) => System.Text.Encoding.UTF8.GetBytes(json.ToJsonString(Api.Writing));

    // Kept by the client and asked for again by its tag: words change seldom, but are to be right.
    private static IResult Answer(HttpContext http, byte[] bytes)
    {
        http.Response.Headers.CacheControl = "no-cache";
        http.Response.Headers.Vary = HeaderNames.Accept;
        var asksForLd = http.Request.GetTypedHeaders().Accept.Any(a => a.MediaType == JsonLd);
        var tag = new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))[..32]}{(asksForLd ? "-ld" : "")}\"");
        return Results.Bytes(bytes, asksForLd ? JsonLd : "application/json; charset=utf-8", entityTag: tag);
    }

    private sealed record Kept(Thesaurus Of, byte[] Bytes);
}
