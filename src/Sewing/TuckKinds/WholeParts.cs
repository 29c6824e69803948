namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>So many equal parts of a length that do not come out whole: both ways of rounding, each with the part made again.</summary>
public static class WholeParts
{
    /// <summary>The counts next to <paramref name="length"/> / <paramref name="part"/>: one when it comes out whole, else the lower (if any) and the higher.</summary>
    /// <param name="length">To be filled, above zero.</param>
    /// <param name="part">As wanted, above zero.</param>
    /// <returns>Each count with the part that fills the length with it, rounded once to the nanometre.</returns>
    public static IReadOnlyList<(long Count, Length Part)> Of(Length length, Length part)
    {
        var down = length.Nanometres / part.Nanometres;
        long[] counts = length.Nanometres % part.Nanometres == 0 ? [down] : down == 0 ? [1] : [down, down + 1];
        return [.. counts.Select(n => (n, length.DividedBy(n)))];
    }
}
