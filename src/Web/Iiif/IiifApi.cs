using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The routes under <c>/iiif</c>.</summary>
public static class IiifApi
{
    public static void MapIiif(this IEndpointRouteBuilder app)
    {
        app.MapImages();
        app.MapGet("/iiif/garments/{id:guid}/manifest", Manifest).WithTags("IIIF").WithSummary("A piece with its pictures and what is marked on them: Presentation API 3.0.");
        app.MapGet("/iiif/lessons/{id:guid}/manifest", LessonManifest.Answer).WithTags("IIIF").WithSummary("A lesson's pictures in its order: Presentation API 3.0.");
    }

    private static async Task<IResult> Manifest(Guid id, HttpContext http, Archive archive, RegionKeeping keeping, CancellationToken ct)
    {
        IiifAnswers.Cors(http);
        var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
        var site = IiifAnswers.Site(http.Request);
        var view = GarmentManifest.Of(garment, await keeping.OfGarment(garment, ct: ct), site)
            ?? throw new NotFoundException("The piece has no pictures yet, and a manifest has at least one.");
        return IiifAnswers.Linked(http, new Presentation(site).Manifest(view), Presentation.Context);
    }
}
