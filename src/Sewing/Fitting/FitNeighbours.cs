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
            (FitChange.Finished, FitFinished.Nearer(FitFinished.Neighbours(grid), grid.Finished) is { } finished ? grid with { Finished = finished } : null),
            (FitChange.Tucks, Widening.Least(grid.Tucks, new(1, TuckRun.MostInGroup), span => grid with { Tucks = span }, g => g.Any)),
            (FitChange.Space, Widening.Least(grid.Spaces, new(0, most), span => grid with { Spaces = span }, g => g.Any)),
            (FitChange.Width, Widening.Least(grid.Widths, new(1, most), span => grid with { Widths = span }, g => g.Any)),
            (FitChange.Ends, Widening.Least(grid.Ends, new(0, most), span => grid with { Ends = span }, g => g.Any)),
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
}
