using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>One spacing in its three meanings: the plain cloth seen, stitching to stitching when sewn, fold to fold on the flat cloth.</summary>
/// <remarks>Butterick, The New Dressmaker (1921) p. 98 means the first; Krolik, Hand Sewing Lessons (Model 6) the second; the third is met too.</remarks>
public static class SpacingWays
{
    /// <summary>What the two meanings besides the space have more than it, for neighbours i and i+1.</summary>
    /// <param name="width">Of the first, above zero.</param>
    /// <param name="next">Of the second, above zero; of a pair in the middle the same.</param>
    /// <param name="lies">Of a centre lie the pair in the middle is meant.</param>
    /// <param name="correction">By a strip; zero without one.</param>
    public static (Length StitchToStitch, Length FoldToFold) Beyond(Length width, Length next, Lies lies, Length correction) => lies switch
    {
        Lies.TowardsStart => (next, width + (2 * next) + correction),
        Lies.FromCentre => (Length.Zero, 2 * width),
        Lies.TowardsCentre => (2 * width, 4 * width + (2 * correction)),
        _ => (width, (2 * width) + next + correction),
    };

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "spacing",
        Shelf = Shelf.Tucks,
        Title = "How far apart, in three meanings",
        Lead = "Give one spacing as your book means it, and see it in all three: the plain cloth, stitching to stitching, fold to fold.",
        Asks =
        [
            Ask.AnyLength("apart", "Apart", "1/4 in", "Below 0 only for tucks that overlap."),
            RunAsks.Way,
            RunAsks.Width("1/8 in"),
            Ask.Above("nextWidth", "Width of the next tuck", "1/8 in", "Where it differs.").Optional(),
            Ask.Choice("lies", "The tucks lie", "From or towards the centre: the two in the middle.",
                ("towards-end", "towards the next tuck"), ("towards-start", "back from the next tuck"), ("from-centre", "from the centre"), ("towards-centre", "towards the centre")).Optional(),
            RunAsks.Strip,
        ],
        Example = """{"apart":"1/4 in","way":"stitch-to-stitch","width":"1/8 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (width, lies) = (asked.Length("width"), RunAsks.LiesOf(asked, Lies.TowardsEnd));
        var next = asked.LengthOrNull("nextWidth") ?? width;
        var middle = lies is Lies.FromCentre or Lies.TowardsCentre;
        asked.Check(!middle || next == width, "nextWidth", T($"{asked.Show(next)} is not the {asked.Show(width)} of its mirror image: in the middle of a centre lie both are alike."));
        asked.Throw();
        var plan = middle ? InMiddle(asked, width, lies) : RunAsks.Plan(asked, lies, [new(1, width, default), new(1, next, default)],
            [RunAsks.SpacingOf(asked.Length("apart"), asked.Text("way"))], path => Field(path, "nextWidth"));
        var spacing = plan.Spacings[0];
        var answer = new Answer(asked.Unit)
            .Figure("space", "The plain cloth seen", spacing.Space, spacing.Space < Length.Zero ? "below 0: they overlap" : spacing.Space == Length.Zero ? "the tucks meet" : "")
            .Figure("stitchToStitch", "Stitching to stitching, sewn", spacing.StitchToStitch)
            .Figure("foldToFold", "Fold to fold, on the flat cloth", spacing.FoldToFold)
            .Figure("correctionPerTuck", "More for each tuck, by the strip", plan.CorrectionPerTuck, inUnit: RunAsks.Fine(asked.Unit, plan.CorrectionPerTuck));
        foreach (var caution in plan.Cautions)
        {
            answer.Caution(caution.Code, caution.Text);
        }

        return answer
            .Note("“Apart” is the plain cloth, from the sewing of one tuck to the edge of the next.", "Butterick, The New Dressmaker (1921), p. 98")
            .Note("The space is from stitching to stitching, so half-inch tucks half an inch apart meet.", "Krolik, Hand Sewing Lessons, Model 6")
            .Note("Fold to fold on the flat cloth is what you mark when you crease all the tucks before sewing; it is plain geometry.")
            .Drawn(T($"The two tucks on the flat cloth, fold to fold {asked.Show(spacing.FoldToFold)}; sewn, {asked.Show(spacing.Space)} of plain cloth and {asked.Show(spacing.StitchToStitch)} from stitching to stitching."), Picture(asked, plan));
    }

    private static TuckPlan InMiddle(Asked asked, Length width, Lies lies)
    {
        var correction = RunAsks.StripOf(asked) is { Tucks: > 0 } strip ? strip.Correction : Length.Zero;
        var (stitch, fold) = Beyond(width, width, lies, correction);
        var centre = asked.Length("apart") - (asked.Text("way") switch { "stitch-to-stitch" => stitch, "fold-to-fold" => fold, _ => Length.Zero });
        return RunAsks.Make(asked, new()
        {
            Groups = [new(1, width, default)],
            Centre = centre,
            Trail = width,
            Lies = lies,
            TestStrip = RunAsks.StripOf(asked),
            Unit = asked.Unit,
        }, path => Field(path, "width"));
    }

    private static string Field(string path, string second) => path.StartsWith("between", StringComparison.Ordinal) || path is "centre" or "trail" ? "apart"
        : path == "groups[1].width" ? second : path.StartsWith('g') ? "width" : path;

    /// <summary>Flat above, sewn below, at one scale, with a line of measure for each meaning.</summary>
    private static Panel Picture(Asked asked, TuckPlan plan)
    {
        const double flat = 16, sewn = 48, high = 14;
        var sketch = new Sketch(78);
        var (one, two) = (plan.Lines[0], plan.Lines[1]);
        var before = Length.FromNanometres((one.Width + two.Width).Nanometres / 2);
        var low = new[] { one.FirstStitch, one.FinishedFold, two.FinishedFold }.Min() - before;
        var far = new[] { two.SecondStitch, two.FinishedFold, one.FinishedFold }.Max() + before;
        var scale = sketch.ScaleFor(far - low);
        double X(Length at) => Sketch.Margin + ((at - low).Mm() * scale);
        sketch.Text(Sketch.Margin, 5, T("The flat cloth"), Ink.Caption, 2.8, Anchor.Start).Box(Sketch.Margin, flat, sketch.Room, high, Ink.Cloth);
        foreach (var line in plan.Lines)
        {
            sketch.Box(X(line.FirstStitch), flat, X(line.SecondStitch) - X(line.FirstStitch), high, Ink.TakenUp)
                .Line(X(line.FirstStitch), flat, X(line.FirstStitch), flat + high, Ink.Stitching)
                .Line(X(line.Fold), flat, X(line.Fold), flat + high, Ink.Fold)
                .Line(X(line.SecondStitch), flat, X(line.SecondStitch), flat + high, Ink.Stitching);
        }

        sketch.Across(X(one.Fold), X(two.Fold), flat - 3, T($"fold to fold {asked.Show(plan.Spacings[0].FoldToFold)}"));
        var end = X(two.FinishedStitch + before + two.Width);
        sketch.Text(Sketch.Margin, sewn - 9, T("Sewn"), Ink.Caption, 2.8, Anchor.Start).Box(Sketch.Margin, sewn, Math.Min(end - Sketch.Margin, sketch.Room), high, Ink.Cloth);
        foreach (var line in plan.Lines)
        {
            var (stitch, fold) = (X(line.FinishedStitch), X(line.FinishedFold));
            sketch.Box(Math.Min(stitch, fold), sewn, Math.Abs(fold - stitch), high, Ink.Tuck)
                .Line(fold, sewn, fold, sewn + high, Ink.Fold).Line(stitch, sewn, stitch, sewn + high, Ink.Stitching);
        }

        var (from, to) = Seen(one, two);
        sketch.Across(X(from), X(to), sewn - 3, T($"plain cloth {asked.Show(plan.Spacings[0].Space)}"));
        return sketch.Across(X(one.FinishedStitch), X(two.FinishedStitch), sewn + high + 7, T($"stitching to stitching {asked.Show(plan.Spacings[0].StitchToStitch)}")).Panel();
    }

    /// <summary>The edges between which the plain cloth is seen, by the way each tuck lies.</summary>
    private static (Length From, Length To) Seen(TuckLine one, TuckLine two) =>
        (one.FinishedFold > one.FinishedStitch ? one.FinishedFold : one.FinishedStitch, two.FinishedFold > two.FinishedStitch ? two.FinishedStitch : two.FinishedFold);
}
