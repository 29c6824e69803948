using System.Globalization;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The part of a picture that is asked for, whole pixels from the upper left corner, within the picture.</summary>
public readonly record struct Crop(int X, int Y, int Width, int Height);

/// <summary>What a picture is and how large its images may get.</summary>
/// <param name="Width">Pixels, the orientation applied.</param>
/// <param name="Height">Pixels, the orientation applied.</param>
/// <param name="Most">The most pixels of either side of an image that is answered: <c>maxWidth</c> and <c>maxHeight</c>.</param>
public readonly record struct ImageFrame(int Width, int Height, int Most);

/// <summary>What exactly an image request comes to: cut out, scaled, mirrored, turned, in this order.</summary>
/// <param name="Crop">What is cut out.</param>
/// <param name="Width">To which width it is scaled, before it is turned.</param>
/// <param name="Height">To which height.</param>
/// <param name="Mirrored">Left and right exchanged, before it is turned.</param>
/// <param name="Turn">Clockwise: 0, 90, 180 or 270.</param>
/// <param name="Gray">Without colour.</param>
/// <param name="Format"><c>jpg</c>, <c>png</c> or <c>webp</c>.</param>
public sealed record ImageView(Crop Crop, int Width, int Height, bool Mirrored, int Turn, bool Gray, string Format)
{
    /// <summary>The whole picture in one canonical form; equal views have equal texts (Image API 3.0, section 4.8).</summary>
    public string Canonical(ImageFrame frame)
    {
        var region = Crop == new Crop(0, 0, frame.Width, frame.Height) ? "full"
            : string.Create(CultureInfo.InvariantCulture, $"{Crop.X},{Crop.Y},{Crop.Width},{Crop.Height}");
        var upscaled = Width > Crop.Width || Height > Crop.Height;
        var size = (Width, Height) == Sizes.Largest(Crop, frame, upscale: false) ? "max"
            : upscaled && (Width, Height) == Sizes.Largest(Crop, frame, upscale: true) ? "^max"
            : string.Create(CultureInfo.InvariantCulture, $"{(upscaled ? "^" : "")}{Width},{Height}");
        return string.Create(CultureInfo.InvariantCulture, $"{region}/{size}/{(Mirrored ? "!" : "")}{Turn}/{(Gray ? "gray" : "default")}.{Format}");
    }
}
