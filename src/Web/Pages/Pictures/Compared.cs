using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Web.Iiif;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>A picture, or a place on one, that lies beside others.</summary>
/// <param name="Show">As the address has it: the picture's id, perhaps with <c>/</c> and the region's.</param>
/// <param name="Frame">The picture.</param>
/// <param name="Region">The place; null for the whole picture.</param>
/// <param name="Scale">How large the picture shows the piece; null where it is not known.</param>
/// <param name="Close">The part that is shown.</param>
public sealed record Compared(string Show, RegionFrame Frame, Region? Region, PictureScale? Scale, Closeup Close)
{
    /// <summary>What is seen.</summary>
    public string Name => Region is null ? RegionWord.Picture(Frame.Entry, 1) : RegionWord.Line(Region, Frame);

    /// <summary>Pixels of the picture to a unit of the page that it lies on.</summary>
    /// <param name="oneScale">Whether a unit is a millimetre of the piece; else it is a hundredth of what is shown.</param>
    public double Unit(bool oneScale) => oneScale && Scale is not null ? Scale.PixelsPerMillimetre : Math.Max(Close.Crop.Width, Close.Crop.Height) / 100d;

    public string Link => Region is null ? $"/pictures/{Frame.Picture}" : $"/pictures/{Frame.Picture}?region={Region.Id}";

    /// <summary>Reads one from the address; null when there is no such picture or region.</summary>
    public static async Task<Compared?> Read(string show, RegionKeeping keeping, CancellationToken ct)
    {
        var ids = show.Split('/').Select(t => Guid.TryParse(t, out var id) ? id : Guid.Empty).ToArray();
        if (ids.Length > 2 || ids.Contains(Guid.Empty))
        {
            return null;
        }

        try
        {
            var frame = await keeping.Frame(ids[0], ct);
            var regions = await keeping.OfPicture(ids[0], ct: ct);
            var region = ids.Length == 2 ? regions.FirstOrDefault(r => r.Id == ids[1]) : null;
            return ids.Length == 2 && region is null ? null
                : new(show, frame, region, PictureScale.Of(regions), region is null ? Closeup.Whole(frame) : Closeup.Of(region, frame));
        }
        catch (Catalogue.NotFoundException)
        {
            return null;
        }
    }
}
