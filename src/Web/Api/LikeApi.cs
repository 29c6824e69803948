using System.Globalization;
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
        return Api.Json(index.LikeGarment(id, await State(id, archive, ct), Size(request)));
    }

    private static async Task<IResult> Technique(Guid id, Guid tid, HttpRequest request, Archive archive, GarmentIndex index, CancellationToken ct)
    {
        Known(request, "size", "proportions");
        var anySize = Asked.YesOrNo(request, "proportions") ?? false;
        var state = await State(id, archive, ct);
        var technique = (state["techniques"] as JsonArray ?? []).OfType<JsonObject>().FirstOrDefault(t => t["id"]?.ToString() == tid.ToString())
            ?? throw new NotFoundException($"The garment has no technique with the id {tid}.");
        return Api.Json(index.LikeTechnique(id, technique, anySize, Size(request)));
    }

    private static async Task<JsonObject> State(Guid id, Archive archive, CancellationToken ct) =>
        (await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.")).State();

    private static int Size(HttpRequest request) => request.Query["size"].ToString() switch
    {
        "" => Usual,
        var text when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var size) && size is >= 1 and <= Most => size,
        var text => throw new FaultException("size", $"\"{text.Short()}\" is not a whole number from 1 to {Most}.", FaultKind.Unreadable),
    };

    private static void Known(HttpRequest request, params string[] names)
    {
        if (request.Query.Keys.FirstOrDefault(k => !names.Contains(k)) is { } unknown)
        {
            throw new FaultException(unknown, $"\"{unknown.Short()}\" is not a parameter here. It knows {string.Join(", ", names)}.", FaultKind.Unreadable);
        }
    }
}
