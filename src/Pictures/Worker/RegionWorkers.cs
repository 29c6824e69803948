namespace HeirloomArchive.Pictures;

/// <summary>
/// Workers that compose regions, kept for the next region of the same picture. Tiles come out of workers that crafted files
/// may have taken over: so a worker that has seen one picture's tiles is never handed another's.
/// </summary>
internal sealed class RegionWorkers(SpareWorkers spares) : IDisposable
{
    private const int Most = 2;

    private readonly List<(string Sha256, Seat Seat)> resting = [];
    private bool closed;

    /// <summary>Has a region made by a worker of that picture, which nobody else has meanwhile.</summary>
    public async Task<WorkDone> Make(string sha256, WorkOrder order, CancellationToken cancel)
    {
        var seat = Take(sha256) ?? new Seat(spares);
        try
        {
            return await seat.Make(order, cancel);
        }
        finally
        {
            Rest(sha256, seat);
        }
    }

    public void SendHome()
    {
        lock (resting)
        {
            resting.ForEach(r => r.Seat.Dispose());
            resting.Clear();
        }
    }

    public void Dispose()
    {
        lock (resting)
        {
            closed = true;
            SendHome();
        }
    }

    private Seat? Take(string sha256)
    {
        lock (resting)
        {
            var at = resting.FindIndex(r => r.Sha256 == sha256);
            if (at < 0)
            {
                return null;
            }

            var seat = resting[at].Seat;
            resting.RemoveAt(at);
            return seat;
        }
    }

    private void Rest(string sha256, Seat seat)
    {
        lock (resting)
        {
            if (closed || seat.Empty)
            {
                seat.Dispose();
                return;
            }

            resting.Add((sha256, seat));
            if (resting.Count > Most)
            {
                resting[0].Seat.Dispose();
                resting.RemoveAt(0);
            }
        }
    }
}
