using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The information document of a picture (Image API 3.0, section 5).</summary>
public static class ImageInfo
{
    public const string Context = "http://iiif.io/api/image/3/context.json";

    /// <summary>All that level 2 asks for is answered and tested; cross-origin requests as docs/iiif.md says.</summary>
    public const string Level = "level2";

    /// <summary>Sides of a tile in pixels.</summary>
    public const int Tile = 512;

    private const int SmallestSize = 96;

    /// <summary>The document.</summary>
    /// <param name="id">The base address of the image.</param>
    /// <param name="frame">The picture.</param>
    public static JsonObject Write(string id, ImageFrame frame) => new()
    {
        ["@context"] = Context,
        ["id"] = id,
        ["type"] = "ImageService3",
        ["protocol"] = "http://iiif.io/api/image",
        ["profile"] = Level,
        ["width"] = frame.Width,
        ["height"] = frame.Height,
        ["maxWidth"] = frame.Most,
        ["maxHeight"] = frame.Most,
        ["sizes"] = new JsonArray([.. SizesOf(frame).Select(s => new JsonObject { ["width"] = s.Width, ["height"] = s.Height })]),
        ["tiles"] = new JsonArray(new JsonObject { ["width"] = Tile, ["height"] = Tile, ["scaleFactors"] = new JsonArray([.. Factors(frame).Select(f => (JsonNode)f)]) }),
        ["preferredFormats"] = new JsonArray("jpg"),
        ["extraFormats"] = new JsonArray("webp"),
        ["extraQualities"] = new JsonArray("color", "gray"),
        ["extraFeatures"] = new JsonArray("canonicalLinkHeader", "mirroring", "profileLinkHeader", "sizeUpscaling"),
    };

    /// <summary>1, 2, 4 … up to the one at which the whole picture is a single tile.</summary>
    public static IEnumerable<int> Factors(ImageFrame frame)
    {
        var longest = Math.Max(frame.Width, frame.Height);
        for (var factor = 1; factor == 1 || longest > Tile * (factor / 2); factor *= 2)
        {
            yield return factor;
        }
    }

    // The halvings of the whole picture, smallest first.
    private static List<(int Width, int Height)> SizesOf(ImageFrame frame)
    {
        List<(int Width, int Height)> sizes = [];
        for (var by = 1; by == 1 || Math.Max(frame.Width, frame.Height) / by >= SmallestSize; by *= 2)
        {
            var (width, height) = ((frame.Width + by - 1) / by, (frame.Height + by - 1) / by);
            if (width <= frame.Most && height <= frame.Most)
            {
                sizes.Add((width, height));
            }
        }

        sizes.Reverse();
        return sizes;
    }
}
