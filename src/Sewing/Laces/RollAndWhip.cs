using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>The roll of a raw edge before it is whipped: so many threads of the cloth. Rounded once to the nanometre.</summary>
/// <param name="Threads">Of the cloth, counted across the edge.</param>
/// <param name="Over">The length they were counted over.</param>
/// <param name="Rolled">Threads rolled in; about ten.</param>
/// <remarks>The Workwoman's Guide (1838): about ten threads. Dillmont, Encyclopedia of Needlework (1886): the first turn of a hem no more than 2 mm.</remarks>
public sealed record RollAndWhip(decimal Threads, Length Over, int Rolled)
{
    /// <summary>Threads that the books roll in.</summary>
    public const int UsualThreads = 10;

    /// <summary>What one edge loses.</summary>
    public Length Roll => (Rolled * Over).DividedBy(Threads);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "roll-and-whip",
        Shelf = Shelf.Lace,
        Title = "Allowance to roll and whip",
        Lead = "How much of a fine cloth an edge takes to be rolled and whipped, worked out from its threads.",
        Asks =
        [
            Ask.Number("threads", "Threads counted", 1, 10_000, "40", "Across the edge: those that run along it."),
            Ask.Above("over", "Over a length of", "10 mm"),
            Ask.Whole("rolled", "Threads rolled in", 1, 200, "10", "Left out: ten, as in the books.").Optional(),
            Ask.Above("finished", "Piece across when done", "6 in", "Between the rolled edges."),
            Ask.Whole("edges", "Rolled edges across it", 1, 2, "2"),
            Ask.Above("length", "Edge to whip, in all", "24 in").Optional(),
            Ask.Above("stitch", "From whip stitch to whip stitch", "1/16 in").Optional(),
        ],
        Example = """{"threads":40,"over":"10 mm","finished":"6 in","edges":2,"length":"24 in","stitch":"1/16 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var edge = new RollAndWhip(asked.Number("threads"), asked.Length("over"), asked.Whole("rolled", UsualThreads));
        var (finished, edges) = (asked.Length("finished"), asked.Whole("edges"));
        asked.Check(asked.Has("length") == asked.Has("stitch"), asked.Has("length") ? "stitch" : "length", "Whip stitches are counted from the edge in all and the distance of the stitches: give both, or neither.");
        asked.Throw();
        var lost = edges * edge.Roll;
        var answer = new Answer(asked.Unit)
            .Figure("roll", "Each edge loses", edge.Roll, N(edge.Rolled, $"{edge.Rolled} thread", $"{edge.Rolled} threads"))
            .Figure("lost", "All edges lose", lost)
            .Figure("cut", "Cut the piece across", finished + lost, T($"{asked.Show(lost)} for rolling in it"))
            .Figure("threadsPerCm", "Threads in 1 cm", decimal.Round(edge.Threads * 10_000_000m / edge.Over.Nanometres, 2));
        if (asked.LengthOrNull("length") is { } length && asked.LengthOrNull("stitch") is { } stitch)
        {
            answer.Figure("stitches", "Whip stitches", length.PartsOf(stitch));
        }

        if (edge.Roll > Length.FromMillimetres(4))
        {
            answer.Caution("coarse-for-rolling", T($"A roll of {asked.Show(edge.Roll)} is thick: only fine cloth rolls well. A narrow hem may serve better."));
        }

        return answer
            .Table("usual", "What the books turn in", [new("what", "Edge"), new("amount", "Turned in"), new("source", "Source")],
            [
                [T("Roll for whipping"), (edge with { Rolled = UsualThreads }).Roll, T("The Workwoman's Guide (1838): about ten threads, on this cloth")],
                [T("First turn of a hem"), Length.FromMillimetres(2), T("Dillmont, Encyclopedia of Needlework (1886): no more than 2 mm")],
            ])
            .Note("Roll the raw edge between thumb and finger, about ten threads, and whip over it without going through.", "The Workwoman's Guide (1838)")
            .Note("Only fine cloth rolls well, and an edge across the warp rolls more easily than one along it.", "Watson, Textiles and Clothing (1907); Woolman, A Sewing Course for Teachers")
            .Note("Roll a scrap of the same cloth first. On an antique leave an old roll as it is, and ask a textile conservator.")
            .Drawn(T($"A piece cut {asked.Show(finished + lost)} across; each rolled edge takes {asked.Show(edge.Roll)}."), Picture(asked, finished, edge.Roll, edges));
    }

    private static Panel Picture(Asked asked, Length finished, Length roll, int edges)
    {
        var sketch = new Sketch(44);
        var scale = sketch.ScaleFor(finished + (edges * roll));
        var (rolled, width) = (roll.Mm() * scale, finished.Mm() * scale);
        var left = Sketch.Margin + (edges == 2 ? rolled : 0);
        sketch.Box(Sketch.Margin, 14, sketch.Room, 18, Ink.Allowance).Box(left, 14, width, 18, Ink.Cloth)
            .Line(left + width, 14, left + width, 32, Ink.Stitching).Line(left, 14, left, 32, edges == 2 ? Ink.Stitching : Ink.CutEdge);
        return sketch.Across(left, left + width, 10, asked.Show(finished)).Text(90, 39, edges == 2 ? T($"at both edges {asked.Show(roll)} rolled in") : T($"at one edge {asked.Show(roll)} rolled in"), Ink.Caption).Panel();
    }
}
