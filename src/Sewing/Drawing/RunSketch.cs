using System.Globalization;

namespace HeirloomArchive.Sewing.Drawing;

/// <summary>
/// A run of tucks to scale: the flat cloth in as many strips as its numbers need, every line of tuck 3 numbered (fold 3, stitching 3a and 3b),
/// then the same cloth sewn. Where lines stand too close for every number, only some carry theirs; a long run has numbers at its folds only, a very long one at every second.
/// </summary>
public static class RunSketch
{
    private const double Top = 13, ClothHeight = 15, NumberRoom = 4.2, LetterRoom = 5.6;
    private const int MostStrips = 16, FewForBroadLines = 120, FewForEveryNumber = 200;

    /// <summary>The strips of a plan's drawing, the flat cloth first; 400 tucks stay under 200 KB of SVG.</summary>
    /// <param name="plan">One tuck or more.</param>
    public static IEnumerable<Panel> Of(TuckPlan plan) => [.. Flat(plan), Sewn(plan)];

    /// <summary>What they show, in words.</summary>
    public static string Words(TuckPlan plan) => N(
        plan.Lines.Count,
        $"The flat cloth, {plan.Cloth.ToText(plan.Unit)}, with {plan.Lines.Count} tuck: each fold numbered, with its two lines of stitching beside it. Below, the same sewn, {plan.Finished.ToText(plan.Unit)}.",
        $"The flat cloth, {plan.Cloth.ToText(plan.Unit)}, with {plan.Lines.Count} tucks: each fold numbered, with its two lines of stitching beside it. Below, the same sewn, {plan.Finished.ToText(plan.Unit)}.");

    private static IEnumerable<Panel> Flat(TuckPlan plan)
    {
        var strips = Strips(plan);
        for (var i = 0; i < strips; i++)
        {
            yield return FlatStrip(plan, i, strips);
        }
    }

    private static int Strips(TuckPlan plan) => Math.Clamp((int)Math.Ceiling(plan.Lines.Count * NumberRoom * 1.4 / new Sketch(1).Room), 1, MostStrips);

    private static Panel FlatStrip(TuckPlan plan, int strip, int strips)
    {
        var sketch = new Sketch(Top + ClothHeight + 7);
        var reach = plan.Cloth.Mm() / strips;
        var (from, to) = (strip * reach, (strip + 1) * reach);
        var scale = sketch.Room / reach;
        double X(double at) => Round(Sketch.Margin + ((Math.Clamp(at, from, to) - from) * scale));
        bool Here(Length at) => at.Mm() >= from - 1e-9 && at.Mm() < (strip == strips - 1 ? to + 1 : to - 1e-9);
        sketch.Text(Sketch.Margin, 5, strips == 1 ? T("The flat cloth") : T($"The flat cloth, strip {strip + 1} of {strips}"), Ink.Caption, 2.8, Anchor.Start)
            .Box(Sketch.Margin, Top, sketch.Room, ClothHeight, Ink.Cloth);
        foreach (var line in plan.Lines.Where(l => l.SecondStitch.Mm() > from && l.FirstStitch.Mm() < to))
        {
            var (first, second) = (X(line.FirstStitch.Mm()), X(line.SecondStitch.Mm()));
            sketch.Box(first, Top, Round(second - first), ClothHeight, Ink.TakenUp);
        }

        double lastNumber = -100, lastLetter = -100;
        foreach (var line in plan.Lines)
        {
            Upright(line.FirstStitch, Ink.Stitching);
            Upright(line.Fold, plan.Lines.Count > FewForBroadLines ? Ink.FoldFine : Ink.Fold);
            Upright(line.SecondStitch, Ink.Stitching);
            if (plan.Lines.Count > FewForEveryNumber && line.Tuck % 2 != 0)
            {
                continue;
            }

            lastNumber = Numbered(line.Fold, "", Top - 2, NumberRoom, lastNumber, Ink.Number, line.Tuck);
            if (plan.Lines.Count > FewForBroadLines)
            {
                continue;
            }

            lastLetter = Numbered(line.FirstStitch, "a", Top + ClothHeight + 4, LetterRoom, lastLetter, Ink.StitchNumber, line.Tuck);
            lastLetter = Numbered(line.SecondStitch, "b", Top + ClothHeight + 4, LetterRoom, lastLetter, Ink.StitchNumber, line.Tuck);
        }

        return sketch.Panel();

        void Upright(Length at, Ink ink)
        {
            if (Here(at))
            {
                sketch.Line(X(at.Mm()), Top, X(at.Mm()), Top + ClothHeight, ink);
            }
        }

        double Numbered(Length at, string letter, double y, double room, double last, Ink ink, int tuck)
        {
            if (!Here(at) || X(at.Mm()) - last < room)
            {
                return last;
            }

            sketch.Text(X(at.Mm()), y, tuck.ToString(CultureInfo.InvariantCulture) + letter, ink, 2.4);
            return X(at.Mm());
        }
    }

    private static Panel Sewn(TuckPlan plan)
    {
        var sketch = new Sketch(Top + ClothHeight + 5);
        // One strip of flat cloth: the sewn piece stands below it at the same scale.
        var scale = Strips(plan) == 1 ? sketch.Room / plan.Cloth.Mm() : sketch.Room / Math.Max(plan.Finished.Mm(), 1e-6);
        var low = Math.Min(0, plan.Lines.Min(l => Math.Min(l.FinishedFold.Mm(), l.FinishedStitch.Mm())));
        var high = Math.Max(plan.Finished.Mm(), plan.Lines.Max(l => Math.Max(l.FinishedFold.Mm(), l.FinishedStitch.Mm())));
        scale = Math.Min(scale, sketch.Room / Math.Max(high - low, 1e-6));
        double X(Length at) => Round(Sketch.Margin + ((at.Mm() - low) * scale));
        sketch.Text(Sketch.Margin, 5, T("The same, sewn"), Ink.Caption, 2.8, Anchor.Start);
        var edges = (X(Length.Zero), X(plan.Finished));
        sketch.Box(Math.Min(edges.Item1, edges.Item2), Top, Math.Abs(edges.Item2 - edges.Item1), ClothHeight, Ink.Cloth);
        double last = -100;
        foreach (var line in plan.Lines)
        {
            var (stitch, fold) = (X(line.FinishedStitch), X(line.FinishedFold));
            sketch.Box(Math.Min(stitch, fold), Top, Round(Math.Abs(fold - stitch)), ClothHeight, Ink.Tuck).Line(stitch, Top, stitch, Top + ClothHeight, Ink.Stitching);
            if (plan.Lines.Count <= FewForBroadLines)
            {
                sketch.Line(fold, Top, fold, Top + ClothHeight, Ink.FoldFine);
            }

            if (Math.Abs(fold - last) >= NumberRoom)
            {
                sketch.Text(fold, Top - 2, line.Tuck.ToString(CultureInfo.InvariantCulture), Ink.Number, 2.4);
                last = fold;
            }
        }

        return sketch.Panel();
    }

    /// <summary>To a hundredth of a millimetre of the drawing: finer is not seen, and 400 tucks stay small.</summary>
    private static double Round(double at) => Math.Round(at, 2);
}
