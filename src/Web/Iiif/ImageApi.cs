using System.Globalization;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The IIIF Image API 3.0 over the pictures of garments.</summary>
public static class ImageApi
{
    /// <summary>The most pixels of either side of an image that is answered.</summary>
    public const int MostPixels = 4096;

    private const string Profile = $"<http://iiif.io/api/image/3/{ImageInfo.Level}.json>;rel=\"profile\"";

    internal static void MapImages(this IEndpointRouteBuilder app)
    {
        var image = app.MapGroup("/iiif/image/{pid:guid}").WithTags("IIIF");
        image.MapGet("/", ToInfo).WithSummary("Leads to the information document.");
        image.MapGet("/info.json", Info).WithSummary("What can be asked of a picture: Image API 3.0, level 2.");
    }

    private static async Task<IResult> ToInfo(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        await Frame(pid, http, keeping, ct);
        http.Response.Headers.Location = $"{Base(http, pid)}/info.json";
        return Results.StatusCode(StatusCodes.Status303SeeOther);
    }

    private static async Task<IResult> Info(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        var frame = await Frame(pid, http, keeping, ct);
        http.Response.Headers.Append("Link", Profile);
        http.Response.Headers.CacheControl = "private, max-age=3600";
        return IiifAnswers.Linked(http, ImageInfo.Write(Base(http, pid), Of(frame)), ImageInfo.Context);
    }

    private static async Task<RegionFrame> Frame(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        IiifAnswers.Cors(http);
        return await keeping.Frame(pid, ct);
    }

    private static ImageFrame Of(RegionFrame frame) => new(frame.Width, frame.Height, MostPixels);

    private static string Base(HttpContext http, Guid pid) => string.Create(CultureInfo.InvariantCulture, $"{IiifAnswers.Site(http.Request)}/iiif/image/{pid}");
}
