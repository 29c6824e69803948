namespace HeirloomArchive.Pictures.Regions;

/// <summary>The four shapes a region can have.</summary>
public enum ShapeKind
{
    Rectangle,
    Polygon,
    Line,
    Point,
}

/// <summary>A place on a picture, in pixels of the original with its orientation applied, from the upper left corner.</summary>
public readonly record struct Spot(decimal X, decimal Y);

/// <summary>An upright box in pixels.</summary>
public readonly record struct Box(decimal X, decimal Y, decimal Width, decimal Height);

/// <summary>Where a region lies.</summary>
/// <param name="Kind">Which shape.</param>
/// <param name="Spots">Of a rectangle the upper left and the lower right corner, whole pixels; else the points in their order, to 1/100 pixel.</param>
public sealed record Shape(ShapeKind Kind, IReadOnlyList<Spot> Spots)
{
    /// <summary>The fewest and the most corners of a polygon. Its sides may cross: a hand on glass draws such.</summary>
    public const int FewestCorners = 3, MostCorners = 200;

    /// <summary>A rectangle; all numbers whole pixels.</summary>
    public static Shape Rectangle(decimal x, decimal y, decimal width, decimal height) =>
        new(ShapeKind.Rectangle, [new(x, y), new(x + width, y + height)]);

    /// <summary>The box around it; of a point, of no size.</summary>
    public Box Bounds()
    {
        var (left, top) = (Spots.Min(s => s.X), Spots.Min(s => s.Y));
        return new(left, top, Spots.Max(s => s.X) - left, Spots.Max(s => s.Y) - top);
    }

    /// <summary>From the first point to the last, in pixels.</summary>
    public double Pixels()
    {
        var (x, y) = ((double)(Spots[^1].X - Spots[0].X), (double)(Spots[^1].Y - Spots[0].Y));
        return Math.Sqrt((x * x) + (y * y));
    }

    /// <summary>What is wrong with it on a picture of this size, in a sentence; null when nothing is.</summary>
    public string? Problem(int width, int height)
    {
        if (Spots.Any(s => s.X < 0 || s.Y < 0 || s.X > width || s.Y > height))
        {
            return T($"It lies outside the picture, which is {width} by {height} pixels.");
        }

        var box = Bounds();
        return Kind switch
        {
            ShapeKind.Rectangle when box.Width < 1 || box.Height < 1 => T("A rectangle is at least 1 pixel wide and high."),
            ShapeKind.Polygon when Spots.Count is < FewestCorners or > MostCorners => T($"A polygon has {FewestCorners} to {MostCorners} corners; this one has {Spots.Count}."),
            ShapeKind.Polygon when box.Width < 1 && box.Height < 1 => T("The corners of the polygon all lie in one place."),
            ShapeKind.Line when Pixels() < 1 => T("The two ends of the line lie in one place."),
            _ => null,
        };
    }

    /// <inheritdoc />
    public bool Equals(Shape? other) => other is not null && Kind == other.Kind && Spots.SequenceEqual(other.Spots);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(Kind, Spots.Count, Spots[0]);
}
