using System.Globalization;
using System.Text;
using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>
/// Marks as SVG in the pixels of the picture, for the page without script. Told apart without colour: by the shape, by the
/// kind of line (its class), by marks at the ends of a line, by the number. viewer/marks.js draws the same over the deep zoom.
/// </summary>
public static class MarkDrawing
{
    /// <summary>One mark: a light line, over it a dark one, and its number.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="unit">A thousandth of the picture's longer side, in pixels.</param>
    /// <param name="chosen">Whether it is the one looked at.</param>
    public static string Svg(MarkView mark, decimal unit, bool chosen)
    {
        var path = Path(mark.Shape, unit);
        var at = mark.Shape.Spots.MinBy(s => s.Y + (s.X / 1000));
        return string.Create(CultureInfo.InvariantCulture, $"""
            <g class="mark {mark.Style}{(chosen ? " chosen" : "")}"><path class="halo" d="{path}"/><path class="drawn" d="{path}"/><text x="{at.X + (8 * unit):0.#}" y="{Math.Max(at.Y - (10 * unit), 34 * unit):0.#}" font-size="{34 * unit:0.#}">{mark.Number}</text></g>
            """);
    }

    private static string Path(Shape shape, decimal unit)
    {
        var s = shape.Spots;
        return shape.Kind switch
        {
            ShapeKind.Rectangle => Joined([s[0], new(s[1].X, s[0].Y), s[1], new(s[0].X, s[1].Y)]) + "Z",
            ShapeKind.Polygon => Joined(s) + "Z",
            ShapeKind.Line => Joined(s) + Tick(s[0], s[1], unit) + Tick(s[1], s[0], unit),
            _ => Cross(s[0], 14 * unit) + Ring(s[0], 9 * unit),
        };
    }

    private static string Joined(IEnumerable<Spot> spots)
    {
        var path = new StringBuilder();
        foreach (var spot in spots)
        {
            path.Append(CultureInfo.InvariantCulture, $"{(path.Length == 0 ? 'M' : 'L')}{spot.X:0.#} {spot.Y:0.#}");
        }

        return path.ToString();
    }

    // A short stroke across the end, at right angles.
    private static string Tick(Spot end, Spot other, decimal unit)
    {
        var (x, y) = ((double)(other.X - end.X), (double)(other.Y - end.Y));
        var by = 10 * (double)unit / Math.Sqrt((x * x) + (y * y));
        var (across, along) = ((decimal)(-y * by), (decimal)(x * by));
        return string.Create(CultureInfo.InvariantCulture, $"M{end.X - across:0.#} {end.Y - along:0.#}L{end.X + across:0.#} {end.Y + along:0.#}");
    }

    private static string Cross(Spot at, decimal arm) => string.Create(CultureInfo.InvariantCulture,
        $"M{at.X - arm:0.#} {at.Y:0.#}H{at.X + arm:0.#}M{at.X:0.#} {at.Y - arm:0.#}V{at.Y + arm:0.#}");

    private static string Ring(Spot at, decimal radius) => string.Create(CultureInfo.InvariantCulture,
        $"M{at.X - radius:0.#} {at.Y:0.#}a{radius:0.#} {radius:0.#} 0 1 0 {2 * radius:0.#} 0a{radius:0.#} {radius:0.#} 0 1 0 {-2 * radius:0.#} 0");
}
