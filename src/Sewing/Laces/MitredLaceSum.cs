using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Laces;

/// <summary>What <see cref="MitredLace"/> asks and answers.</summary>
internal static class MitredLaceSum
{
    private const decimal Sharpest = 150;

    // A seventh of a circle has no end of decimals, and nobody measures nearer.
    private const decimal ClosesWithin = 0.5m;

    public static Sum Sum { get; } = new()
    {
        Slug = "mitred-lace",
        Shelf = Shelf.Lace,
        Title = "Lace mitred at corners",
        Lead = "How much flat lace goes round corners of any angle, and what its inner and outer edge come to.",
        Asks =
        [
            Ask.Rows("sides", "Sides", 1, 40, "One after the other along the edge that is sewn.",
                Ask.Above("length", "From corner to corner", "10 in"),
                Ask.Number("turn", "Turn at its end, in degrees", -Sharpest, Sharpest, "90", "How far the edge turns from straight on: 90 for a square corner, 60 at the corners of a hexagon; below 0 where it turns the other way.").Optional()),
            Ask.Above("width", "Width of the lace", "2 in"),
            Ask.Flag("round", "The end meets the start", "Then the last side has a corner too."),
            Ask.Choice("sewn", "Sewn by", "The edge you measured.", ("inner-edge", "its inner edge: the lace lies outside the turns"), ("outer-edge", "its outer edge: the lace lies within the turns")).Optional(),
            Ask.Choice("mitre", "The mitres are", "", ("folded", "folded, the lace in one length"), ("cut", "cut and seamed")).Optional(),
            Ask.Plain("seam", "Kept beyond a cut mitre", "1/4 in", "Only where the mitres are cut."),
            LaceCare.Ends,
        ],
        Example = """{"sides":[{"length":"10 in","turn":90},{"length":"14 in","turn":90},{"length":"10 in","turn":90},{"length":"14 in","turn":90}],"width":"2 in","round":true,"ends":"1/2 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (round, cut) = (asked.Flag("round"), asked.Text("mitre") == "cut");
        var rows = asked.Rows("sides");
        var lace = new MitredLace([.. rows.Select(s => new MitredSide(s.Length("length"), s.Number("turn")))], asked.Length("width"),
            asked.Text("sewn") == "outer-edge", cut ? asked.Length("seam") : Length.Zero, asked.Length("ends"));
        asked.Check(cut || asked.Length("seam") == Length.Zero, "seam", "A folded mitre needs no seam: leave it out, or say that the mitres are cut.");
        rows[^1].Check(round || lace.Sides[^1].Turn == 0, "turn", T($"The edge ends here, so it can't turn by {lace.Sides[^1].Turn:0.##} degrees: leave the turn out, or say that the end meets the start."));
        foreach (var (row, i) in rows.Select((r, i) => (r, i)))
        {
            row.Check(lace.FreeOf(i) > Length.Zero, "length",
                T($"{asked.Show(lace.Sides[i].Length)} is too short between its mitres for lace of {asked.Show(lace.Width)}: it must be more than {asked.Show(lace.Sides[i].Length - lace.FreeOf(i))}."));
        }

        asked.Throw();
        var (inner, outer) = lace.Within ? (lace.Free, lace.Sewn) : (lace.Sewn, lace.Free);
        var answer = new Answer(asked.Unit)
            .Figure("lace", "Lace to cut", lace.Lace, LaceCare.Holds(asked, lace.Ends, cut ? T($"and {asked.Show(lace.Seam)} beyond each mitre") : ""))
            .Figure("innerEdge", "Along its inner edge", inner)
            .Figure("outerEdge", "Along its outer edge", outer)
            .Figure("atCorners", "The corners add", lace.Lace - lace.Sewn - (2 * lace.Ends))
            .Table("corners", "Each corner",
                [new("corner", "After side"), new("turn", "Turn, degrees"), new("longer", "Free edge longer by"), new("adds", "Adds to the lace"), new("mitre", "Along the mitre"), new("mitreAngle", "Mitre to the edge, degrees")],
                lace.Sides.Select((s, i) => (s, i)).Where(c => c.s.Turn != 0).Select(c =>
                    (IReadOnlyList<object?>)[c.i + 1, c.s.Turn, lace.Gain(c.s.Turn), lace.AtCorner(c.s.Turn), lace.Mitre(c.s.Turn), 90 - (Math.Abs(c.s.Turn) / 2)]))
            .Note("At a square corner the mitre lies at 45 degrees; the lace is folded, basted, and trimmed to 1/16 in from the basting.", "Burton, School Sewing Based on Home Problems (1916), pars 146-147; McGlauflin (c. 1910)")
            .Note("Round any corner the outer edge is longer by twice the width times the tangent of half the turn: plain geometry. At a square corner that is twice the width, as in the books for lace that is eased.")
            .LayOutFirst();
        var turns = lace.Sides.Sum(s => s.Turn);
        if (round && Math.Abs(Math.Abs(turns) - 360) > ClosesWithin)
        {
            answer.Caution("does-not-close", T($"The turns come to {turns:0.##} degrees; an edge that closes turns by 360 in all. Measure the corners again, or see where it crosses itself."));
        }

        return answer.Drawn(T($"Lace of {asked.Show(lace.Width)} along {lace.Sides.Count} sides, its mitres drawn."), Picture(asked, lace, round));
    }

    private static Panel Picture(Asked asked, MitredLace lace, bool round)
    {
        var (edge, free) = Corners(lace, round);
        var sketch = new Sketch(120);
        var to = new Scaled([.. edge, .. free], Sketch.Margin, 8, sketch.Room, 94);
        if (round)
        {
            sketch.Area(to.At(edge), Ink.Cloth);
        }

        for (var i = 0; i + 1 < edge.Count; i++)
        {
            sketch.Area(to.At([edge[i], edge[i + 1], free[i + 1], free[i]]), Ink.Lace).Path(to.At([edge[i + 1], free[i + 1]]), Ink.Fold);
        }

        return sketch.Path(to.At(edge), Ink.Stitching)
            .Text(90, 114, T($"sewn edge {asked.Show(lace.Sewn)}, free edge {asked.Show(lace.Free)}; lines across the lace: mitres"), Ink.Caption).Panel();
    }

    /// <summary>The sewn edge walked from its start, and where the free edge has its mitres, in mm.</summary>
    private static (List<(double X, double Y)> Edge, List<(double X, double Y)> Free) Corners(MitredLace lace, bool round)
    {
        var (edge, free) = (new List<(double X, double Y)>(), new List<(double X, double Y)>());
        var (x, y, heading) = (0.0, 0.0, 0.0);
        var before = round ? -Curves.Radians(lace.Sides[^1].Turn) : 0;
        Add(before, 0);
        foreach (var (side, i) in lace.Sides.Select((s, i) => (s, i)))
        {
            (x, y) = (x + (side.Length.Mm() * Math.Cos(heading)), y + (side.Length.Mm() * Math.Sin(heading)));
            var next = heading + Curves.Radians(side.Turn);
            Add(heading, i == lace.Sides.Count - 1 && !round ? heading : next);
            heading = next;
        }

        return (edge, free);

        void Add(double from, double then)
        {
            var (middle, reach) = ((from + then) / 2, lace.Width.Mm() / Math.Cos((then - from) / 2) * (lace.Within ? -1 : 1));
            edge.Add((x, y));
            free.Add((x + (reach * Math.Sin(middle)), y - (reach * Math.Cos(middle))));
        }
    }
}
