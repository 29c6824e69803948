namespace HeirloomArchive.Sewing.Drawing;

/// <summary>Brings what is measured in millimetres of cloth into a place on a strip, to one scale both ways, in the middle of that place.</summary>
internal sealed class Scaled
{
    private readonly double left;
    private readonly double top;

    /// <summary>Chooses the scale so that all points fit.</summary>
    /// <param name="points">All that must fit, in mm of cloth.</param>
    /// <param name="x">Left edge of the place, in mm of the drawing.</param>
    /// <param name="y">Its upper edge.</param>
    /// <param name="width">Its width.</param>
    /// <param name="height">Its height.</param>
    public Scaled(IEnumerable<(double X, double Y)> points, double x, double y, double width, double height)
    {
        var all = points.ToList();
        var (minX, maxX, minY, maxY) = (all.Min(p => p.X), all.Max(p => p.X), all.Min(p => p.Y), all.Max(p => p.Y));
        By = Math.Min(width / Math.Max(maxX - minX, 1e-6), height / Math.Max(maxY - minY, 1e-6));
        left = x + ((width - ((maxX - minX) * By)) / 2) - (minX * By);
        top = y + ((height - ((maxY - minY) * By)) / 2) - (minY * By);
    }

    /// <summary>Drawing millimetres for each millimetre of cloth.</summary>
    public double By { get; }

    /// <summary>Where a point of the cloth falls.</summary>
    public (double X, double Y) At(double x, double y) => (left + (x * By), top + (y * By));

    /// <summary>Where points of the cloth fall.</summary>
    public IEnumerable<(double X, double Y)> At(IEnumerable<(double X, double Y)> points) => points.Select(p => At(p.X, p.Y));
}
