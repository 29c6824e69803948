namespace HeirloomArchive.Sewing.Fitting;

/// <summary>
/// When nothing fits: the nearest that does in each direction. One thing leaves its range by the least amount that serves,
/// the smaller value where two are as near; all else stays.
/// </summary>
internal static class FitNeighbours
{
    public static IReadOnlyList<FitNearest> Of(FitGrid grid, FitRequest request)
    {
        var most = Length.Longest.Nanometres / grid.Unit;
        (FitChange Change, FitGrid? Grid)[] changed =
        [
            (FitChange.Finished, FitFinished.Nearest(grid) is { } finished ? grid with { Finished = finished } : null),
            (FitChange.Tucks, Widened(grid.Tucks, new(1, TuckRun.MostInGroup), span => grid with { Tucks = span })),
            (FitChange.Space, Widened(grid.Spaces, new(0, most), span => grid with { Spaces = span })),
            (FitChange.Width, Widened(grid.Widths, new(1, most), span => grid with { Widths = span })),
            (FitChange.Ends, Widened(grid.Ends, new(0, most), span => grid with { Ends = span })),
            (FitChange.Cloth, LeastCloth(grid) is { } cloth ? grid with { Cloth = cloth } : null),
        ];
        return [.. changed.Where(c => c.Grid is not null).Select(c => new FitNearest(c.Change, FitRanking.First(c.Grid!, request, 1)[0]))];
    }

    /// <summary>The least cloth that any arrangement needs, in nanometres; null when none would fit however much there was.</summary>
    public static long? LeastCloth(FitGrid grid)
    {
        // Of each count the narrowest width that fits takes the least.
        var unlimited = grid with { Cloth = Length.Longest.Nanometres };
        return unlimited.Counts()
            .SelectMany(tucks => unlimited.Rows(tucks).Where(row => row.Fitting().Count > 0).Take(1))
            .Select(row => (long?)grid.ClothOf(row.Tucks, row.Width)).Min();
    }

    /// <summary>
    /// The range opened downwards, upwards or (uneven ends) both ways by the fewest steps that let something in.
    /// Opening it further never takes anything out, so the number of steps is found by halving.
    /// </summary>
    private static FitGrid? Widened(Span range, Span limits, Func<Span, FitGrid> with)
    {
        if (!with(limits).Any)
        {
            return null;
        }

        long tooFew = 0, enough = 1;
        while (!with(Opened(enough, enough)).Any)
        {
            (tooFew, enough) = (enough, enough * 2);
        }

        while (enough - tooFew > 1)
        {
            var half = (tooFew + enough) / 2;
            (tooFew, enough) = with(Opened(half, half)).Any ? (tooFew, half) : (half, enough);
        }

        return new[] { Opened(enough, 0), Opened(0, enough), Opened(enough, enough) }.Select(with).First(grid => grid.Any);

        Span Opened(long below, long above) => new(Math.Max(limits.From, range.From - below), Math.Min(limits.To, range.To + above));
    }
}
