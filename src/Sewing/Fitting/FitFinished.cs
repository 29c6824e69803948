namespace HeirloomArchive.Sewing.Fitting;

/// <summary>Which finished widths can be made at all, near the one asked for. In nanometres.</summary>
internal static class FitFinished
{
    /// <summary>The nearer of two neighbours of a finished width, the smaller of two as near; null when there is none.</summary>
    public static long? Nearer((long? Below, long? Above) neighbours, long finished) =>
        neighbours.Below is null || neighbours.Above - finished < finished - neighbours.Below ? neighbours.Above : neighbours.Below;

    /// <summary>The nearest that can be made of the cloth there is, below and above the finished width; at least one finest marking.</summary>
    public static (long? Below, long? Above) Neighbours(FitGrid grid)
    {
        long? below = null, above = null;
        var centre = grid.Centre ?? 0;
        var (under, over) = (Span.Ceiling(grid.Filled, grid.Unit) - 1, Span.Floor(grid.Filled, grid.Unit) + 1);
        foreach (var row in grid.Counts().SelectMany(Rows))
        {
            var tucks = row.Tucks * row.Width;
            var most = Most(row);
            if (row.MostUpTo(Math.Min(most, under - tucks)) is { } less && Made(less) >= grid.Unit && !(below >= Made(less)))
            {
                below = Made(less);
            }

            if (row.LeastFrom(Math.Max(over, Span.Ceiling(grid.Unit - centre, grid.Unit)) - tucks) is { } more && more <= most && !(above <= Made(more)))
            {
                above = Made(more);
            }

            long Made(long rest) => centre + ((tucks + rest) * grid.Unit);
        }

        return (below, above);

        // Wider tucks leave less room in the cloth: a count is done once no width of it can come nearer, neither from below nor from above.
        IEnumerable<FitRow> Rows(int count) => grid.RowsOfAnyWidth(count).TakeWhile(row =>
        {
            var tucks = row.Tucks * row.Width;
            var room = Most(row) + tucks;
            return (tucks <= under && !(below >= centre + (Math.Min(room, under) * grid.Unit)))
                || (room >= over && !(above <= centre + (Math.Max(tucks, over) * grid.Unit)));
        });

        long Most(FitRow row) => Span.Floor(grid.Cloth - grid.TakenUp(row.Tucks, row.Width) - centre, grid.Unit) - (row.Tucks * row.Width);
    }
}
