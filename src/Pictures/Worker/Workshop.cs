using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>What came of an order: one of the two.</summary>
internal sealed record WorkDone(WorkerAnswer? Made, UnsoundException? Fault);

/// <summary>
/// Hands pictures to workers, as many at once as there are cores. A batch shares its workers and no two batches do; the
/// workers that compose regions each see one picture's tiles only. So that this costs no waiting, fresh workers stand by.
/// </summary>
public sealed class Workshop : IDisposable
{
    private static readonly TimeSpan Idle = TimeSpan.FromMinutes(5), Pause = TimeSpan.FromSeconds(1);

    private readonly SemaphoreSlim benches = new(Environment.ProcessorCount);
    private readonly SemaphoreSlim behind = new(1);
    private readonly SpareWorkers spares;
    private readonly RegionWorkers regions;
    private readonly Timer idle, pause;
    private long lastUse = Environment.TickCount64;

    /// <summary>A workshop without any worker yet.</summary>
    public Workshop(WorkerProgram program, PictureLimits limits)
    {
        spares = new SpareWorkers(program, limits);
        regions = new RegionWorkers(spares);
        idle = new Timer(_ => SendHome(), null, Idle, Idle);
        pause = new Timer(_ => spares.Fill(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

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
            try
            {
                using var seat = new Seat(spares);
                for (int i; (i = Interlocked.Increment(ref next)) < orders.Count;)
                {
                    done[i] = await seat.Make(orders[i], cancel);
                }
            }
            finally
            {
                Used();
                benches.Release();
            }
        }
    }

    /// <summary>Makes what nobody waits for: one at a time, after what others need of the machine.</summary>
    internal async Task<WorkDone> MakeBehind(WorkOrder order, CancellationToken cancel)
    {
        await behind.WaitAsync(cancel);
        try
        {
            using var seat = new Seat(spares, behind: true);
            return await seat.Make(order, cancel);
        }
        finally
        {
            Used();
            behind.Release();
        }
    }

    /// <summary>Has a region composed by the worker that has this picture's tiles in hand.</summary>
    internal async Task<WorkDone> Compose(string sha256, WorkOrder order, CancellationToken cancel)
    {
        await benches.WaitAsync(cancel);
        try
        {
            // Once begun it is soon done; to stop it would take the picture's worker along, and the next would wait for another.
            return await regions.Make(sha256, order, CancellationToken.None);
        }
        finally
        {
            Expect();
            benches.Release();
        }
    }

    /// <summary>
    /// Somebody looks at pictures, and may want a region next. Fresh workers come up when no more is asked for a moment: earlier
    /// they would take a core from what is being waited for.
    /// </summary>
    internal void Expect()
    {
        Interlocked.Exchange(ref lastUse, Environment.TickCount64);
        pause.Change(Pause, Timeout.InfiniteTimeSpan);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        idle.Dispose();
        pause.Dispose();
        regions.Dispose();
        spares.Dispose();
        benches.Dispose();
        behind.Dispose();
    }

    private void Used()
    {
        Interlocked.Exchange(ref lastUse, Environment.TickCount64);
        spares.Fill();
    }

    /// <summary>After minutes without work nobody stands by.</summary>
    private void SendHome()
    {
        if (Environment.TickCount64 - Interlocked.Read(ref lastUse) >= Idle.TotalMilliseconds)
        {
            regions.SendHome();
            spares.SendHome();
        }
    }
}
