using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Release tucks: stitched part of the way, then let go; below the stitching the cloth spreads.</summary>
public static class ReleaseTucks
{
    /// <summary>The cloth that equal tucks set free: the sum of 2w, exact.</summary>
    /// <param name="tucks">1 or more.</param>
    /// <param name="width">Above zero.</param>
    public static Length SetFree(int tucks, Length width) => 2 * tucks * width;

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "release",
        Shelf = Shelf.Tucks,
        Title = "Release tucks",
        Lead = "Tucks stitched part of the way down: how wide the piece is above and below, and how full that is.",
        Asks =
        [
            RunAsks.Tucks("7"),
            RunAsks.Width("1/8 in"),
            .. AskedTucks.Apart("1/4 in"),
            Ask.Above("sewn", "Length sewn", "4 in", "From the upper edge to where the stitching ends."),
            Ask.Above("length", "Length of the piece", "12 in", "Twice the length sewn when it is left out, for the drawing.").Optional(),
            RunAsks.LiesAsk(hanging: false), RunAsks.Lead, RunAsks.Trail, RunAsks.Centre, RunAsks.FinishedAtMost, RunAsks.ClothAtMost, RunAsks.Strip,
        ],
        Example = """{"tucks":7,"width":"1/8 in","space":"1/4 in","sewn":"4 in","length":"12 in","lead":"1 in","trail":"1 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (tucks, width, sewn) = (asked.Whole("tucks"), asked.Length("width"), asked.Length("sewn"));
        var length = asked.LengthOrNull("length") ?? 2 * sewn;
        asked.Check(sewn <= length, "sewn", T($"{asked.Show(sewn)} is longer than the piece of {asked.Show(length)}: it can be at most that, and then nothing is released."));
        asked.Throw();
        var plan = RunAsks.Plan(asked, Lies.TowardsEnd, [new(tucks, width, RunAsks.ApartOf(asked))], [], RunAsks.Alike);
        RunLimits.Check(asked, plan, (plan.Lines[0].Half is null ? 1 : 2) * (tucks - 1));
        var free = SetFree(plan.Lines.Count, width);
        var answer = new Answer(asked.Unit)
            .Figure("setFree", "Cloth set free", free, "twice the width of each tuck")
            .Figure("widthAbove", "Wide where it is sewn", plan.Finished)
            .Figure("widthBelow", "Wide where it is let go", plan.Cloth)
            .Figure("fullness", "Fullness below", plan.Cloth.Over(plan.Finished), "wide below to wide above")
            .Figure("released", "Length let go", length - sewn)
            .Tell(plan);
        if (plan.CorrectionPerTuck is { } correction && correction != Length.Zero)
        {
            answer.Note(T($"By your strip the cloth's own thickness takes {asked.Show(plan.TakeUp - free)} more or less where it is sewn; below the stitching all of it lies flat again."));
        }

        return answer
            .Note("Fasten the end of each line of stitching well: it is where a release tuck tears. Common practice.")
            .DrawnRun(plan, T($"Above the piece sewn for {asked.Show(sewn)}, and spreading below to {asked.Show(plan.Cloth)}."), Picture(asked, plan, sewn, length));
    }

    /// <summary>The piece as it hangs: as wide as finished where it is sewn, spreading to the flat cloth at its lower edge.</summary>
    private static Panel Picture(Asked asked, TuckPlan plan, Length sewn, Length length)
    {
        var (above, below) = (plan.Finished.Mm(), plan.Cloth.Mm());
        var (upper, whole) = (sewn.Mm(), length.Mm());
        var place = new Scaled([(-below / 2, 0), (below / 2, whole)], 12, 10, Sketch.PageWidth - 44, 62);
        var sketch = new Sketch(82);
        sketch.Area(place.At([(-above / 2, 0), (above / 2, 0), (above / 2, upper), (below / 2, whole), (-below / 2, whole), (-above / 2, upper)]), Ink.Cloth);
        // Of many tucks some stand for all: their lines are all in the strips below.
        var every = Math.Max(1, plan.Lines.Count / 40);
        foreach (var line in plan.Lines.Where((_, i) => i % every == 0))
        {
            var stitch = line.FinishedStitch.Mm() - (above / 2);
            var fold = line.FinishedFold.Mm() - (above / 2);
            var (x, y) = place.At(stitch, 0);
            var foot = place.At(stitch, upper);
            sketch.Area(place.At([(stitch, 0), (fold, 0), (fold, upper), (stitch, upper)]), Ink.Tuck).Line(x, y, foot.X, foot.Y, Ink.Stitching);
            if (whole > upper)
            {
                var spread = place.At(fold * below / above, whole);
                var from = place.At(fold, upper);
                sketch.Line(from.X, from.Y, spread.X, spread.Y, Ink.FoldFine);
            }
        }

        var (top, bottom) = (place.At(above / 2, 0), place.At(below / 2, whole));
        sketch.Across(place.At(-above / 2, 0).X, top.X, 7, asked.Show(plan.Finished)).Across(place.At(-below / 2, 0).X, bottom.X, bottom.Y + 6, asked.Show(plan.Cloth));
        return sketch.Down(bottom.X + 4, top.Y, place.At(0, upper).Y, T($"sewn {asked.Show(sewn)}")).Panel();
    }
}
