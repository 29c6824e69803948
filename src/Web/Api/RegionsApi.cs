using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Iiif;

namespace HeirloomArchive.Web.Api;

/// <summary>Regions of pictures as W3C Web Annotations.</summary>
public static class RegionsApi
{
    private const int LargestAnnotation = 256 * 1024;

    private static readonly (string Name, ShownKind Kind)[] Filters =
        [("technique", ShownKind.Technique), ("condition", ShownKind.Condition), ("repair", ShownKind.Repair), ("word", ShownKind.Word)];

    public static void MapRegions(this IEndpointRouteBuilder app)
    {
        var regions = app.MapGroup("/api/pictures/{pid:guid}/regions").WithTags("Regions");
        regions.MapGet("/", List).WithSummary("What is marked on a picture, as a page of annotations; ?gone=true: what was taken away.");
        regions.MapPost("/", Add).WithSummary("Mark a place: a Web Annotation.").Accepts<JsonObject>(Types[0], Types[1..]);
        regions.MapGet("/{rid:guid}", Read).WithSummary("One region.");
        regions.MapPut("/{rid:guid}", Put).WithSummary("Say anew what a region is; one taken away stands again.").Accepts<JsonObject>(Types[0], Types[1..]);
        regions.MapDelete("/{rid:guid}", Remove).WithSummary("Take a region away; what it said is kept.");
        app.MapGet("/api/garments/{id:guid}/regions", OfGarment).WithTags("Regions")
            .WithSummary("What is marked on all pictures of a piece; ?technique=, ?condition=, ?repair= (ids) or ?word= (facet/slug): those that show it.");
    }

    private static string[] Types => ["application/ld+json", "application/json"];

    private static async Task<IResult> List(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        var gone = Asked.YesOrNo(http.Request, "gone") ?? false;
        await keeping.Frame(pid, ct);
        return Page(http, await keeping.OfPicture(pid, gone, ct));
    }

    private static async Task<IResult> OfGarment(Guid id, HttpContext http, Archive archive, RegionKeeping keeping, CancellationToken ct)
    {
        var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
        return Page(http, await keeping.OfGarment(garment, Key(http.Request), ct));
    }

    private static async Task<IResult> Add(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        var region = await keeping.Add(pid, await Body.ReadObject(http.Request, ct, LargestAnnotation), Versions.Who, ct);
        http.Response.Headers.Location = $"/api/pictures/{pid}/regions/{region.Id}";
        return One(http, region, StatusCodes.Status201Created);
    }

    private static async Task<IResult> Read(Guid pid, Guid rid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        await keeping.Frame(pid, ct);
        var region = await keeping.Find(pid, rid, ct);
        return region.Gone is null ? One(http, region) : throw new NotFoundException($"The region {rid} was taken away; it is among GET /api/pictures/{pid}/regions?gone=true.");
    }

    private static async Task<IResult> Put(Guid pid, Guid rid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        return One(http, await keeping.Put(pid, rid, seen, await Body.ReadObject(http.Request, ct, LargestAnnotation), Versions.Who, ct));
    }

    private static async Task<IResult> Remove(Guid pid, Guid rid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        Versions.Tag(http.Response, (await keeping.Remove(pid, rid, Versions.Seen(http.Request), ct)).Version);
        return Results.NoContent();
    }

    private static IResult One(HttpContext http, Region region, int status = StatusCodes.Status200OK)
    {
        Versions.Tag(http.Response, region.Version);
        return IiifAnswers.Linked(http, AnnotationWriter.Write(region, IiifAnswers.Site(http.Request)), Vocabulary.Context, status);
    }

    private static IResult Page(HttpContext http, IReadOnlyList<Region> regions)
    {
        var site = IiifAnswers.Site(http.Request);
        return IiifAnswers.Linked(http, AnnotationWriter.Page(regions, $"{site}{http.Request.Path}{http.Request.QueryString}", site), Vocabulary.Context);
    }

    private static string? Key(HttpRequest request)
    {
        var asked = Filters.Where(f => request.Query[f.Name].Count > 0).ToList();
        var other = request.Query.Keys.FirstOrDefault(k => Filters.All(f => f.Name != k));
        if (other is not null || asked.Count > 1 || (asked.Count == 1 && request.Query[asked[0].Name].Count > 1))
        {
            throw new FaultException(other ?? asked[0].Name, $"One of {string.Join(", ", Filters.Select(f => f.Name))} can be asked for, once.", FaultKind.Unreadable);
        }

        if (asked.Count == 0)
        {
            return null;
        }

        var (name, kind) = asked[0];
        var value = request.Query[name].ToString();
        return kind == ShownKind.Word || Guid.TryParse(value, out _)
            ? ShownThing.KeyOf(kind, value.ToLowerInvariant())
            : throw new FaultException(name, $"\"{value.Short()}\" is no id.", FaultKind.Unreadable);
    }
}
