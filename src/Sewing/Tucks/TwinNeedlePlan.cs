namespace HeirloomArchive.Sewing;

/// <summary>
/// Pin tucks raised by a twin needle: no fold is made, both lines are sewn at once, and what a tuck takes up comes from
/// a strip sewn with that needle, cord and tension.
/// </summary>
internal static class TwinNeedlePlan
{
    public static TuckPlan Make(TuckRun run, TuckChecks checks)
    {
        var width = run.Groups[0].Width;
        var taken = Check(run, checks, width);
        checks.Throw();

        var (lines, distances) = Lines(run, width.Nanometres, taken.Nanometres);
        var cloth = lines[^1].SecondStitch + (run.Trail ?? Length.Zero);
        if (cloth > Length.Longest)
        {
            throw new FaultException(run.At("groups"), T($"The run needs {cloth.ToText(run.Unit)} of cloth: lengths here go up to 1 km."));
        }

        return new()
        {
            Cloth = cloth,
            Finished = cloth - (taken * lines.Length),
            Lines = lines,
            Spacings = [.. distances.Select(d => new TuckSpacing(d - width, d - taken, d))],
            Cautions = TuckCautions.For(run, []),
            Unit = run.Unit,
        };
    }

    private static Length Check(TuckRun run, TuckChecks checks, Length width)
    {
        if (run.Lies is not null)
        {
            checks.Add("lies", "Twin-needle tucks lie neither way: leave lies out.");
        }

        for (var g = 0; g < run.Groups.Count; g++)
        {
            var group = run.Groups[g];
            if (group.Width != width)
            {
                checks.Add($"groups[{g}].width", T($"{checks.Text(group.Width)} is not the {checks.Text(width)} of the first group: a run has one twin needle, and one gap."));
            }

            Distance(checks, $"groups[{g}]", group.Spacing, width, needed: group.Tucks > 1);
        }

        for (var b = 0; b < run.Between.Count; b++)
        {
            Distance(checks, $"between[{b}]", run.Between[b], width, needed: true);
        }

        if (run.TestStrip is not { } strip)
        {
            checks.Add("testStrip", "What a twin-needle tuck takes up can't be computed: sew a strip first, and give its tucks, width, flat and finished.");
            return Length.Zero;
        }

        if (strip.TakenUp <= Length.Zero || strip.TakenUp >= width)
        {
            checks.Add("testStrip", T($"By the strip a tuck takes up {checks.Text(strip.TakenUp)}: it must be above 0 and below the gap of the needles, {checks.Text(width)}."));
        }

        return strip.TakenUp;
    }

    private static void Distance(TuckChecks checks, string field, Spacing given, Length width, bool needed)
    {
        var (name, wrong) = given.Space is { } space ? ("space", space) : ("stitchToStitch", given.StitchToStitch ?? Length.Zero);
        if (given.Space is not null || given.StitchToStitch is not null)
        {
            checks.Add(field[0] == 'b' && name == "space" ? field : $"{field}.{name}",
                T($"Twin-needle tucks are spaced fold to fold on the flat cloth: give {checks.Text(wrong)} as foldToFold if that is what it is."));
        }
        else if (given.FoldToFold is { } distance ? distance < width : needed)
        {
            checks.Add($"{field}.foldToFold", given.FoldToFold is { } near
                ? T($"{checks.Text(near)} is nearer than the needles stand apart: at least {checks.Text(width)}.")
                : "How far apart? Give foldToFold, line to line on the flat cloth.");
        }
    }

    private static (TuckLine[] Lines, Length[] Distances) Lines(TuckRun run, long width, long taken)
    {
        var lines = new TuckLine[run.Groups.Sum(g => g.Tucks)];
        var distances = new Length[lines.Length - 1];
        var first = (run.Lead ?? Length.Zero).Nanometres;
        var at = 0;
        for (var g = 0; g < run.Groups.Count; g++)
        {
            for (var i = 0; i < run.Groups[g].Tucks; i++, at++)
            {
                if (at > 0)
                {
                    distances[at - 1] = (i == 0 ? run.Between[g - 1] : run.Groups[g].Spacing).FoldToFold!.Value;
                    first += distances[at - 1].Nanometres;
                }

                var fold = first + (width / 2);
                lines[at] = new(
                    at + 1, g + 1, null, Of(width), Of(first), Of(fold), Of(first + width),
                    Of(first - (at * taken)), Of(fold - (at * taken) - (taken / 2)));
            }
        }

        return (lines, distances);
    }

    private static Length Of(long nanometres) => Length.FromNanometres(nanometres);
}
