using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Sewing;

/// <summary>
/// The plain cloth between neighbours, worked out of whichever of the three ways each spacing was given in, and held to what can be sewn.
/// Read from start to end; of a centre lie from the middle outwards.
/// </summary>
internal sealed class TuckSpaces
{
    private readonly TuckRun run;
    private readonly TuckChecks checks;
    private readonly Length correction;
    private readonly bool towardsStart;

    public TuckSpaces(TuckRun run, TuckChecks checks)
    {
        this.run = run;
        this.checks = checks;
        correction = run.TestStrip?.Correction ?? Length.Zero;
        towardsStart = run.Lies is Lies.TowardsStart or Lies.TowardsCentre;
        InGroups = [.. run.Groups.Select((g, i) => Resolve($"groups[{i}]", g.Spacing, g.Width, g.Width, needed: g.Tucks > 1))];
        Between = [.. run.Between.Select((b, i) => Resolve($"between[{i}]", b, run.Groups[i].Width, run.Groups[i + 1].Width, needed: true))];
        Edges();
    }

    /// <summary>Inside each group.</summary>
    public Length[] InGroups { get; }

    /// <summary>From each group to the next.</summary>
    public Length[] Between { get; }

    private Length Resolve(string field, Spacing given, Length width, Length next, bool needed)
    {
        if (given.IsEmpty)
        {
            if (needed)
            {
                checks.Add(field + (field[0] == 'g' ? ".space" : ""), "How far apart? Give a space (the plain cloth seen), stitchToStitch (finished) or foldToFold (flat).");
            }

            return Length.Zero;
        }

        Length? space = null;
        var name = "";
        var (stitchToStitch, foldToFold) = SpacingWays.Beyond(width, next, towardsStart ? Lies.TowardsStart : Lies.TowardsEnd, correction);
        Agree("space", given.Space, Length.Zero);
        Agree("stitchToStitch", given.StitchToStitch, stitchToStitch);
        Agree("foldToFold", given.FoldToFold, foldToFold);

        var room = space!.Value + stitchToStitch + correction;
        if (needed && room <= Length.Zero)
        {
            checks.Add(Field(name), T($"{checks.Text(Given(given, name))} is too near: the lines on the cloth would cross by {checks.Text(-room)}. A {name} must be above {checks.Text(Given(given, name) - room)} here."));
        }

        return space.Value;

        void Agree(string way, Length? length, Length beyondSpace)
        {
            if (length is not { } measured)
            {
                return;
            }

            if (space is { } other && other != measured - beyondSpace)
            {
                checks.Add(Field(way), T($"{checks.Text(measured)} does not agree with the {name} of {checks.Text(Given(given, name))}, which would make it {checks.Text(other + beyondSpace)}: give one of them, or two that agree."));
            }

            (space, name) = space is null ? (measured - beyondSpace, way) : (space, name);
        }

        string Field(string way) => field[0] == 'b' && way == "space" ? field : $"{field}.{way}";
    }

    private static Length Given(Spacing spacing, string way) => way switch
    {
        "space" => spacing.Space!.Value,
        "stitchToStitch" => spacing.StitchToStitch!.Value,
        _ => spacing.FoldToFold!.Value,
    };

    /// <summary>The middle, the cloth outside the outermost lines, and what each tuck takes up.</summary>
    private void Edges()
    {
        for (var g = 0; g < run.Groups.Count; g++)
        {
            if ((2 * run.Groups[g].Width) + correction <= Length.Zero)
            {
                checks.Add("testStrip", T($"The strip's correction of {checks.Text(correction)} is more than a tuck of {checks.Text(run.Groups[g].Width)} takes up: measure the strip again, or sew one of that width."));
            }
        }

        var centre = run.Centre ?? Length.Zero;
        var middle = centre + (2 * (run.Groups[0].Width + correction));
        if (run.Lies == Lies.TowardsCentre && middle <= Length.Zero)
        {
            checks.Add("centre", T($"{checks.Text(centre)} is too near: the lines in the middle would cross by {checks.Text(-middle)}. The centre must be above {checks.Text(centre - middle)} here."));
        }

        var (field, plain, width) = run.Lies == Lies.TowardsStart
            ? ("lead", run.Lead ?? Length.Zero, run.Groups[0].Width)
            : ("trail", run.Trail ?? Length.Zero, run.Groups[^1].Width);
        if (run.Lies != Lies.TowardsCentre && plain + width + correction < Length.Zero)
        {
            checks.Add(field, T($"{checks.Text(plain)} is too little: with the strip's correction of {checks.Text(correction)} no cloth is left outside the last line. It must be at least {checks.Text(-width - correction)}."));
        }
    }
}
