using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>What is like a piece, and what is made like one of its techniques.</summary>
public static class LikeApi
{
    private const int Usual = 20;
    private const int Most = 100;

    public static void MapLike(this IEndpointRouteBuilder app)
    {
        app.MapGet("/api/garments/{id:guid}/like", Garment).WithTags("Finding").WithSummary("Pieces like this one.");
        app.MapGet("/api/garments/{id:guid}/techniques/{tid:guid}/like", Technique).WithTags("Finding")
            .WithSummary("Techniques made like this one; with proportions=true only those of another size.");
    }

    private static async Task<IResult> Garment(Guid id, HttpRequest request, Archive archive, GarmentIndex index, CancellationToken ct)
    {
        Known(request, "size");
        var state = (await archive.Find(id, ct))?.State();
        return state is null ? Results.NotFound() : Api.Json(index.LikeGarment(id, state, Size(request)));
    }

    private static async Task<IResult> Technique(Guid id, Guid tid, HttpRequest request, Archive archive, GarmentIndex index, CancellationToken ct)
    {
        Known(request, "size", "proportions");
        var anySize = request.Query["proportions"].ToString() switch
        {
            "" or "false" => false,
            "true" => true,
            var other => throw new FaultException("proportions", $"\"{Short(other)}\" is neither true nor false.", FaultKind.Unreadable),
        };
        var technique = ((await archive.Find(id, ct))?.State()["techniques"] as JsonArray ?? []).OfType<JsonObject>().FirstOrDefault(t => t["id"]?.ToString() == tid.ToString());
        return technique is null ? Results.NotFound() : Api.Json(index.LikeTechnique(id, technique, anySize, Size(request)));
    }

    private static int Size(HttpRequest request) => request.Query["size"].ToString() switch
    {
        "" => Usual,
        var text when int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var size) && size is >= 1 and <= Most => size,
        var text => throw new FaultException("size", $"\"{Short(text)}\" is not a whole number from 1 to {Most}.", FaultKind.Unreadable),
    };

    private static void Known(HttpRequest request, params string[] names)
    {
        if (request.Query.Keys.FirstOrDefault(k => !names.Contains(k)) is { } unknown)
        {
            throw new FaultException(unknown, $"\"{Short(unknown)}\" is not a parameter here. It knows {string.Join(", ", names)}.", FaultKind.Unreadable);
        }
    }

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";
}
