using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>
/// Straight lace shaped round part of a circle: its outer edge keeps its length, the heading thread of its inner edge is drawn up.
/// Each length is worked out in floating point and rounded once to the nanometre.
/// </summary>
/// <param name="Radius">Of the line the lace is sewn to.</param>
/// <param name="Degrees">Through which it goes.</param>
/// <param name="Width">Of the lace; less than the radius where it lies inside.</param>
/// <param name="Inside">True when the lace lies on the inner side of the line.</param>
public sealed record ShapedLace(Length Radius, decimal Degrees, Length Width, bool Inside)
{
    /// <summary>Along the edge on the outer side of the curve: the lace it takes.</summary>
    public Length Outer => Curves.Arc(Inside ? Radius : Radius + Width, Degrees);

    /// <summary>Along the edge on the inner side, when drawn up.</summary>
    public Length Inner => Curves.Arc(Inside ? Radius - Width : Radius, Degrees);

    /// <summary>What the heading thread draws in.</summary>
    public Length DrawnUp => Curves.Arc(Width, Degrees);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "shaped-lace",
        Shelf = Shelf.Lace,
        Title = "Lace shaped round a curve",
        Lead = "How much straight lace or insertion a curve takes, what its outer and inner edge come to, and how much its heading thread draws in.",
        Asks =
        [
            Ask.Rows("curves", "Curves", 1, 20, "Each as part of a circle, one after the other.",
                Ask.Above("radius", "Radius of the drawn line", "4 in", "From the middle of the circle to the line the lace is sewn to."),
                Ask.Number("degrees", "Through how many degrees", 1, 360, "180", "360 is a whole circle, 180 half of one."),
                Ask.Choice("lies", "The lace lies", "", ("outside", "outside the line"), ("inside", "inside the line")).Optional()),
            Ask.Above("width", "Width of the lace", "1 in"),
            Ask.Plain("straight", "Straight parts in all", "6 in"),
            LaceCare.Ends,
        ],
        Example = """{"curves":[{"radius":"4 in","degrees":180},{"radius":"3 in","degrees":90,"lies":"inside"}],"width":"1 in","straight":"6 in","ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var rows = asked.Rows("curves");
        var curves = rows.Select(c => new ShapedLace(c.Length("radius"), c.Number("degrees"), asked.Length("width"), c.Text("lies") == "inside")).ToList();
        foreach (var (row, curve) in rows.Zip(curves))
        {
            row.Check(!curve.Inside || curve.Radius > curve.Width, "radius", T($"{asked.Show(curve.Radius)} is too tight a curve to hold lace of {asked.Show(curve.Width)} inside it: the radius must be more than that width."));
        }

        asked.Throw();
        var (straight, ends) = (asked.Length("straight"), asked.Length("ends"));
        Length Sum(Func<ShapedLace, Length> of) => curves.Aggregate(Length.Zero, (sum, c) => sum + of(c));
        return new Answer(asked.Unit)
            .Figure("lace", "Lace to cut", Sum(c => c.Outer) + straight + (2 * ends), LaceCare.Holds(asked, ends))
            .Figure("outerArcs", "Along the outer arcs", Sum(c => c.Outer))
            .Figure("innerArcs", "Along the inner arcs", Sum(c => c.Inner))
            .Figure("drawnUp", "Drawn in by the heading thread", Sum(c => c.DrawnUp), "on the inner side of each curve")
            .Table("arcs", "Each curve", [new("curve", "Curve"), new("outer", "Outer arc"), new("inner", "Inner arc"), new("drawnUp", "Drawn in"), new("perCent", "Of the lace, per cent"), new("thread", "Pull the heading thread of")],
                curves.Select((c, i) => (IReadOnlyList<object?>)[i + 1, c.Outer, c.Inner, c.DrawnUp, decimal.Round(100m * c.DrawnUp.Nanometres / c.Outer.Nanometres, 2), c.Inside ? T("the free edge") : T("the sewn edge")]))
            .Note("Lace is as long at one edge as at the other: lay the outer edge along the outer arc, then draw up the heading thread of the inner side until it lies flat. The amounts are plain geometry.")
            .Note("Where a curve changes its direction, the thread to pull changes to the other edge. Draw from both ends, a little at a time; the heading thread of an old lace may break, so try it where it does not show.")
            .LayOutFirst()
            .Drawn("Each curve with its lace, all to one scale; dashed: the line it is sewn to.", Picture(asked, curves));
    }

    private static Panel Picture(Asked asked, List<ShapedLace> curves)
    {
        var sketch = new Sketch(90);
        var laid = new List<(List<(double X, double Y)> Band, List<(double X, double Y)> Line, (double X, double Y) Middle)>();
        var x = 0.0;
        foreach (var curve in curves)
        {
            var (from, to) = (270 - ((double)curve.Degrees / 2), 270 + ((double)curve.Degrees / 2));
            List<(double X, double Y)> line = [.. Sketch.Arc(0, 0, curve.Radius.Mm(), from, to)];
            List<(double X, double Y)> band = [.. line, .. Sketch.Arc(0, 0, curve.Radius.Mm() + (curve.Width.Mm() * (curve.Inside ? -1 : 1)), from, to).Reverse()];
            var (left, top) = (x - band.Min(p => p.X), -band.Min(p => p.Y));
            laid.Add(([.. band.Select(p => (p.X + left, p.Y + top))], [.. line.Select(p => (p.X + left, p.Y + top))], (left, band.Max(p => p.Y) + top)));
            x += (band.Max(p => p.X) - band.Min(p => p.X)) * 1.15;
        }

        var place = new Scaled(laid.SelectMany(l => l.Band), Sketch.Margin, 8, sketch.Room, 62);
        foreach (var (shape, i) in laid.Select((s, i) => (s, i + 1)))
        {
            sketch.Area(place.At(shape.Band), Ink.Lace).Path(place.At(shape.Line), Ink.Stitching).Text(place.At(shape.Middle.X, 0).X, 76, $"{i}");
        }

        return sketch.Text(90, 85, T($"lace of {asked.Show(curves[0].Width)}"), Ink.Caption).Panel();
    }
}
