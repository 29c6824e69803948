using System.Numerics;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>What several test strips tell together of the thickness of a cloth.</summary>
/// <remarks>
/// Thresholds, ours: each of the two measures of a strip is read to the nearest 1/16 in, so is out by at most 1/32 in, and a strip of k tucks is out by at most
/// 1/16 in ÷ k a tuck. Too few: under ten tucks in all, where reading alone can be more than 1/160 in a tuck out. Too scattered: no one correction lies within that of every strip.
/// </remarks>
public sealed record StripMean
{
    /// <summary>Fewer tucks than this in all are too few: 10.</summary>
    public const int EnoughTucks = 10;

    /// <summary>What reading both measures of a strip can be out by: 1/16 in.</summary>
    public static Length ReadingError { get; } = Length.FromSixtyFourthsOfInch(4);

    /// <summary>The correction per tuck of each strip, rounded once to the nanometre.</summary>
    public required IReadOnlyList<Length> Each { get; init; }

    /// <summary>Over all tucks of all strips, each tuck counting once; rounded once to the nanometre (halves to even).</summary>
    public required Length Mean { get; init; }

    /// <summary>The greatest less the least; zero of one strip.</summary>
    public Length Spread => Each.Max() - Each.Min();

    /// <summary>Tucks in all strips.</summary>
    public required int Tucks { get; init; }

    /// <summary>Under <see cref="EnoughTucks"/> in all.</summary>
    public bool TooFew => Tucks < EnoughTucks;

    /// <summary>No one correction lies within the reading error of every strip.</summary>
    public required bool TooScattered { get; init; }

    /// <summary>One strip that has the tucks of all and their mean correction, for a plan; null when it would have more than 1 000 tucks.</summary>
    public required TestStrip? Together { get; init; }

    /// <summary>Takes strips together.</summary>
    /// <param name="strips">1 or more, each with 1 tuck or more.</param>
    /// <param name="width">Of the strip that comes of them, above zero.</param>
    public static StripMean Of(IReadOnlyList<TestStrip> strips, Length width)
    {
        ArgumentNullException.ThrowIfNull(strips);
        var tucks = strips.Sum(s => s.Tucks);
        var beyond = strips.Aggregate(BigInteger.Zero, (sum, s) => sum + (s.Flat - s.Finished - (2 * s.Tucks * s.Width)).Nanometres);
        var finished = strips.Aggregate(Length.Zero, (sum, s) => sum + s.Finished);
        var flat = finished + (2 * tucks * width) + Length.FromNanometres((long)beyond);
        return new()
        {
            Each = [.. strips.Select(s => s.Correction)],
            Mean = Length.FromNanometres((long)Length.Rounded(beyond, tucks)),
            Tucks = tucks,
            TooScattered = strips.Max(s => s.Correction - ReadingError.DividedBy(s.Tucks)) > strips.Min(s => s.Correction + ReadingError.DividedBy(s.Tucks)),
            Together = tucks <= TuckRun.MostInGroup && flat > finished ? new(tucks, width, flat, finished) : null,
        };
    }
}
