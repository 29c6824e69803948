using System.Text.Json.Nodes;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Iiif;

/// <summary>One picture as a canvas: its size is the picture's own, so that a region has the same numbers on both.</summary>
/// <param name="Garment">The garment that the picture is of.</param>
/// <param name="Picture">The picture.</param>
/// <param name="Width">Pixels, the orientation applied.</param>
/// <param name="Height">Pixels, the orientation applied.</param>
/// <param name="Label">What it is called.</param>
/// <param name="Regions">What is marked on it, each with how it is said in words.</param>
public sealed record CanvasView(Guid Garment, Guid Picture, int Width, int Height, string Label, IReadOnlyList<(Region Region, string Words)> Regions);

/// <summary>A set of canvases with a name: a garment's, or a lesson's.</summary>
/// <param name="Id">The manifest's own address.</param>
/// <param name="Label">Its name.</param>
/// <param name="Summary">What it is, or null.</param>
/// <param name="Metadata">Labels and values to be shown; nothing private.</param>
/// <param name="Homepage">The page about it.</param>
/// <param name="Canvases">One at least.</param>
public sealed record ManifestView(
    string Id, string Label, string? Summary, IReadOnlyList<(string Label, string Value)> Metadata, string Homepage, IReadOnlyList<CanvasView> Canvases);

/// <summary>Writes manifests of the IIIF Presentation API 3.0 (https://iiif.io/api/presentation/3.0/).</summary>
/// <param name="site">Where the archive is, as <c>http://127.0.0.1:5080</c>.</param>
public sealed class Presentation(string site)
{
    public const string Context = "http://iiif.io/api/presentation/3/context.json";

    private const int ThumbnailSide = 320;

    /// <summary>The manifest. Rights are left out: nothing in the record says whose they are.</summary>
    public JsonObject Manifest(ManifestView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        var manifest = new JsonObject
        {
            ["@context"] = Context,
            ["id"] = view.Id,
            ["type"] = "Manifest",
            ["label"] = Say(view.Label),
        };
        if (view.Summary is { Length: > 0 } summary)
        {
            manifest["summary"] = Say(summary);
        }

        if (view.Metadata.Count > 0)
        {
            manifest["metadata"] = new JsonArray([.. view.Metadata.Select(m => new JsonObject { ["label"] = Say(m.Label), ["value"] = Say(m.Value) })]);
        }

        manifest["thumbnail"] = new JsonArray(Thumbnail(view.Canvases[0]));
        manifest["homepage"] = new JsonArray(new JsonObject { ["id"] = view.Homepage, ["type"] = "Text", ["label"] = Say(view.Label), ["format"] = "text/html", ["language"] = new JsonArray("en") });
        manifest["items"] = new JsonArray([.. view.Canvases.Select(Canvas)]);
        return manifest;
    }

    private JsonObject Canvas(CanvasView view)
    {
        var id = AnnotationWriter.Canvas(view.Garment, view.Picture, site);
        var canvas = new JsonObject
        {
            ["id"] = id,
            ["type"] = "Canvas",
            ["label"] = Say(view.Label),
            ["width"] = view.Width,
            ["height"] = view.Height,
            ["thumbnail"] = new JsonArray(Thumbnail(view)),
            ["items"] = new JsonArray(new JsonObject
            {
                ["id"] = $"{id}/page",
                ["type"] = "AnnotationPage",
                ["items"] = new JsonArray(new JsonObject
                {
                    ["id"] = $"{id}/painting",
                    ["type"] = "Annotation",
                    ["motivation"] = "painting",
                    ["body"] = Image(view, Math.Min(ImageApi.MostPixels, Math.Max(view.Width, view.Height)), "max"),
                    ["target"] = id,
                }),
            }),
        };
        if (view.Regions.Count > 0)
        {
            canvas["annotations"] = new JsonArray(new JsonObject
            {
                ["id"] = $"{site}/api/pictures/{view.Picture}/regions",
                ["type"] = "AnnotationPage",
                ["items"] = new JsonArray([.. view.Regions.Select(r => Marked(r.Region, r.Words))]),
            });
        }

        return canvas;
    }

    // Other viewers show texts only: what an entry is called is said beside its address.
    private JsonObject Marked(Region region, string words)
    {
        var annotation = AnnotationWriter.Bare(region, site);
        var said = new JsonObject { ["type"] = "TextualBody", ["value"] = words, ["format"] = "text/plain", ["language"] = new JsonArray("en"), ["purpose"] = "describing" };
        var bodies = annotation["body"] is JsonArray several ? several.Select(b => b!.DeepClone()) : annotation["body"] is { } one ? [one.DeepClone()] : [];
        annotation["body"] = new JsonArray([said, .. bodies]);
        return annotation;
    }

    private JsonObject Thumbnail(CanvasView view) => Image(view, Math.Min(ThumbnailSide, Math.Max(view.Width, view.Height)), null);

    /// <param name="view">The picture.</param>
    /// <param name="side">Its longest side.</param>
    /// <param name="size">The size parameter; null for one in pixels.</param>
    private JsonObject Image(CanvasView view, int side, string? size)
    {
        var frame = new ImageFrame(view.Width, view.Height, side);
        var (width, height) = Sizes.Largest(new(0, 0, view.Width, view.Height), frame, upscale: false);
        var service = $"{site}/iiif/image/{view.Picture}";
        return new()
        {
            ["id"] = $"{service}/full/{size ?? FormattableString.Invariant($"{width},{height}")}/0/default.jpg",
            ["type"] = "Image",
            ["format"] = "image/jpeg",
            ["width"] = width,
            ["height"] = height,
            ["service"] = new JsonArray(new JsonObject { ["id"] = service, ["type"] = "ImageService3", ["profile"] = ImageInfo.Level }),
        };
    }

    private static JsonObject Say(string text) => new() { ["en"] = new JsonArray(text) };
}
