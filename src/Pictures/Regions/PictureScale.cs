using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>How large a picture shows the piece, from the lines on it that were measured on the piece.</summary>
/// <param name="PixelsPerMillimetre">Pixels of the original to a millimetre of the piece.</param>
/// <param name="Spread">By how much the measured lines disagree: the largest over the smallest scale, less 1. 0 for a single line.</param>
/// <param name="Lines">How many lines it rests on.</param>
public sealed record PictureScale(double PixelsPerMillimetre, double Spread, int Lines)
{
    /// <summary>Beyond this the lines do not lie in one plane, or one was measured wrongly.</summary>
    public const double MostSpread = 0.05;

    /// <summary>The scale of a picture; null when none of its lines was measured.</summary>
    /// <remarks>All pixels over all millimetres: a longer line counts for more, as its ends were set relatively better.</remarks>
    public static PictureScale? Of(IEnumerable<Region> regions)
    {
        var lines = regions.Where(r => r.Now.Measured is not null && r.Now.Shape.Kind == ShapeKind.Line)
            .Select(r => (Pixels: r.Now.Shape.Pixels(), Millimetres: (double)r.Now.Measured!.Length.Millimetres)).ToList();
        return lines.Count == 0 ? null : new(
            lines.Sum(l => l.Pixels) / lines.Sum(l => l.Millimetres),
            (lines.Max(l => l.Pixels / l.Millimetres) / lines.Min(l => l.Pixels / l.Millimetres)) - 1, lines.Count);
    }

    /// <summary>How long a stretch of the picture is on the piece, to a tenth of a millimetre: no picture tells more.</summary>
    public Length LengthOf(double pixels) => Length.FromMillimetres(Math.Round((decimal)(pixels / PixelsPerMillimetre), 1));
}
