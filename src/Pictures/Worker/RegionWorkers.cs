namespace HeirloomArchive.Pictures;

/// <summary>
/// Workers that compose regions, kept for the next region of the same picture. Tiles come out of workers that crafted files
/// may have taken over: so a worker that has seen one picture's tiles is never handed another's.
/// </summary>
internal sealed class RegionWorkers(SpareWorkers spares) : IDisposable
{
    private const int Most = 2;

    private readonly List<(string Sha256, WorkerProcess Worker)> resting = [];
    private bool closed;

    /// <summary>Does something with a worker of that picture, which nobody else has meanwhile.</summary>
    public async Task<T> With<T>(string sha256, Func<WorkerProcess, Task<T>> work, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        var worker = Take(sha256) ?? spares.Take();
        try
        {
            return await work(worker);
        }
        finally
        {
            Rest(sha256, worker);
        }
    }

    public void SendHome()
    {
        lock (resting)
        {
            resting.ForEach(r => r.Worker.Dispose());
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

    private WorkerProcess? Take(string sha256)
    {
        lock (resting)
        {
            var at = resting.FindIndex(r => r.Sha256 == sha256 && !r.Worker.Spent);
            if (at < 0)
            {
                return null;
            }

            var worker = resting[at].Worker;
            resting.RemoveAt(at);
            return worker;
        }
    }

    private void Rest(string sha256, WorkerProcess worker)
    {
        lock (resting)
        {
            if (closed || worker.Spent)
            {
                worker.Dispose();
                return;
            }

            resting.Add((sha256, worker));
            if (resting.Count > Most)
            {
                resting[0].Worker.Dispose();
                resting.RemoveAt(0);
            }
        }
    }
}
