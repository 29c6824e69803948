using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Iiif;

/// <summary>A part of a picture with a margin around it, as an image request of our own.</summary>
/// <param name="Picture">The picture.</param>
/// <param name="Crop">The part.</param>
public readonly record struct Closeup(Guid Picture, Crop Crop)
{
    private const decimal Margin = 0.15m;

    // A point has no size of its own: an eighth of the picture is shown around it.
    private const int PointShare = 8, Smallest = 64;

    /// <summary>The whole picture.</summary>
    public static Closeup Whole(RegionFrame frame) => new(frame.Picture, new(0, 0, frame.Width, frame.Height));

    /// <summary>What a region marks and a little around it, within the picture.</summary>
    public static Closeup Of(Region region, RegionFrame frame)
    {
        ArgumentNullException.ThrowIfNull(region);
        ArgumentNullException.ThrowIfNull(frame);
        var box = region.Now.Shape.Bounds();
        var least = region.Now.Shape.Kind == ShapeKind.Point ? Math.Max(Smallest, Math.Max(frame.Width, frame.Height) / PointShare) : Smallest;
        var (left, width) = Around(box.X, box.Width, Math.Max(box.Width, box.Height), least, frame.Width);
        var (top, height) = Around(box.Y, box.Height, Math.Max(box.Width, box.Height), least, frame.Height);
        return new(region.Picture, new(left, top, width, height));
    }

    /// <summary>The address of its image, at most this large.</summary>
    public string Address(int width, int height) =>
        FormattableString.Invariant($"/iiif/image/{Picture}/{Crop.X},{Crop.Y},{Crop.Width},{Crop.Height}/!{width},{height}/0/default.jpg");

    /// <summary>The size of that image.</summary>
    public (int Width, int Height) Size(int width, int height) => Sizes.Read(FormattableString.Invariant($"!{width},{height}"), Crop, new(Crop.Width, Crop.Height, ImageApi.MostPixels));

    private static (int From, int Length) Around(decimal from, decimal length, decimal longest, int least, int side)
    {
        var wanted = (int)Math.Min(side, Math.Max(least, Math.Ceiling(length + (2 * longest * Margin))));
        return ((int)Math.Clamp(Math.Round(from + (length / 2) - (wanted / 2m)), 0, side - wanted), wanted);
    }
}
