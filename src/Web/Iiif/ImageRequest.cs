using HeirloomArchive.Web.Api;

namespace HeirloomArchive.Web.Iiif;

/// <summary>
/// Reads <c>{region}/{size}/{rotation}/{quality}.{format}</c> as the IIIF Image API 3.0 has it
/// (https://iiif.io/api/image/3.0/, section 4). Turned by quarters only; qualities default, color, gray; jpg, png, webp.
/// </summary>
public static class ImageRequest
{
    /// <summary>The formats and their media types.</summary>
    public static readonly IReadOnlyDictionary<string, string> Formats = new Dictionary<string, string>
    {
        ["jpg"] = "image/jpeg", ["png"] = "image/png", ["webp"] = "image/webp",
    };

    /// <summary>What is asked for.</summary>
    /// <param name="region">Which part.</param>
    /// <param name="size">How large.</param>
    /// <param name="rotation">Turned by how much, with <c>!</c> mirrored first.</param>
    /// <param name="qualityAndFormat">As in <c>default.jpg</c>.</param>
    /// <param name="frame">The picture.</param>
    /// <exception cref="ImageRequestException">It can't be answered.</exception>
    public static ImageView Read(string region, string size, string rotation, string qualityAndFormat, ImageFrame frame)
    {
        ArgumentNullException.ThrowIfNull(rotation);
        ArgumentNullException.ThrowIfNull(qualityAndFormat);
        var crop = Regions.Read(region, frame);
        var (width, height) = Sizes.Read(size, crop, frame);
        var mirrored = rotation.StartsWith('!');
        var turn = Regions.Decimal(mirrored ? rotation[1..] : rotation);
        if (turn is not (0 or 90 or 180 or 270 or 360))
        {
            throw new ImageRequestException($"“{rotation.Short(60)}” is no turn that is made here: 0, 90, 180 or 270, perhaps with ! before it to mirror.");
        }

        if (qualityAndFormat.Split('.') is not [var quality, var format] || quality is not ("default" or "color" or "gray") || !Formats.ContainsKey(format))
        {
            throw new ImageRequestException($"“{qualityAndFormat.Short(60)}” is not made here: default, color or gray, as .jpg, .png or .webp.");
        }

        return new(crop, width, height, mirrored, (int)turn % 360, quality == "gray", format);
    }
}
