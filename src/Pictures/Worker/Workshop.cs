using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>One picture to be made: where its file is, and what it was found to be.</summary>
internal sealed record WorkOrder(Func<Stream> Open, SoundPicture Sound);

/// <summary>What came of it: one of the two.</summary>
internal sealed record WorkDone(WorkerAnswer? Made, UnsoundException? Fault);

/// <summary>Hands pictures to workers, as many at once as there are cores; a batch shares its workers, no two batches do.</summary>
public sealed class Workshop(WorkerProgram program, PictureLimits limits) : IDisposable
{
    private readonly SemaphoreSlim benches = new(Environment.ProcessorCount);

    /// <summary>Makes a batch, each in its order's place. A worker that dies takes only its own picture along.</summary>
    internal async Task<WorkDone[]> Make(IReadOnlyList<WorkOrder> orders, CancellationToken cancel)
    {
        var done = new WorkDone[orders.Count];
        var next = -1;
        await Task.WhenAll(Enumerable.Range(0, Math.Min(orders.Count, Environment.ProcessorCount)).Select(_ => Bench()));
        return done;

        async Task Bench()
        {
            await benches.WaitAsync(cancel);
            WorkerProcess? worker = null;
            try
            {
                for (int i; (i = Interlocked.Increment(ref next)) < orders.Count;)
                {
                    if (worker is null or { Spent: true })
                    {
                        worker?.Dispose();
                        worker = WorkerProcess.Start(program, limits);
                    }

                    done[i] = await Make(worker, orders[i], cancel);
                }
            }
            finally
            {
                worker?.Dispose();
                benches.Release();
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose() => benches.Dispose();

    private static async Task<WorkDone> Make(WorkerProcess worker, WorkOrder order, CancellationToken cancel)
    {
        await using var file = order.Open();
        try
        {
            return new WorkDone(await worker.Make(file, order.Sound, cancel), null);
        }
        catch (UnsoundException e)
        {
            return new WorkDone(null, e);
        }
    }
}
