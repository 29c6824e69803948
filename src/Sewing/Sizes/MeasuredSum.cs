using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary><see cref="MeasuredRun"/> with its route and page.</summary>
internal static class MeasuredSum
{
    /// <summary>Tucks drawn when no whole run was measured.</summary>
    private const int Drawn = 6;

    public static Sum Sum { get; } = new()
    {
        Slug = "measured-run",
        Shelf = Shelf.Sizes,
        Title = "What an antique's run was meant to be",
        Lead = "From what you measured, one thing or several: the likeliest width and space, how sure, and the marking the maker probably worked by.",
        Asks =
        [
            Ask.Rows("over", "Whole runs", 0, 20, "From the first fold to the last stitching, the tape laid beside and not pulled.",
                Ask.Above("run", "Measures", "2 5/8 in"),
                Ask.Whole("tucks", "Tucks in it", 1, TuckRun.MostInRun, "8"),
                Ask.Above("widthLeast", "Narrowest tuck", "1/8 in").Optional(),
                Ask.Above("widthMost", "Widest tuck", "1/8 in").Optional()).Optional(),
            Ask.Rows("counts", "Counted over a length", 0, 20, "From one stitching line to the same line of a later tuck.",
                Ask.Above("over", "Length", "3 in"),
                Ask.Whole("tucks", "Tucks further on", 1, TuckRun.MostInRun, "8")).Optional(),
            Ask.Lengths("widths", "Single tucks", 0, 100, "1/8 in", "From the fold to the stitching, one on each line.").Optional(),
            Ask.Lengths("spaces", "Single spaces", 0, 100, "1/4 in", "The plain cloth seen between two, one on each line.").Optional(),
            Ask.Above("tape", "Smallest division of your tape", "1/16 in", "1/16 in when left out.").Optional(),
        ],
        Example = """
            {"over":[{"run":"2 3/4 in","tucks":8,"widthLeast":"1/8 in","widthMost":"1/8 in"},{"run":"4 1/4 in","tucks":12}],
             "counts":[{"over":"3 in","tucks":8}],"widths":["1/8 in","1/8 in","1/8 in"],"tape":"1/16 in"}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var readings = new RunReadings(
            [.. asked.Rows("over").Select(Over)],
            [.. asked.Rows("counts").Select(r => new CountReading(r.Length("over"), r.Whole("tucks")))],
            asked.Lengths("widths"), asked.Lengths("spaces"), asked.LengthOrNull("tape") ?? Length.FromSixtyFourthsOfInch(4));
        asked.Check(readings.Over.Count + readings.Counts.Count + readings.Widths.Count + readings.Spaces.Count > 0, "over", "Nothing is measured yet: give a whole run, a count over a length, or single widths and spaces.");
        asked.Throw();
        var run = MeasuredRun.Of(readings);
        var best = run.Markings[0];
        var answer = new Answer(asked.Unit)
            .Figure("width", "Likeliest width of a tuck", run.Width?.Value)
            .Figure("widthError", "give or take", run.Width?.Error, "In two cases of three the true width lies within it.", LengthUnit.Millimetres)
            .Figure("space", "Likeliest space", run.Space?.Value)
            .Figure("spaceError", "give or take", run.Space?.Error, "", LengthUnit.Millimetres)
            .Figure("stitchToStitch", "Stitching to stitching", run.Repeat.Value)
            .Figure("stitchToStitchError", "give or take", run.Repeat.Error, "", LengthUnit.Millimetres)
            .Figure("marking", "The maker probably worked", best.Name == MeasuredRun.ByEye ? T("by eye, or finer than can be told") : T($"by {best.Name}"), Sure(best.Share))
            .Figure("share", "Its share of what speaks for any marking, in %", Percent(best.Share))
            .Figure("sure", "How sure", Sure(best.Share))
            .Figure("markedWidth", "Width on that marking", best.Width, "", Unit(best))
            .Figure("markedSpace", "Space on that marking", best.Space, "", Unit(best))
            .Table("markings", "The markings compared", [new("marking", "Marking"), new("share", "Share in %"), new("width", "Width on it"), new("space", "Space on it")],
                run.Markings.Select(m => (IReadOnlyList<object?>)[Name(m), Percent(m.Share), m.Width is { } w ? (w, Unit(m)) : null, m.Space is { } s ? (s, Unit(m)) : null]))
            .Note("Each reading may be off by half a division at either end. All measurements are weighed together, those that span many tucks most; if they disagree by more than the tape explains, what is given or taken grows.")
            .Note("A marking is judged by how well its whole numbers agree, and a coarse one that agrees counts for more than a fine one, which agrees by chance. This way of judging is ours; cloth that has shrunk or been let out misleads it.");
        Cautions(asked, run, answer);
        return answer.Drawn(
            T($"Tucks of {(run.Width is { } w ? asked.Show(w.Value) : T("unknown width"))}, stitching to stitching {asked.Show(run.Repeat.Value)}; below, how the markings compare: {string.Join(", ", run.Markings.Select(m => $"{Name(m)} {Said(m.Share)}"))}."),
            Picture(asked, run, readings), Bars(run));

        static RunReading Over(Asked row)
        {
            var (least, most) = (row.LengthOrNull("widthLeast"), row.LengthOrNull("widthMost"));
            row.Check(least is null || most is null || least <= most, "widthLeast", T($"The narrowest tuck, {row.Show(least ?? default)}, is wider than the widest, {row.Show(most ?? default)}."));
            row.Check((least ?? default) <= row.Length("run"), "widthLeast", T($"A tuck of {row.Show(least ?? default)} is wider than the whole run of {row.Show(row.Length("run"))}."));
            return new(row.Length("run"), row.Whole("tucks"), least, most);
        }
    }

    private static void Cautions(Asked asked, MeasuredRun run, Answer answer)
    {
        if (run.Disagreement > 2)
        {
            answer.Caution("measures-disagree", T($"Your measurements lie {((decimal)run.Disagreement.Value).ToString("0.#", CultureInfo.InvariantCulture)} times as far apart as the tape explains: perhaps the tucks differ along the run, or one was counted or read wrongly. Measure again."));
        }

        if (run.Space is { } space && space.Value < Length.Zero)
        {
            answer.Caution("overlap", space.Value + space.Error >= Length.Zero
                ? "The tucks seem to meet or all but meet: the space comes out a hair below nothing, within what the tape can tell."
                : T($"By this the tucks overlap by {asked.Show(-space.Value)}: each hides some stitching of the one beside it. If you see plain cloth between them, measure again."));
        }

        if (run.Width is { } width && 2 * width.Error > width.Value)
        {
            answer.Caution("width-unsure", "The width is hardly told by these measurements: measure a few single tucks as well.");
        }
    }

    private static string Sure(double share) => share switch
    {
        >= 0.9 => T("fairly sure"),
        >= 0.6 => T("likely"),
        >= 0.35 => T("perhaps"),
        _ => T("can't be told"),
    };

    private static string Said(double share) => Percent(share).ToString("0.#", CultureInfo.InvariantCulture) + " %";

    private static string Name(MarkingShare marking) => marking.Name == MeasuredRun.ByEye ? T("by eye") : marking.Name;

    private static LengthUnit Unit(MarkingShare marking) => Length.UnitOf(marking.Name);

    private static decimal Percent(double share) => decimal.Round(100 * (decimal)share, 1);

    private static Panel Picture(Asked asked, MeasuredRun run, RunReadings readings)
    {
        var tucks = Math.Clamp(readings.Over.Count > 0 ? readings.Over[0].Tucks : Drawn, 2, 60);
        var width = run.Width?.Value ?? Length.Zero;
        var sketch = new Sketch(36);
        var scale = sketch.ScaleFor(((tucks - 1) * run.Repeat.Value) + width);
        var (wide, step) = (width.Mm() * scale, run.Repeat.Value.Mm() * scale);
        sketch.Box(Sketch.Margin, 14, ((tucks - 1) * step) + wide, 12, Ink.Cloth);
        for (var i = 0; i < tucks; i++)
        {
            var fold = Sketch.Margin + (i * step);
            sketch.Box(fold, 14, wide, 12, Ink.Tuck).Line(fold, 14, fold, 26, Ink.Fold).Line(fold + wide, 14, fold + wide, 26, Ink.Stitching);
        }

        sketch.Across(Sketch.Margin + wide, Sketch.Margin + wide + step, 10, asked.Show(run.Repeat.Value));
        return run.Width is null ? sketch.Panel() : sketch.Across(Sketch.Margin, Sketch.Margin + wide, 33, asked.Show(width)).Panel();
    }

    private static Panel Bars(MeasuredRun run)
    {
        var sketch = new Sketch(6 + (6 * run.Markings.Count));
        for (var i = 0; i < run.Markings.Count; i++)
        {
            var (y, marking) = (4 + (6.0 * i), run.Markings[i]);
            sketch.Text(30, y + 3.4, Name(marking), Ink.Number, 2.8, Anchor.End)
                .Box(33, y, Math.Max(0.4, 110 * marking.Share), 4, Ink.Cloth).Path([(33, y), (33 + (110 * marking.Share), y), (33 + (110 * marking.Share), y + 4), (33, y + 4), (33, y)], Ink.FoldFine)
                .Text(36 + (110 * marking.Share), y + 3.4, Said(marking.Share), Ink.Caption, 2.6, Anchor.Start);
        }

        return sketch.Panel();
    }
}
