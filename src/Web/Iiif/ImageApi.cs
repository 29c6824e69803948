using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Pictures.Regions;
using Microsoft.Net.Http.Headers;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The IIIF Image API 3.0 over the pictures of garments.</summary>
public static class ImageApi
{
    /// <summary>The most pixels of either side of an image that is answered: its square is what <see cref="Tiles.LargestOut"/> allows.</summary>
    public const int MostPixels = 4000;

    private const string Profile = $"<http://iiif.io/api/image/3/{ImageInfo.Level}.json>;rel=\"profile\"";

    private static readonly string[] Reading = ["GET", "HEAD"];

    internal static void MapImages(this IEndpointRouteBuilder app)
    {
        var image = app.MapGroup("/iiif/image/{pid:guid}").WithTags("IIIF");
        image.MapMethods("/", Reading, ToInfo).WithSummary("Leads to the information document.");
        image.MapMethods("/info.json", Reading, Info).WithSummary("What can be asked of a picture: Image API 3.0, level 2.");
        image.MapMethods("/{region}/{size}/{rotation}/{last}", Reading, Image).WithSummary("A part of a picture, cut out, scaled and turned: Image API 3.0, section 4; last is quality.format.");
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
        http.Response.Headers.Append(HeaderNames.Link, Profile);
        http.Response.Headers.CacheControl = "private, max-age=3600";
        return IiifAnswers.Linked(http, ImageInfo.Write(Base(http, pid), Of(frame)), ImageInfo.Context);
    }

    private static async Task<IResult> Image(
        Guid pid, string region, string size, string rotation, string last, HttpContext http, RegionKeeping keeping, Tiles tiles, CancellationToken ct)
    {
        var frame = await Frame(pid, http, keeping, ct);
        ImageView view;
        try
        {
            view = ImageRequest.Read(region, size, rotation, last, Of(frame));
        }
        catch (ImageRequestException e)
        {
            return Results.Problem(statusCode: StatusCodes.Status400BadRequest, title: "Such an image there is not.", detail: e.Message);
        }

        var (sha256, canonical) = (frame.Entry["sha256"]!.GetValue<string>(), view.Canonical(Of(frame)));
        var image = await tiles.Open(sha256, Ordered(view), ct) ?? throw new NotFoundException($"The file of the picture {pid} is not in the folder of pictures.");
        var headers = http.Response.Headers;
        headers.Append(HeaderNames.Link, $"<{Base(http, pid)}/{canonical}>;rel=\"canonical\"");
        headers.Append(HeaderNames.Link, Profile);
        // The bytes never change under their address: kept by the one browser, but not by what stands between.
        headers.CacheControl = "private, max-age=31536000, immutable";
        return Results.Stream(image, ImageRequest.Formats[view.Format], entityTag: new EntityTagHeaderValue($"\"{sha256}-{canonical}-{PictureStore.Recipe}\""));
    }

    private static TileRequest Ordered(ImageView view) => new(view.Crop.X, view.Crop.Y, view.Crop.Width, view.Crop.Height, view.Width, view.Height)
    {
        Rotation = view.Turn,
        Mirrored = view.Mirrored,
        Grey = view.Gray,
        Format = view.Format switch { "png" => PictureFormat.Png, "webp" => PictureFormat.WebP, _ => PictureFormat.Jpeg },
    };

    private static async Task<RegionFrame> Frame(Guid pid, HttpContext http, RegionKeeping keeping, CancellationToken ct)
    {
        IiifAnswers.Cors(http);
        return await keeping.Frame(pid, ct);
    }

    private static ImageFrame Of(RegionFrame frame) => new(frame.Width, frame.Height, MostPixels);

    private static string Base(HttpContext http, Guid pid) => string.Create(CultureInfo.InvariantCulture, $"{IiifAnswers.Site(http.Request)}/iiif/image/{pid}");
}
