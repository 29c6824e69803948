using System.ComponentModel;

namespace HeirloomArchive.Sewing;

/// <summary>A half of a run that lies from or towards its centre.</summary>
public enum Half
{
    /// <summary>The half nearer the start.</summary>
    Start,

    /// <summary>The half nearer the end.</summary>
    End,
}

/// <summary>The three lines of one tuck on the flat cloth and where they come to lie, all from the start of the run.</summary>
/// <param name="Tuck">Its place in the whole run, from 1.</param>
/// <param name="Group">The place of its group in what was asked, from 1.</param>
/// <param name="Half">Null unless the run lies from or towards its centre.</param>
/// <param name="Width">Fold to stitching line; for twin-needle tucks the gap of the needles.</param>
/// <param name="FirstStitch">Flat: the stitching line nearer the start.</param>
/// <param name="Fold">Flat: the crease; for twin-needle tucks the line to follow.</param>
/// <param name="SecondStitch">Flat: the stitching line nearer the end.</param>
/// <param name="FinishedStitch">Finished: where the stitching lies.</param>
/// <param name="FinishedFold">Finished: where the fold lies; may fall from tuck to tuck where they overlap.</param>
public readonly record struct TuckLine(
    int Tuck, int Group, Half? Half, Length Width, Length FirstStitch, Length Fold, Length SecondStitch, Length FinishedStitch, Length FinishedFold);

/// <summary>How far two neighbours stand apart, in the three ways the books mean it.</summary>
/// <param name="Space">The plain cloth seen; below zero they overlap.</param>
/// <param name="StitchToStitch">Stitching to stitching, finished.</param>
/// <param name="FoldToFold">Fold to fold on the flat cloth, the strip's correction included.</param>
public readonly record struct TuckSpacing(Length Space, Length StitchToStitch, Length FoldToFold);

/// <summary>Something to know before sewing; the plan stands all the same.</summary>
/// <param name="Code">Fixed: <c>hidden-stitching</c>, <c>hidden-tuck</c>, <c>folds-overlap</c>, <c>strip-other-width</c>, <c>strip-correction</c>, <c>strip-sewn-width</c>.</param>
/// <param name="Text">A sentence or two for the person sewing.</param>
public sealed record TuckCaution(string Code, [Localizable(true)] string Text);

/// <summary>
/// Where every line of a run of tucks falls. Whole nanometres throughout; flat lines never fall from start to end.
/// Flat cloth = finished width + what the tucks take up: twice the width of each (Baldt, Clothing for Women, 1916, c. p. 400),
/// and the correction of a test strip.
/// </summary>
public sealed record TuckPlan
{
    /// <summary>The width when sewn.</summary>
    public required Length Finished { get; init; }

    /// <summary>The flat cloth it is sewn from, at most 1 km.</summary>
    public required Length Cloth { get; init; }

    /// <summary>What the tucks take up: cloth less finished.</summary>
    public Length TakeUp => Cloth - Finished;

    /// <summary>From the test strip; null without one, and for twin-needle tucks.</summary>
    public Length? CorrectionPerTuck { get; init; }

    /// <summary>Each tuck from start to end, both halves of a centre lie.</summary>
    public required IReadOnlyList<TuckLine> Lines { get; init; }

    /// <summary>Each pair of neighbours from start to end: one fewer than lines.</summary>
    public required IReadOnlyList<TuckSpacing> Spacings { get; init; }

    /// <summary>What to know before sewing.</summary>
    public required IReadOnlyList<TuckCaution> Cautions { get; init; }

    /// <summary>The unit in which its lengths are shown.</summary>
    public LengthUnit Unit { get; init; }

    /// <summary>Plans a run.</summary>
    /// <exception cref="FaultException">The run makes no sense: every fault found, by its path; kind <see cref="FaultKind.Senseless"/>.</exception>
    public static TuckPlan Make(TuckRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        var checks = new TuckChecks(run);
        checks.Shape();
        if (run.TwinNeedle)
        {
            return TwinNeedlePlan.Make(run, checks);
        }

        var correction = run.TestStrip?.Correction;
        var tucks = TuckRow.LayOut(run, new TuckSpaces(run, checks));
        checks.Throw();
        return tucks.Plan(run, correction);
    }
}
