using System.ComponentModel;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>A count that may not come out whole: both ways are offered, none is taken silently.</summary>
/// <param name="Word"><c>whole</c>, <c>rounded down</c> or <c>rounded up</c>.</param>
/// <param name="Count">1 or more.</param>
/// <param name="Each">The corrected part: the whole divided by the count, rounded once to the nanometre.</param>
/// <remarks>Rounding is a free choice, and the part is then worked out again: Dress Making, NIMI, p. 209.</remarks>
public sealed record Rounding([Localizable(true)] string Word, long Count, Length Each)
{
    /// <summary>How often a part goes into a whole: once when exact, else rounded down (where that is not none) and up.</summary>
    /// <param name="whole">Above zero.</param>
    /// <param name="each">Above zero.</param>
    public static IReadOnlyList<Rounding> BothWays(Length whole, Length each)
    {
        var (down, rest) = Math.DivRem(whole.Nanometres, each.Nanometres);
        return rest == 0
            ? [Of("whole", down)]
            : down == 0 ? [Of("rounded up", 1)] : [Of("rounded down", down), Of("rounded up", down + 1)];

        Rounding Of([Localizable(true)] string word, long count) => new(word, count, whole.DividedBy(count));
    }
}
