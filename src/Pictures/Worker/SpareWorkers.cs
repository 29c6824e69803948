namespace HeirloomArchive.Pictures;

/// <summary>Workers that are up, or coming up, and have not seen any picture yet.</summary>
internal sealed class SpareWorkers(WorkerProgram program, PictureLimits limits) : IDisposable
{
    private readonly Queue<WorkerProcess> waiting = [];
    private readonly int most = Math.Min(2, Environment.ProcessorCount);
    private bool closed;

    /// <summary>A fresh worker, the caller's own from now on.</summary>
    /// <exception cref="WorkerDoesNotStartException">The system starts no process.</exception>
    public WorkerProcess Take()
    {
        lock (waiting)
        {
            while (waiting.TryDequeue(out var worker))
            {
                if (!worker.Spent)
                {
                    return worker;
                }

                worker.Dispose();
            }
        }

        return WorkerProcess.Start(program, limits);
    }

    /// <summary>Starts as many as should stand by, if the system can now.</summary>
    public void Fill()
    {
        lock (waiting)
        {
            try
            {
                while (!closed && waiting.Count < most)
                {
                    waiting.Enqueue(WorkerProcess.Start(program, limits));
                }
            }
            catch (WorkerDoesNotStartException)
            {
                // Nobody waits for these; whoever needs one is told why there is none.
            }
        }
    }

    /// <summary>Ends those that stand by.</summary>
    public void SendHome()
    {
        lock (waiting)
        {
            while (waiting.TryDequeue(out var worker))
            {
                worker.Dispose();
            }
        }
    }

    public void Dispose()
    {
        lock (waiting)
        {
            closed = true;
            SendHome();
        }
    }
}
