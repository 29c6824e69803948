using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>What <see cref="Breadths"/> asks and answers.</summary>
internal static class BreadthsSum
{
    private const int MostDrawnApart = 400;

    public static Sum Sum { get; } = new()
    {
        Slug = "breadths",
        Shelf = Shelf.Cloth,
        Title = "Breadths and their joins",
        Lead = "How many breadths of a cloth make up a wide piece, where the joins fall, which of them a tuck can hide, and what is left over.",
        Asks =
        [
            Ask.Above("loom", "Width of the cloth", "36 in", "From edge to edge as it lies on the table."),
            Ask.Plain("selvage", "Selvage cut away at each side", "1/4 in", "Old cloth is often joined by its selvages: then leave it at 0."),
            Ask.Plain("seam", "A join takes from each edge", "1/4 in"),
            Ask.Above("wanted", "Flat cloth wanted across", "100 in", "Seams between breadths not in it. With tucks that run with the joins it may be left out: then it is the flat cloth of the tucks.").Optional(),
            Ask.Above("length", "Length of each breadth", "40 in", "As cut, hem in it; what tucks across the breadths take up is added."),
            Ask.Flag("round", "Joined all round", "A skirt whose last breadth is sewn to the first."),
            Ask.Choice("tucksRun", "The tucks run", "A join runs along the cloth. Tucks hide it only when their folds run along the cloth as well.",
                ("along", "along the cloth, with the joins"), ("across", "across the cloth, over the joins")).Optional(),
            AskedTucks.Run("run", "The tucks", "Along the cloth: counted across the breadths. Across the cloth: counted along a breadth."),
        ],
        Example = """
            {"loom":"36 in","selvage":"1/4 in","seam":"1/4 in","length":"40 in","tucksRun":"along",
             "run":{"groups":[{"tucks":5,"width":"1/2 in","space":"1 in"},{"tucks":5,"width":"1/2 in","space":"1 in"},{"tucks":5,"width":"1/2 in","space":"1 in"}],"between":["18 in","18 in"],"lead":"10 in","trail":"10 in"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var plan = asked.Part("run") is { } run ? AskedTucks.Plan(run) : null;
        var along = asked.Text("tucksRun") != "across";
        var wanted = asked.LengthOrNull("wanted") ?? (along ? plan?.Cloth : null);
        asked.Check(wanted is not null, "wanted", "How wide must the flat cloth be? Give it, or the tucks that run along the cloth.");
        asked.Check(!along || plan is null || wanted == plan.Cloth, "wanted",
            T($"{asked.Show(wanted ?? default)} is not the {asked.Show(plan?.Cloth ?? default)} of flat cloth that the tucks come to: leave it out, or set the plain cloth before and after."));
        var length = asked.Length("length") + (along || plan is null ? Length.Zero : plan.TakeUp);
        var breadths = new Breadths
        {
            Wanted = wanted ?? default, Loom = asked.Length("loom"), Selvage = asked.Length("selvage"), Seam = asked.Length("seam"), Round = asked.Flag("round"),
            Hides = along && plan is not null ? Breadths.UnderTucks(plan) : [],
        };
        var least = 2 * (breadths.Selvage + breadths.Seam);
        asked.Check(breadths.Loom > least, "loom", T($"{asked.Show(breadths.Loom)} is used up by selvages and seams: it must be more than {asked.Show(least)}."));
        asked.Throw();
        var plain = (breadths with { Hides = [] }).Joins;
        var joins = breadths.Joins;
        asked.Check(joins is not null && plain is not null, "loom", T($"{asked.Show(breadths.Loom)} of cloth would need more than {Breadths.Most} breadths: give a wider cloth."));
        asked.Throw();
        return Said(asked, breadths, plain!.Count + 1, joins!, length, along, plan);
    }

    private static Answer Said(Asked asked, Breadths breadths, int fewest, IReadOnlyList<BreadthJoin> joins, Length length, bool along, TuckPlan? plan)
    {
        var cut = breadths.CutWidths(joins);
        var used = Length.FromNanometres(cut.Sum(c => c.Nanometres));
        var (count, showing) = (cut.Count, joins.Count(j => j.UnderTuck is null) + (breadths.Round ? 1 : 0));
        var answer = new Answer(asked.Unit)
            .Figure("breadths", "Breadths to cut", count)
            .Figure("fewest", "Fewest that would do", fewest, "without regard to hiding the joins")
            .Figure("cutLength", "Each breadth long", length, along || plan is null ? "" : T($"with the {asked.Show(plan.TakeUp)} the tucks take up"))
            .Figure("cloth", "Cloth to buy", count * length)
            .Figure("joins", "Joins", joins.Count + (breadths.Round ? 1 : 0), breadths.Round ? "the closing one in it" : "")
            .Figure("showing", "Joins that show", showing, breadths.Round ? "the closing one in it" : "")
            .Figure("wasteAcross", "Left over across all breadths", (count * breadths.Loom) - used, "selvages in it")
            .Figure("wastePercent", "Left over, per cent", decimal.Round(100 - (100m * used.Nanometres / ((decimal)count * breadths.Loom.Nanometres)), 2))
            .Table("pieces", "Breadths from start to end", [new("breadth", "Breadth"), new("cut", "Cut to, seams in it"), new("joinAt", "Join at its end"), new("underTuck", "Under tuck")],
                cut.Select((c, i) => (IReadOnlyList<object?>)[i + 1, c, i < joins.Count ? joins[i].Position : breadths.Round ? breadths.Wanted : null, i < joins.Count ? joins[i].UnderTuck : null]))
            .Note(plan is null
                ? "Only tucks folded along the warp, as the joins run, can hide a join; tucks folded along the weft cross it. Give the tucks to see which joins they cover."
                : along
                ? "These tucks are folded along the warp, as the joins run: a join set at the stitching line beneath a tuck is caught in it and covered."
                : "These tucks are folded along the weft, across the breadths: each crosses every join, so none can hide one. Match the stitching lines at the joins and press the seams open or fell them flat before tucking.")
            .Note("Measure positions on the flat cloth from the start, seams not counted.");
        if (along && plan is not null && joins.Any(j => j.UnderTuck is null))
        {
            answer.Caution("join-shows", "No tuck lies within the reach of a breadth where a join shows: move a group, or let that join fall at a placket or under an arm.");
        }

        var narrow = joins.Where(j => j.UnderTuck is { } tuck && plan!.Lines[tuck - 1].Width < breadths.Seam).Select(j => j.UnderTuck!.Value).ToList();
        if (narrow.Count > 0)
        {
            answer.Caution("seam-wider-than-tuck", T($"The seam of {asked.Show(breadths.Seam)} is wider than tuck {narrow[0]}, which is to cover it: it would look out behind the fold. Take a narrower seam or a wider tuck."));
        }

        return answer.Drawn(T($"Breadths: {count}; joins under a tuck: {joins.Count(j => j.UnderTuck is not null)}."), Picture(asked, breadths, joins, along ? plan : null));
    }

    private static Panel Picture(Asked asked, Breadths breadths, IReadOnlyList<BreadthJoin> joins, TuckPlan? plan)
    {
        var sketch = new Sketch(58);
        var scale = sketch.ScaleFor(breadths.Wanted);
        double X(Length at) => Sketch.Margin + (at.Mm() * scale);
        sketch.Box(Sketch.Margin, 16, sketch.Room, 28, Ink.Cloth);
        var lines = plan?.Lines ?? [];
        if (lines.Count > MostDrawnApart)
        {
            // One line up and down for all folds: a drawing of thousands stays small.
            sketch.Path(lines.SelectMany((l, i) => new[] { (X(l.Fold), i % 2 == 0 ? 16.0 : 44), (X(l.Fold), i % 2 == 0 ? 44.0 : 16) }), Ink.FoldFine);
        }
        else
        {
            foreach (var line in lines)
            {
                sketch.Box(X(line.FirstStitch), 16, X(line.SecondStitch) - X(line.FirstStitch), 28, Ink.TakenUp).Line(X(line.Fold), 16, X(line.Fold), 44, Ink.FoldFine);
            }
        }

        Length[] edges = [Length.Zero, .. joins.Select(j => j.Position), breadths.Wanted];
        for (var i = 1; i < edges.Length; i++)
        {
            sketch.Line(X(edges[i]), 12, X(edges[i]), 48, i < edges.Length - 1 || breadths.Round ? Ink.CutEdge : Ink.Datum);
            if (edges.Length <= 25)
            {
                sketch.Text((X(edges[i - 1]) + X(edges[i])) / 2, 13, $"{i}");
            }
        }

        return sketch.Text(90, 54, T($"flat cloth {asked.Show(breadths.Wanted)}; dotted lines: joins"), Ink.Caption).Panel();
    }
}
