using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>
/// Corded tucks: a cord lies in the fold, and the cloth must go round it. Plain geometry of a round, firm cord of diameter D in thin cloth,
/// r = D/2, the tuck w from its stitching to the outside of the cord: from the stitching the cloth runs straight to the cord (t = √((w-r)² - r²) on each
/// side), then round its far side (r × (π - arccos(r/(w-r))) on each side). What that is longer than 2w is what the cord adds. It falls as the tuck grows wider:
/// most where the stitching lies hard against the cord (w = D): πD - 2D; least where the tuck is much wider than the cord: πD/2 - D.
/// A soft cord pressed flat adds less, thick cloth more: the strip decides.
/// </summary>
public static class CordedTucks
{
    /// <summary>What a round cord adds to the cloth of one tuck, floating point inside, rounded once to the nanometre.</summary>
    /// <param name="width">From the stitching to the outside of the cord; at least the diameter.</param>
    /// <param name="cord">The cord's diameter, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cord is thicker than the tuck is wide.</exception>
    public static Length Adds(Length width, Length cord)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cord, width);
        var r = cord.Nanometres / 2.0;
        var away = width.Nanometres - r;
        var loop = (2 * Math.Sqrt(Math.Max(0, (away * away) - (r * r)))) + (2 * r * (Math.PI - Math.Acos(Math.Min(1, r / away))));
        return Length.FromNanometres((long)Math.Round(loop - (2.0 * width.Nanometres)));
    }

    /// <summary>The least a round cord can add: (π/2 - 1) D.</summary>
    public static Length Least(Length cord) => cord.Times((Math.PI / 2) - 1);

    /// <summary>The most it can add: (π - 2) D.</summary>
    public static Length Most(Length cord) => cord.Times(Math.PI - 2);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "corded",
        Shelf = Shelf.Tucks,
        Title = "Corded tucks",
        Lead = "How much more cloth a cord in the fold can take, and with a strip you have sewn over the cord where each line falls.",
        Asks =
        [
            RunAsks.Tucks("5"),
            Ask.Above("width", "Width of a tuck", "1/4 in", "From the stitching to the outside of the cord, when sewn."),
            Ask.Above("cord", "Thickness of the cord", "2 mm", "Its diameter."),
            .. AskedTucks.Apart("1/2 in"),
            RunAsks.LiesAsk(hanging: true), RunAsks.Lead, RunAsks.Trail, RunAsks.Centre, RunAsks.FinishedAtMost, RunAsks.ClothAtMost,
            RunAsks.Strip with { Hint = "Tucks sewn over this cord at this width from the fold, measured after pressing or washing." },
        ],
        Example = """{"tucks":5,"width":"1/4 in","cord":"2 mm","space":"1/2 in","lead":"1 in","trail":"1 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (tucks, width, cord) = (asked.Whole("tucks"), asked.Length("width"), asked.Length("cord"));
        asked.Check(cord <= width, "cord", T($"{asked.Show(cord)} does not go into a tuck of {asked.Show(width)}: it can be at most as thick as the tuck is wide."));
        asked.Throw();
        var plan = RunAsks.Plan(asked, Lies.TowardsStart, [new(tucks, width, RunAsks.ApartOf(asked))], [], RunAsks.Alike);
        var all = plan.Lines.Count;
        var (least, most, round) = (Least(cord), Most(cord), Adds(width, cord));
        var sewn = plan.CorrectionPerTuck is not null;
        RunLimits.Check(asked, plan, (plan.Lines[0].Half is null ? 1 : 2) * (tucks - 1));
        var answer = new Answer(asked.Unit)
            .Figure("leastEach", "The cord adds at least", least, "to each tuck, where it is much wider than the cord", RunAsks.Fine(asked.Unit, least))
            .Figure("mostEach", "and at most", most, "where the stitching lies hard against the cord", RunAsks.Fine(asked.Unit, most))
            .Figure("roundEach", "A round, firm cord here", round, "at this width, thin cloth", RunAsks.Fine(asked.Unit, round))
            .Figure("clothLeast", "Cloth, at least", sewn ? null : plan.Cloth + (all * least))
            .Figure("clothMost", "Cloth, at most", sewn ? null : plan.Cloth + (all * most))
            .Figure("finishedSewn", "Finished", plan.Finished)
            .Caution("cords", "Cords on children's clothes: none at the neck or hood that can draw or catch, ends sewn in. The laws where you are come first.");
        var words = T($"A cord of {RunAsks.ShowFine(asked, cord)} in the fold, cut across: the cloth runs round it.");
        answer.Note("Reckoned for a round, firm cord in thin cloth. A soft cord pressed flat adds less than the least, thick cloth adds more: sew a strip over the cord, stitching at the width from the fold, and let it decide.")
            .Note("Shrink the cord first, and join it to the cloth at one end only until the tuck is sewn. Common practice.");
        if (!sewn)
        {
            if (asked.LengthOrNull("clothAtMost") is { } there && there < plan.Cloth + (all * most))
            {
                answer.Caution("cloth-may-not-reach", T($"There are {asked.Show(there)} of cloth, and with a round cord in each tuck it may take {asked.Show(plan.Cloth + (all * least))} to {asked.Show(plan.Cloth + (all * most))}."));
            }

            return answer.Caution("no-strip", "Without a strip the lines can't be placed: only the least and the most cloth are known.").Drawn(words, Picture(asked, width, cord));
        }

        var by = plan.CorrectionPerTuck!.Value;
        if (by < least || by > most)
        {
            answer.Caution("strip-beyond-cord", T($"By the strip each tuck takes {RunAsks.ShowFine(asked, by)} more than twice its width; a round cord of {RunAsks.ShowFine(asked, cord)} would add {RunAsks.ShowFine(asked, least)} to {RunAsks.ShowFine(asked, most)}. The cord may be soft, or the cloth thick: the strip is right if it was measured well."));
        }

        return answer.Tell(plan).DrawnRun(plan, words, Picture(asked, width, cord));
    }

    /// <summary>The fold cut across, to scale: two layers from the stitching to the cord, then round it.</summary>
    private static Panel Picture(Asked asked, Length width, Length cord)
    {
        var sketch = new Sketch(52);
        var (w, r) = (width.Mm(), cord.Mm() / 2);
        var scale = Math.Min(100 / w, 15 / r);
        var (left, middle) = (30.0, 22.0);
        var (x, radius) = (left + ((w - r) * scale), r * scale);
        var angle = Math.Acos(Math.Min(1, r / Math.Max(w - r, r))) * 180 / Math.PI;
        sketch.Area(Sketch.Arc(x, middle, radius, 0, 360), Ink.Lace)
            .Path([(left, middle), .. Sketch.Arc(x, middle, radius + 0.3, -180 + angle, 180 - angle), (left, middle)], Ink.Fold)
            .Path([(left - 20, middle - 0.6), (left, middle - 0.3)], Ink.Fold).Path([(left - 20, middle + 0.6), (left, middle + 0.3)], Ink.Fold)
            .Line(left, middle - 4, left, middle + 4, Ink.Stitching);
        return sketch.Across(left, x + radius, 46, T($"tuck {asked.Show(width)}")).Down(x + radius + 4, middle - radius, middle + radius, T($"cord {RunAsks.ShowFine(asked, cord)}")).Panel();
    }
}
