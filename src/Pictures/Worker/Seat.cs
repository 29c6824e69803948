using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>A place for one worker after another: where one has ended or served its time, a fresh one sits down.</summary>
/// <param name="spares">Where fresh ones come from.</param>
/// <param name="behind">They let all other processes go first.</param>
internal sealed class Seat(SpareWorkers spares, bool behind = false) : IDisposable
{
    private const int Tries = 8;

    private WorkerProcess? worker;

    /// <summary>Nobody sits there who could be handed another picture.</summary>
    public bool Empty => worker is null or { Spent: true };

    /// <summary>Has an order made. A worker that was killed while it came up has seen no picture: then the next tries.</summary>
    /// <exception cref="WorkerDoesNotStartException">None comes up.</exception>
    public async Task<WorkDone> Make(WorkOrder order, CancellationToken cancel)
    {
        for (var tries = 1; ; tries++)
        {
            if (Empty)
            {
                worker?.Dispose();
                worker = spares.Take();
                if (behind)
                {
                    worker.StandBack();
                }
            }

            try
            {
                return new WorkDone(await worker!.Make(order, cancel), null);
            }
            catch (UnsoundException e)
            {
                return new WorkDone(null, e);
            }
            catch (WorkerDoesNotStartException e) when (e.Killed && tries < Tries)
            {
                worker!.Dispose();
                worker = null;
            }
        }
    }

    public void Dispose() => worker?.Dispose();
}
