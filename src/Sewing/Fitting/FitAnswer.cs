namespace HeirloomArchive.Sewing;

/// <summary>Equal tucks that fill the width exactly.</summary>
/// <param name="Tucks">How many; of a centre lie in both halves.</param>
/// <param name="Width">Fold to stitching line.</param>
/// <param name="Space">The plain cloth seen between two; null where there is none to choose: one tuck, or two with a given centre.</param>
/// <param name="Lead">The plain cloth seen before the first.</param>
/// <param name="Trail">The plain cloth seen after the last.</param>
/// <param name="Finished">The width they fill.</param>
/// <param name="Cloth">The flat cloth they are sewn from.</param>
public sealed record FitArrangement(int Tucks, Length Width, Length? Space, Length Lead, Length Trail, Length Finished, Length Cloth);

/// <summary>The one thing that is changed to make a run fit.</summary>
public enum FitChange
{
    /// <summary>The finished width.</summary>
    Finished,

    /// <summary>The number of tucks.</summary>
    Tucks,

    /// <summary>The space between.</summary>
    Space,

    /// <summary>The width of the tucks.</summary>
    Width,

    /// <summary>The plain ends.</summary>
    Ends,

    /// <summary>The cloth there is.</summary>
    Cloth,
}

/// <summary>The nearest that fits in one direction.</summary>
/// <param name="Change">What left its range, by the least amount that serves.</param>
/// <param name="Arrangement">What fits then.</param>
public sealed record FitNearest(FitChange Change, FitArrangement Arrangement);

/// <summary>The arrangements that fill a width exactly, or why there is none.</summary>
public sealed record FitAnswer
{
    /// <summary>Most arrangements that are listed.</summary>
    public const int MostListed = 50;

    /// <summary>Whether there is any.</summary>
    public bool Fits => Count > 0;

    /// <summary>How many there are, listed or not.</summary>
    public required long Count { get; init; }

    /// <summary>The first 50 in their order.</summary>
    public required IReadOnlyList<FitArrangement> Arrangements { get; init; }

    /// <summary>When none fits: at most one for each change, in the order of <see cref="FitChange"/>.</summary>
    public IReadOnlyList<FitNearest> Nearest { get; init; } = [];

    /// <summary>When none fits: the bound that fails, in words; else null.</summary>
    public string? Reason { get; init; }

    /// <summary>The unit in which its lengths are shown.</summary>
    public LengthUnit Unit { get; init; }
}
