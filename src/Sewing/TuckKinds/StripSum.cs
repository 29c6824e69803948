using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>The sum of <see cref="StripMean"/>.</summary>
internal static class StripSum
{
    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "strip",
        Shelf = Shelf.Tucks,
        Title = "Test strips and the thickness of the cloth",
        Lead = "From one or several strips of tucks you have sewn: how much more than twice its width each tuck takes, and how sure that is.",
        Asks =
        [
            Ask.Rows("strips", "Strips", 1, 20, "Sewn on the same grain with the same thread and needle.",
                Ask.Whole("tucks", "Tucks", 1, TuckRun.MostInGroup, "10"),
                Ask.Above("width", "Width as marked", "1/8 in"),
                Ask.Above("sewnWidth", "Width as sewn", "1/8 in", "If you measured it.").Optional(),
                Ask.Above("flat", "Before", "12 in"),
                Ask.Above("finished", "After", "9 7/16 in")),
            Ask.Above("planWidth", "Width of the plan's tucks", "1/8 in", "That of the first strip when it is left out.").Optional(),
            Ask.Choice("measured", "The strips were measured", "As the piece itself will be treated.",
                ("pressed", "after pressing"), ("washed", "after washing"), ("as-sewn", "as they came from the needle")).Optional(),
        ],
        Example = """
            {"strips":[{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"},{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 15/32 in"},{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"}],
             "planWidth":"1/8 in","measured":"pressed"}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var rows = asked.Rows("strips");
        var strips = rows.Select(r => new TestStrip(r.Whole("tucks"), r.Length("width"), r.Length("flat"), r.Length("finished"), r.LengthOrNull("sewnWidth"))).ToList();
        foreach (var (row, strip) in rows.Zip(strips))
        {
            row.Check(strip.Flat > strip.Finished, "finished", T($"{row.Show(strip.Finished)} after is not less than the {row.Show(strip.Flat)} before: tucks take up cloth, it must be less."));
        }

        asked.Throw();
        var width = asked.LengthOrNull("planWidth") ?? strips[0].Width;
        var mean = StripMean.Of(strips, width);
        LengthUnit? Fine(Length length) => RunAsks.Fine(asked.Unit, length);
        var answer = new Answer(asked.Unit)
            .Figure("correctionPerTuck", "More than twice its width, each tuck", mean.Mean, "over all tucks; below 0: less", Fine(mean.Mean))
            .Figure("takeUpEach", T($"A tuck of {asked.Show(width)} takes up"), (2 * width) + mean.Mean)
            .Figure("strips", "Strips", strips.Count).Figure("tucks", "Tucks in all", mean.Tucks)
            .Figure("least", "Least of a strip", mean.Each.Min(), inUnit: Fine(mean.Each.Min())).Figure("most", "Most of a strip", mean.Each.Max(), inUnit: Fine(mean.Each.Max()))
            .Figure("spread", "They differ by", strips.Count > 1 ? mean.Spread : null, strips.Count > 1 ? "" : "one strip shows no difference", Fine(mean.Spread))
            .Figure("measured", "Measured", asked.Has("measured") ? T(asked.Text("measured")) : null, asked.Has("measured") ? "" : "not said: it should be after pressing or washing, as the piece will be")
            .Table("each", "Each strip", [new("strip", "Strip"), new("tucks", "Tucks"), new("width", "Width"), new("takenUp", "A tuck took up"), new("correction", "More than twice its width"), new("correctionInMm", "That in mm")],
                strips.Select((s, i) => (IReadOnlyList<object?>)[i + 1, s.Tucks, s.Width, s.TakenUp, s.Correction, decimal.Round(s.Correction.Millimetres, 3)]));
        if (mean.Together is { } together)
        {
            answer.Table("testStrip", "One strip that stands for all, to send in a plan", [new("tucks", "Tucks"), new("width", "Width"), new("flat", "Before"), new("finished", "After")],
                [[together.Tucks, together.Width, together.Flat, together.Finished]]);
        }

        Cautions(asked, answer, strips, mean, width);
        return answer
            .Note("The mean counts each tuck once, so that a longer strip weighs more. A strip read to the nearest 1/16 in at both measures can be 1/16 in out, shared by its tucks: ten tucks or more in all, and strips that agree within that, are taken as sure. These limits are ours.")
            .Note("Press or wash the strip as the piece will be, let it dry and lie, and measure then. Common practice.")
            .Note("For twin-needle pin tucks a strip is the only way; there the take-up itself is used, with no fold in it.")
            .Drawn(N(
                strips.Count,
                $"The correction of {strips.Count} strip, {RunAsks.ShowFine(asked, mean.Mean)}.",
                $"The correction of each of {strips.Count} strips beside their mean of {RunAsks.ShowFine(asked, mean.Mean)}."), Picture(asked, strips, mean));
    }

    private static void Cautions(Asked asked, Answer answer, List<TestStrip> strips, StripMean mean, Length width)
    {
        if (mean.TooFew)
        {
            answer.Caution("strip-too-few", N(
                mean.Tucks,
                $"{mean.Tucks} tuck is too few to be sure: sew {StripMean.EnoughTucks} or more, so that a reading's error is shared.",
                $"{mean.Tucks} tucks are too few to be sure: sew {StripMean.EnoughTucks} or more, so that a reading's error is shared."));
        }

        if (strips.Count == 1)
        {
            answer.Caution("strip-only-one", "One strip does not show how evenly you sew: a second and a third would.");
        }

        if (mean.TooScattered)
        {
            answer.Caution("strip-too-scattered", T($"The strips differ by {RunAsks.ShowFine(asked, mean.Spread)} a tuck, more than careful reading explains: measure them again, or sew them more alike, before you trust the mean."));
        }

        var others = strips.Select(s => s.Width).Where(w => w != width).Distinct().ToList();
        if (others.Count > 0)
        {
            answer.Caution("strip-other-width", T($"Strips with tucks of {string.Join(", ", others.Select(asked.Show))} stand for a plan of {asked.Show(width)}: sew them at that width to be sure."));
        }

        foreach (var strip in strips.Where(s => s.SewnWidth is { } sewn && sewn != s.Width).DistinctBy(s => (s.Width, s.SewnWidth)))
        {
            answer.Caution("strip-sewn-width", T($"Tucks marked {asked.Show(strip.Width)} measured {asked.Show(strip.SewnWidth!.Value)} when sewn: the sum keeps to what was marked; sew on the line, or mark what is sewn."));
        }

        if (2 * Math.Abs(mean.Mean.Nanometres) > width.Nanometres)
        {
            answer.Caution("strip-correction", T($"{asked.Show(mean.Mean)} a tuck is more than half a tuck: count and measure again."));
        }

        if (asked.Text("measured") == "as-sewn")
        {
            answer.Caution("strip-not-pressed", "As it comes from the needle a strip is not what the piece will be: press or wash it as the piece, and measure again.");
        }

        if (mean.Together is null)
        {
            answer.Caution("strip-too-many", "Together they have more than 1 000 tucks or take up nothing: send one of them in a plan.");
        }
    }

    /// <summary>A row for each strip: its correction as a bar from zero, the mean as a line through all.</summary>
    private static Panel Picture(Asked asked, List<TestStrip> strips, StripMean mean)
    {
        const double row = 7, left = 30, right = 150;
        var sketch = new Sketch(20 + (row * strips.Count));
        var all = mean.Each.Append(Length.Zero).Append(mean.Mean).Select(l => l.Mm()).ToList();
        var (low, high) = (all.Min(), all.Max());
        double X(Length at) => high - low < 1e-9 ? left : left + ((at.Mm() - low) * (right - left) / (high - low));
        for (var i = 0; i < strips.Count; i++)
        {
            var (y, from, to) = (10 + (row * i), Math.Min(X(Length.Zero), X(mean.Each[i])), Math.Max(X(Length.Zero), X(mean.Each[i])));
            sketch.Text(Sketch.Margin, y + 3.6, T($"strip {i + 1}"), Ink.Caption, 2.8, Anchor.Start)
                .Box(from, y, Math.Max(to - from, 0.3), row - 2, Ink.Cloth)
                .Text(Sketch.PageWidth - Sketch.Margin, y + 3.6, RunAsks.ShowFine(asked, mean.Each[i]), Ink.Number, 2.8, Anchor.End);
        }

        var foot = 10 + (row * strips.Count);
        return sketch.Line(X(Length.Zero), 8, X(Length.Zero), foot, Ink.CutEdge).Line(X(mean.Mean), 8, X(mean.Mean), foot, Ink.Datum)
            .Text(X(mean.Mean), foot + 5, T($"mean {RunAsks.ShowFine(asked, mean.Mean)}"), Ink.Datum).Text(X(Length.Zero), 6, "0", Ink.Caption).Panel();
    }
}
