namespace HeirloomArchive.Sewing;

/// <summary>Which way the tucks of a run lie.</summary>
public enum Lies
{
    /// <summary>Folds towards the end of the run: the stitching of a tuck is met before its fold.</summary>
    TowardsEnd,

    /// <summary>Folds towards the start of the run.</summary>
    TowardsStart,

    /// <summary>Away from the middle, both halves; groups describe one half from the middle outwards.</summary>
    FromCentre,

    /// <summary>Towards the middle, both halves; groups describe one half from the middle outwards.</summary>
    TowardsCentre,
}

/// <summary>
/// How far tucks stand apart, in one or several of the three ways the books mean it; several must agree.
/// </summary>
/// <param name="Space">The plain cloth seen between two tucks; below zero they overlap.</param>
/// <param name="StitchToStitch">Stitching line to stitching line, finished.</param>
/// <param name="FoldToFold">Fold to fold on the flat cloth, with the correction of a test strip in it.</param>
/// <remarks>Butterick, The New Dressmaker (1921) p. 98 means the space, Krolik, Hand Sewing Lessons (Model 6) stitching to stitching.</remarks>
public readonly record struct Spacing(Length? Space, Length? StitchToStitch = null, Length? FoldToFold = null)
{
    /// <summary>True when none of the three is given.</summary>
    public bool IsEmpty => Space is null && StitchToStitch is null && FoldToFold is null;
}

/// <summary>Tucks of one width and spacing.</summary>
/// <param name="Tucks">1 to 1 000.</param>
/// <param name="Width">Fold to stitching line, above zero; the gap of the needles for twin-needle tucks.</param>
/// <param name="Spacing">May be empty when there is one tuck.</param>
public sealed record TuckGroup(int Tucks, Length Width, Spacing Spacing);

/// <summary>Tucks she has sewn to see what the thickness of her cloth takes; measured after pressing or washing.</summary>
/// <param name="Tucks">How many, 1 to 1 000.</param>
/// <param name="Width">As marked, above zero.</param>
/// <param name="Flat">The strip before it was sewn, above zero.</param>
/// <param name="Finished">The strip as it measured afterwards, above zero.</param>
/// <param name="SewnWidth">The tuck as it measured when sewn; only compared.</param>
public sealed record TestStrip(int Tucks, Length Width, Length Flat, Length Finished, Length? SewnWidth = null)
{
    /// <summary>What a tuck takes beyond twice its width, rounded once to the nanometre (halves to even); may be below zero.</summary>
    public Length Correction => TakenUp - (2 * Width);

    /// <summary>What one tuck took up, rounded once to the nanometre (halves to even).</summary>
    public Length TakenUp => (Flat - Finished).DividedBy(Tucks);
}

/// <summary>A run of tucks as it is asked for. <see cref="TuckPlan.Make"/> says what is wrong with it.</summary>
public sealed record TuckRun
{
    /// <summary>Most groups in a run.</summary>
    public const int MostGroups = 50;

    /// <summary>Most tucks in a group.</summary>
    public const int MostInGroup = 1_000;

    /// <summary>Most tucks in a run, both halves counted.</summary>
    public const int MostInRun = 2_000;

    /// <summary>From start to end; of a centre lie from the middle outwards. 1 to 50.</summary>
    public required IReadOnlyList<TuckGroup> Groups { get; init; }

    /// <summary>From each group to the next: one fewer than groups.</summary>
    public IReadOnlyList<Spacing> Between { get; init; } = [];

    /// <summary>The plain cloth seen before the first tuck; null is zero. Not with a centre lie.</summary>
    public Length? Lead { get; init; }

    /// <summary>The plain cloth seen after the last tuck, with a centre lie at each end; null is zero.</summary>
    public Length? Trail { get; init; }

    /// <summary>Null is towards the end; must be null for twin-needle tucks, which lie neither way.</summary>
    public Lies? Lies { get; init; }

    /// <summary>The plain cloth seen in the middle of a centre lie; null is zero. Only with a centre lie.</summary>
    public Length? Centre { get; init; }

    /// <summary>The strip she has sewn, or null.</summary>
    public TestStrip? TestStrip { get; init; }

    /// <summary>Pin tucks raised by a twin needle, without a fold; needs a <see cref="TestStrip"/>.</summary>
    public bool TwinNeedle { get; init; }

    /// <summary>The unit in which computed lengths are shown: that of the first length of what was sent.</summary>
    public LengthUnit Unit { get; init; }

    /// <summary>Where the run stood in what was sent (<c>plan</c>), so that faults name whole paths; empty when it was all of it.</summary>
    public string Path { get; init; } = "";

    internal bool LiesFromMiddle => Lies is Sewing.Lies.FromCentre or Sewing.Lies.TowardsCentre;

    internal string At(string field) => Path.Length == 0 ? field : $"{Path}.{field}";
}
