using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using Marten;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Npgsql;

namespace HeirloomArchive.Search;

/// <summary>
/// Keeps this node's index with the record: own writes at once, everybody's by the sequence of events, so that nothing is missed.
/// Garments are loaded and put one batch at a time, so an older state never comes after a newer one.
/// </summary>
public sealed class IndexFollower(GarmentIndex index, IDocumentStore store, ILogger<IndexFollower> log) : BackgroundService
{
    private const int Batch = 500;
    private const int BuildBatch = 1_000;

    private static readonly TimeSpan Poll = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Soon = TimeSpan.FromMilliseconds(25);
    private static readonly TimeSpan CommitEvery = TimeSpan.FromSeconds(5);

    private readonly EventLog record = new(store);
    private readonly SemaphoreSlim writing = new(1, 1);
    private readonly SemaphoreSlim woken = new(0);
    private readonly ConcurrentQueue<Guid> saved = new();
    private readonly ConcurrentDictionary<long, bool> ownPositions = new();
    private TaskCompletionSource moved = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long last;
    private Task? rebuilding;
    private bool isChecked;

    /// <summary>Shows a garment that this node has just saved. Never fails: what goes wrong here is put right by following.</summary>
    public async Task Refresh(Guid garment, long position)
    {
        saved.Enqueue(garment);
        try
        {
            await Writing(async () =>
            {
                // Whoever is first takes all that wait; the others find theirs done.
                var waiting = new HashSet<Guid>();
                while (saved.TryDequeue(out var id))
                {
                    waiting.Add(id);
                }

                try
                {
                    await PutNow(waiting, CancellationToken.None);
                }
                catch
                {
                    // Those taken for others are theirs again.
                    foreach (var id in waiting)
                    {
                        saved.Enqueue(id);
                    }

                    throw;
                }
            }, CancellationToken.None);
            if (position > Volatile.Read(ref last))
            {
                ownPositions[position] = true;
            }

            Move();
        }
        catch (Exception e)
        {
            log.LogWarning(e, "The index could not take garment {Garment} at once; it follows.", garment);
        }
    }

    /// <summary>Waits until the index knows the record up to this position.</summary>
    /// <returns>False when the time was over first.</returns>
    public async Task<bool> WaitFor(long position, TimeSpan patience)
    {
        var waited = Stopwatch.StartNew();
        while (true)
        {
            var next = Volatile.Read(ref moved).Task;
            var left = patience - waited.Elapsed;
            if (Knows(position) || left <= TimeSpan.Zero)
            {
                return Knows(position);
            }

            Wake();
            await Task.WhenAny(next, Task.Delay(left < TimeSpan.FromMilliseconds(50) ? left : TimeSpan.FromMilliseconds(50)));
        }
    }

    /// <summary>Whether a change has ever been answered with this position.</summary>
    public async Task<bool> Exists(long position, CancellationToken ct) => position > 0 && await record.Exists(position, ct);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var listening = Listen(stoppingToken);
        var sinceCommit = Stopwatch.StartNew();
        var quickly = 0;
        Volatile.Write(ref last, index.Position);
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await CheckItIsOfThisRecord(stoppingToken);
                await BuildIfNeeded(stoppingToken);
                var hasMoved = await Follow(stoppingToken);
                if (sinceCommit.Elapsed >= CommitEvery)
                {
                    await Writing(Commit, stoppingToken);
                    sinceCommit.Restart();
                }

                // The mark rises a little after the word that events were appended: look again soon, for a while.
                var wasWoken = await woken.WaitAsync(quickly > 0 ? Soon : Poll, stoppingToken);
                quickly = wasWoken ? 40 : hasMoved ? 0 : quickly - 1;
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                break;
            }
            catch (Exception e)
            {
                await PutRight(e, stoppingToken);
            }
        }

        await listening;
        await (rebuilding ?? Task.CompletedTask).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        await Writing(Commit, CancellationToken.None).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    /// <summary>An index that knows more than the record ever had was made from another one: from a backup, say, brought back since.</summary>
    private async Task CheckItIsOfThisRecord(CancellationToken ct)
    {
        if (!isChecked && index.Position > await record.Newest(ct))
        {
            index.Distrust();
            Volatile.Write(ref last, 0);
        }

        isChecked = true;
    }

    private async Task<bool> Follow(CancellationToken ct)
    {
        var before = Volatile.Read(ref last);
        for (var mark = await record.HighWaterMark(ct); Volatile.Read(ref last) < mark;)
        {
            var (streams, position) = await record.Touched(Volatile.Read(ref last), mark, Batch, ct);
            await Writing(async () =>
            {
                await PutNow(streams, ct);
                // A new index adopted meanwhile may be further on already.
                Volatile.Write(ref last, Math.Max(position, Volatile.Read(ref last)));
            }, ct);
            Move();
        }

        return Volatile.Read(ref last) > before;
    }

    private async Task BuildIfNeeded(CancellationToken ct)
    {
        if (rebuilding is { IsCompleted: true })
        {
            var done = rebuilding;
            rebuilding = null;
            await done;
        }

        if (rebuilding is null && index.NeedsBuilding)
        {
            long upTo = 0;
            await Writing(async () =>
            {
                index.BeginBuilding(await record.CountGarments(ct));
                // Read after what is put goes into both: later events reach the new index by following.
                upTo = await record.HighWaterMark(ct);
                if (!index.IsReady)
                {
                    Volatile.Write(ref last, upTo);
                }
            }, ct);
            rebuilding = Rebuild(upTo, ct);
        }
    }

    private async Task Rebuild(long upTo, CancellationToken ct)
    {
        var watch = Stopwatch.StartNew();
        // The next page is read while this one is put in; a garment saved between the two is left as it was saved.
        var reading = record.StatesAfter(default, BuildBatch, ct);
        for (var page = await reading; page.Count > 0; page = await reading)
        {
            reading = page.Count == BuildBatch ? record.StatesAfter(page[^1].Id, BuildBatch, ct) : Task.FromResult<IReadOnlyList<(Guid, JsonObject)>>([]);
            await Writing(() =>
            {
                index.Build(page);
                return Task.CompletedTask;
            }, ct);
        }

        await Writing(() =>
        {
            var position = Math.Max(upTo, Volatile.Read(ref last));
            index.Adopt(position);
            Volatile.Write(ref last, position);
            return Task.CompletedTask;
        }, ct);
        log.LogInformation("A new index of {Count} garments was built in {Elapsed}.", index.Count, watch.Elapsed);
        Move();
    }

    private async Task PutNow(HashSet<Guid> garments, CancellationToken ct)
    {
        foreach (var garment in garments.Count == 0 ? [] : await record.Garments(garments, ct))
        {
            index.Put(garment.Id, garment.Version, garment.State(Sight.Pieces));
        }
    }

    private Task Commit()
    {
        index.Commit(Volatile.Read(ref last));
        return Task.CompletedTask;
    }

    /// <summary>After a failure: a database is waited for; an index that failed is opened again as last committed, or built anew.</summary>
    private async Task PutRight(Exception failure, CancellationToken ct)
    {
        log.LogWarning(failure, "The index could not follow the record; it tries again.");
        if (failure is not (NpgsqlException or Marten.Exceptions.MartenCommandException or TimeoutException) && IndexFolder.IsDamage(failure))
        {
            try
            {
                await Writing(() =>
                {
                    index.Reopen();
                    Volatile.Write(ref last, index.Position);
                    return Task.CompletedTask;
                }, ct);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or OperationCanceledException or ObjectDisposedException)
            {
                log.LogError(e, "The index can't be opened again.");
            }
        }

        await Task.Delay(Poll, ct).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    private async Task Listen(CancellationToken ct)
    {
        while (!ct.IsCancellationRequested)
        {
            try
            {
                await record.Listen(Wake, ct);
            }
            catch (Exception e) when (e is OperationCanceledException or NpgsqlException or InvalidOperationException or IOException)
            {
                // The poll goes on meanwhile.
                await Task.Delay(Poll, ct).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private async Task Writing(Func<Task> write, CancellationToken ct)
    {
        await writing.WaitAsync(ct);
        try
        {
            await write();
        }
        finally
        {
            writing.Release();
        }
    }

    private bool Knows(long position) => position <= Volatile.Read(ref last) || ownPositions.ContainsKey(position);

    private void Wake()
    {
        if (woken.CurrentCount == 0)
        {
            woken.Release();
        }
    }

    private void Move()
    {
        foreach (var position in ownPositions.Keys.Where(p => p <= Volatile.Read(ref last)))
        {
            ownPositions.TryRemove(position, out _);
        }

        Interlocked.Exchange(ref moved, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously)).TrySetResult();
    }
}
