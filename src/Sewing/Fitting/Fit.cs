using HeirloomArchive.Sewing.Fitting;

namespace HeirloomArchive.Sewing;

/// <summary>
/// Which runs of equal tucks fill a width exactly: finished = n × width + (n - 1) × space + both ends, every part a whole number
/// of the finest marking. Whole-number arithmetic throughout; what is counted is counted, not listed.
/// </summary>
/// <remarks>
/// In a centre lie with a given centre, finished = centre + n × width + (n - 2) × space + both ends; with the centre left out it is one of the spaces.
/// Closeness to <see cref="FitRequest.Like"/>, in this order: how far space : width lies from the antique's (arrangements without a space last),
/// how far the count, how far the width, the smaller space, the evener ends; then tucks, width, lead, rising.
/// </remarks>
public static class Fit
{
    /// <summary>Finds, counts and ranks; when nothing fits, proves it and gives the nearest in each direction.</summary>
    /// <exception cref="FaultException">The request makes no sense: every fault found, by its path; kind <see cref="FaultKind.Senseless"/>.</exception>
    public static FitAnswer Find(FitRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        FitChecks.Check(request);
        var grid = FitGrid.Of(request);
        var count = grid.Counts().Sum(grid.CountOf);
        return count > 0
            ? new() { Count = count, Arrangements = FitRanking.First(grid, request, FitAnswer.MostListed), Unit = request.Unit }
            : new() { Count = 0, Arrangements = [], Nearest = FitNeighbours.Of(grid, request), Reason = FitReason.Of(grid, request), Unit = request.Unit };
    }
}
