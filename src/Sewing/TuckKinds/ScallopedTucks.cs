using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Fullness;
using HeirloomArchive.Sewing.Laces;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Scalloped tucks: a deeper tuck stitched in scallops on the wrong side, trimmed and turned. It takes up twice its greatest depth; the scallops are arcs of a circle.</summary>
public static class ScallopedTucks
{
    /// <summary>What the tuck takes up: twice the greater of its two depths, exact.</summary>
    /// <param name="point">Depth where the scallop hangs lowest.</param>
    /// <param name="hollow">Depth between two scallops.</param>
    public static Length TakeUp(Length point, Length hollow) => 2 * (point > hollow ? point : hollow);

    /// <summary>The length along one scallop: an arc over its width that rises by the difference of the depths. Floating point inside, rounded once.</summary>
    /// <param name="width">Of the scallop, above zero.</param>
    /// <param name="rise">Zero to half the width, where it is a half circle.</param>
    public static Length Arc(Length width, Length rise) => rise == Length.Zero ? width : new ScallopedEdge(width, 1, rise).Each;

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "scalloped",
        Shelf = Shelf.Tucks,
        Title = "Scalloped tucks",
        Lead = "A tuck whose edge hangs in scallops: how many there are, how deep it is at point and hollow, and the cloth it takes.",
        Asks =
        [
            Ask.Above("length", "Length of the tuck", "24 in"),
            Ask.Above("scallop", "Width of a scallop", "1 1/2 in"),
            Ask.Above("point", "Depth at the point", "1 in", "From the stitching of the tuck to the lowest place of a scallop."),
            Ask.Above("hollow", "Depth at the hollow", "5/8 in", "From the stitching to the place between two scallops."),
            Ask.Plain("trim", "Leave when trimming", "1/8 in", "Beyond the stitched scallops, before it is turned; an eighth of an inch when left out."),
            Ask.Whole("tucks", "Tucks", 1, 50, "1").Optional(),
        ],
        Example = """{"length":"24 in","scallop":"1 1/2 in","point":"1 in","hollow":"5/8 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (length, scallop, point, hollow) = (asked.Length("length"), asked.Length("scallop"), asked.Length("point"), asked.Length("hollow"));
        var (tucks, trim) = (asked.Whole("tucks", 1), asked.LengthOrNull("trim") ?? Length.FromSixtyFourthsOfInch(8));
        // Most hang at the point; where the hollow is the deeper the arcs are cut the other way.
        var (deep, shallow) = point > hollow ? ("point", hollow) : ("hollow", point);
        var rise = (point > hollow ? point : hollow) - shallow;
        asked.Check(scallop <= length, "scallop", T($"{asked.Show(scallop)} is wider than the tuck of {asked.Show(length)}: it can be at most that."));
        asked.Check(length.PartsOf(scallop) <= 1_000, "scallop", T($"{asked.Show(scallop)} would make more than 1 000 scallops: take wider ones."));
        asked.Throw();
        var ways = Rounding.BothWays(length, scallop);
        asked.Check(2 * rise <= ways[^1].Each, deep, T($"{asked.Show(shallow + rise)} is too deep: a scallop of {asked.Show(ways[^1].Each)} can rise and fall by at most {asked.Show(Half(ways[^1].Each))}, where it is a half circle. The {(point > hollow ? T("point") : T("hollow"))} can be at most {asked.Show(shallow + Half(ways[^1].Each))}."));
        asked.Throw();
        return new Answer(asked.Unit)
            .Figure("scallops", "Scallops", ways[0].Count, ways.Count > 1 ? "or one more: see the table" : "")
            .Figure("takeUp", "Taken up", tucks * TakeUp(point, hollow), "twice the greatest depth")
            .Figure("rise", "A scallop hangs by", rise, "so far from the fold its stitching runs where it is shallowest")
            .Table("ways", "Whole scallops", [new("scallops", "Scallops"), new("width", "Each wide"), new("edge", "Edge of each"), new("edgeAll", "Edge in all")],
                ways.Select(w => (IReadOnlyList<object?>)[w.Count, w.Each, Arc(w.Each, rise), w.Count * Arc(w.Each, rise)]))
            .Note(T($"Fold the tuck on the wrong side, stitch the scallops so that they touch the fold where they are deepest, trim to {asked.Show(trim)}, clip into each hollow, turn, press, then stitch the tuck. Common practice."))
            .Note("The fold gives the greatest depth, so the cloth is that of a plain tuck as deep as that: plain geometry.")
            .Drawn(N(
                ways[0].Count,
                $"{ways[0].Count} scallop of {asked.Show(ways[0].Each)}, {asked.Show(point)} deep at the point and {asked.Show(hollow)} at the hollow.",
                $"{ways[0].Count} scallops of {asked.Show(ways[0].Each)}, {asked.Show(point)} deep at the point and {asked.Show(hollow)} at the hollow."), Picture(asked, ways[0], point, hollow));
    }

    private static Length Half(Length length) => Length.FromNanometres(length.Nanometres / 2);

    private static Panel Picture(Asked asked, Rounding way, Length point, Length hollow)
    {
        var shown = (int)Math.Min(way.Count, 8);
        var (part, deep, shallow) = (way.Each.Mm(), point.Mm(), hollow.Mm());
        List<(double X, double Y)> edge = [(shown * part, 0), (0, 0)];
        for (var i = 0; i < shown; i++)
        {
            edge.AddRange(Scallop(i * part, part, shallow, deep - shallow));
        }

        var wide = Sketch.PageWidth - 60;
        var high = Math.Min(60, Math.Max(deep, shallow) * wide / (shown * part));
        var place = new Scaled(edge, Sketch.Margin + 8, 10, wide, high);
        var (start, end) = (place.At(0, 0), place.At(shown * part, Math.Max(deep, shallow)));
        return new Sketch(high + 26).Area(place.At(edge), Ink.Tuck).Path(place.At(edge[2..]), Ink.FoldFine).Line(start.X, start.Y, end.X, start.Y, Ink.Stitching)
            .Across(start.X, end.X, high + 20, shown < way.Count ? T($"the first {shown} of {way.Count}") : $"{way.Count} × {asked.Show(way.Each)}")
            .Down(end.X + 4, start.Y, place.At(0, deep).Y, T($"point {asked.Show(point)}")).Panel();
    }

    private static IEnumerable<(double X, double Y)> Scallop(double from, double width, double shallow, double rise)
    {
        var half = width / 2;
        var radius = rise == 0 ? 0 : ((half * half) + (rise * rise)) / (2 * Math.Abs(rise));
        for (var k = 0; k <= 12; k++)
        {
            var x = -half + (width * k / 12);
            yield return (from + half + x, shallow + (Math.Sign(rise) * Math.Max(0, Math.Sqrt(Math.Max(0, (radius * radius) - (x * x))) - (radius - Math.Abs(rise)))));
        }
    }
}
