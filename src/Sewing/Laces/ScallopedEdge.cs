using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>
/// A straight edge cut in equal scallops, each part of a circle, at most half of one. Floating point inside, each length rounded once to the nanometre.
/// </summary>
/// <param name="Length">Of the straight edge.</param>
/// <param name="Scallops">1 or more.</param>
/// <param name="Depth">From the line of the hollows to the lowest point, at most half the width of a scallop.</param>
public sealed record ScallopedEdge(Length Length, int Scallops, Length Depth)
{
    private const int MostScallops = 2_000;

    private double Chord => (double)Length.Nanometres / Scallops;

    private double ExactRadius => ((Chord * Chord / 4) + ((double)Depth.Nanometres * Depth.Nanometres)) / (2 * Depth.Nanometres);

    /// <summary>Half the angle of a scallop, in radians.</summary>
    internal double HalfAngle => 2 * Math.Atan2(Depth.Nanometres, Chord / 2);

    /// <summary>From hollow to hollow.</summary>
    public Length Width => Length.DividedBy(Scallops);

    /// <summary>Of the circle to draw with.</summary>
    public Length Radius => Sewing.Length.FromNanometres((long)Math.Round(ExactRadius));

    /// <summary>Along one scallop.</summary>
    public Length Each => Sewing.Length.FromNanometres((long)Math.Round(2 * HalfAngle * ExactRadius));

    /// <summary>Along the whole edge.</summary>
    public Length Along => Sewing.Length.FromNanometres((long)Math.Round(2 * HalfAngle * ExactRadius * Scallops));

    /// <summary>The depth at which each scallop is half a circle.</summary>
    public Length Deepest => Sewing.Length.FromNanometres(Length.Nanometres / (2L * Scallops));

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "scalloped-edge",
        Shelf = Shelf.Lace,
        Title = "A scalloped edge",
        Lead = "Scallops that fit a hem exactly: their width, the circle to draw them with, and how much lace or stitching runs along them.",
        Asks =
        [
            Ask.Above("length", "The edge", "72 in", "Straight along it, all round if it closes."),
            Ask.Whole("scallops", "Scallops", 1, MostScallops, "36", "Or give about how wide each may be.").Optional(),
            Ask.Above("about", "About how wide", "2 in", "Then the whole numbers on both sides are offered.").Optional(),
            Ask.Above("depth", "Depth", "1/2 in", "From the line of the hollows to the lowest point; at most half the width."),
            LaceCare.Ends,
        ],
        Example = """{"length":"72 in","about":"1 3/4 in","depth":"1/2 in","ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (length, depth, ends) = (asked.Length("length"), asked.Length("depth"), asked.Length("ends"));
        asked.Check(asked.Has("scallops") != asked.Has("about"), "scallops", "How many scallops? Give their number, or about how wide each may be, and not both.");
        asked.Throw();
        var about = asked.LengthOrNull("about");
        asked.Check(about is null || about <= length, "about", T($"A scallop of {asked.Show(about ?? default)} is wider than the edge of {asked.Show(length)}."));
        asked.Check(about is null || length.PartsOf(about.Value) <= MostScallops, "about", T($"{asked.Show(about ?? default)} would make more than {MostScallops} scallops: give wider ones."));
        asked.Throw();
        var fewer = about is { } wide ? (int)(length.Nanometres / wide.Nanometres) : asked.Whole("scallops");
        var more = about is { } w && length.Nanometres % w.Nanometres != 0 ? fewer + 1 : fewer;
        var choices = new[] { fewer, more }.Distinct().Select(n => new ScallopedEdge(length, n, depth)).ToList();
        foreach (var choice in choices)
        {
            asked.Check(depth <= choice.Deepest, "depth", T($"{asked.Show(depth)} is too deep for {choice.Scallops} scallops of {asked.Show(choice.Width)}: at {asked.Show(choice.Deepest)} each is half a circle, and no part of one is deeper."));
            asked.Check(depth >= choice.Width.DividedBy(200), "depth", T($"{asked.Show(depth)} is as good as straight on scallops of {asked.Show(choice.Width)}: it must be at least {asked.Show(choice.Width.DividedBy(200))}."));
        }

        asked.Throw();
        var edge = about is { } wished ? choices.MinBy(c => Math.Abs(c.Width.Nanometres - wished.Nanometres))! : choices[0];
        return new Answer(asked.Unit)
            .Figure("scallops", "Scallops", edge.Scallops, choices.Count > 1 ? "the nearer of the two whole numbers" : "")
            .Figure("width", "Each wide, hollow to hollow", edge.Width)
            .Figure("radius", "Draw with a circle of radius", edge.Radius)
            .Figure("each", "Along one scallop", edge.Each)
            .Figure("along", "Along the whole edge", edge.Along)
            .Figure("ratio", "Along it over straight", edge.Along.Over(length))
            .Figure("lace", "Lace to cut for the edge", edge.Along + (2 * ends), LaceCare.Holds(asked, ends, "put on without fullness"))
            .Table("choices", "Whole numbers of scallops that fit", [new("scallops", "Scallops"), new("width", "Each wide"), new("radius", "Radius"), new("along", "Along the edge")],
                choices.Select(c => (IReadOnlyList<object?>)[c.Scallops, c.Width, c.Radius, c.Along]))
            .Note("Each scallop is part of a circle through both hollows and the lowest point: plain geometry.")
            .Note("Fold the hem in halves, quarters and eighths and mark the hollows from the folds, so that small errors do not add up; clip to each hollow before you turn it.")
            .LayOutFirst()
            .Drawn(N(
                edge.Scallops,
                $"{Math.Min(edge.Scallops, 8)} of {edge.Scallops} scallop, {asked.Show(edge.Width)} wide and {asked.Show(depth)} deep.",
                $"{Math.Min(edge.Scallops, 8)} of {edge.Scallops} scallops, each {asked.Show(edge.Width)} wide and {asked.Show(depth)} deep."), edge.Picture(asked));
    }

    private Panel Picture(Asked asked)
    {
        var count = Math.Min(Scallops, 8);
        var (width, depth, radius) = (Chord / 1e6, Depth.Mm(), ExactRadius / 1e6);
        var half = HalfAngle * 180 / Math.PI;
        var sketch = new Sketch(60);
        var to = new Scaled([(0, -width / 2), (count * width, depth)], Sketch.Margin, 10, sketch.Room, 40);
        List<(double X, double Y)> curve = [.. Enumerable.Range(0, count).SelectMany(i => Sketch.Arc((i + 0.5) * width, depth - radius, radius, 90 + half, 90 - half))];
        sketch.Area(to.At([(0, -width / 2), .. curve, (count * width, -width / 2)]), Ink.Cloth).Path(to.At(curve), Ink.Stitching);
        return sketch.Across(to.At(0, 0).X, to.At(width, 0).X, 8, asked.Show(Width)).Text(90, 56, T($"depth {asked.Show(Depth)}, radius {asked.Show(Radius)}"), Ink.Caption).Panel();
    }
}
