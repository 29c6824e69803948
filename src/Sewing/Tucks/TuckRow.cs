namespace HeirloomArchive.Sewing;

/// <summary>
/// The tucks of a run in a row from start to end, whichever way each lies. One walk serves all four lies: what a tuck
/// takes up stands between its stitching lines, and the strip's correction on the side it lies towards.
/// </summary>
internal sealed class TuckRow
{
    private readonly Tuck[] tucks;
    private readonly long[] spaces;

    private readonly record struct Tuck(long Width, int Group, Half? Half, bool TowardsStart);

    private TuckRow(Tuck[] tucks, long[] spaces) => (this.tucks, this.spaces) = (tucks, spaces);

    public static TuckRow LayOut(TuckRun run, TuckSpaces given)
    {
        var count = run.Groups.Sum(g => g.Tucks);
        var tucks = new Tuck[count];
        var spaces = new long[count - 1];
        var half = run.LiesFromMiddle ? Half.End : (Half?)null;
        var towardsStart = run.Lies is Lies.TowardsStart or Lies.TowardsCentre;
        var at = 0;
        for (var g = 0; g < run.Groups.Count; g++)
        {
            for (var i = 0; i < run.Groups[g].Tucks; i++, at++)
            {
                tucks[at] = new(run.Groups[g].Width.Nanometres, g + 1, half, towardsStart);
                if (at > 0)
                {
                    spaces[at - 1] = (i == 0 ? given.Between[g - 1] : given.InGroups[g]).Nanometres;
                }
            }
        }

        return half is null ? new(tucks, spaces) : Mirrored(tucks, spaces, (run.Centre ?? Length.Zero).Nanometres);
    }

    /// <summary>The half read from the middle outwards, with its mirror image before it.</summary>
    private static TuckRow Mirrored(Tuck[] half, long[] spaces, long centre)
    {
        var mirror = half.Reverse().Select(t => t with { Half = Half.Start, TowardsStart = !t.TowardsStart });
        return new([.. mirror, .. half], [.. spaces.Reverse(), centre, .. spaces]);
    }

    public TuckPlan Plan(TuckRun run, Length? correctionPerTuck)
    {
        var correction = (correctionPerTuck ?? Length.Zero).Nanometres;
        var lead = ((run.LiesFromMiddle ? run.Trail : run.Lead) ?? Length.Zero).Nanometres;
        var lines = new TuckLine[tucks.Length];
        long finished = lead, taken = 0;
        for (var i = 0; i < tucks.Length; i++)
        {
            var (width, group, half, towardsStart) = tucks[i];
            finished += towardsStart ? width : 0;
            var stitch = finished + taken + (towardsStart ? correction : 0);
            lines[i] = new(
                i + 1, group, half, Of(width), Of(stitch), Of(stitch + width), Of(stitch + (2 * width)),
                Of(finished), Of(towardsStart ? finished - width : finished + width));
            finished += towardsStart ? 0 : width;
            finished += i < spaces.Length ? spaces[i] : 0;
            taken += (2 * width) + correction;
        }

        finished += (run.Trail ?? Length.Zero).Nanometres;
        if (finished <= 0)
        {
            // The strip's correction lets lines lie in order on the cloth that fall back when sewn.
            throw new FaultException(run.At(run.Between.Count > 0 ? "between[0]" : "groups[0].space"), "So far overlapped nothing is left of the width: give more space, or measure the strip again.");
        }

        var cloth = Of(finished + taken);
        if (cloth > Length.Longest)
        {
            throw new FaultException(run.At("groups"), T($"The run needs {cloth.ToText(run.Unit)} of cloth: lengths here go up to 1 km."));
        }

        return new()
        {
            Finished = Of(finished),
            Cloth = cloth,
            CorrectionPerTuck = correctionPerTuck,
            Lines = lines,
            Spacings = Apart(lines),
            Cautions = TuckCautions.For(run, lines),
            Unit = run.Unit,
        };
    }

    private TuckSpacing[] Apart(TuckLine[] lines)
    {
        var apart = new TuckSpacing[spaces.Length];
        for (var i = 0; i < apart.Length; i++)
        {
            apart[i] = new(Of(spaces[i]), lines[i + 1].FinishedStitch - lines[i].FinishedStitch, lines[i + 1].Fold - lines[i].Fold);
        }

        return apart;
    }

    private static Length Of(long nanometres) => Length.FromNanometres(nanometres);
}
