using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using Marten;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// Changes of many pieces at once: asked for here, done in the background, one event a piece, one at a time and on one node
/// only. What is done is saved with each event, so that after a killed host the next start goes on where it was.
/// </summary>
public sealed class ManyAtOnce(IDocumentStore store, Archive archive, TimeProvider clock, ILogger<ManyAtOnce> log) : BackgroundService
{
    private const int AtOnce = 100;

    private static readonly TimeSpan Poll = TimeSpan.FromSeconds(3);

    private readonly SemaphoreSlim wake = new(0);

    /// <summary>Asks for a change of many; it is done from now on.</summary>
    /// <param name="sent">As the API takes it: which pieces, and what to change.</param>
    /// <param name="who">Who asks.</param>
    /// <param name="ct">Stops it.</param>
    /// <exception cref="FaultException">It can't be read, makes no sense, or is for no piece.</exception>
    public async Task<ManyChange> Ask(JsonObject sent, string who, CancellationToken ct = default)
    {
        var request = ManyRequest.Read(sent);
        var now = clock.GetUtcNow();
        var many = new ManyChange { Id = clock.NewId(now), Who = who, When = now, Asked = request.Asked };
        await using var session = store.LightweightSession();
        IReadOnlyList<Guid> ids = request.All is { } all ? await PieceList.Ids(session, all, ct) : request.Pieces;
        await Check(session, request, ids, ct);
        many.Total = ids.Count;
        await session.BeginTransactionAsync(ct);
        session.Insert(many);
        session.InsertObjects(ids.Select((id, i) => new ManyPiece { Id = $"{many.Id:N}/{i:D6}", Many = many.Id, Garment = id }));
        await session.SaveChangesAsync(ct);
        wake.Release();
        return many;
    }

    /// <summary>Asks for it to be undone: what waits is not done any more, what was done is put back where nobody changed it since. Asked again, nothing more happens.</summary>
    /// <exception cref="NotFoundException">There is no such change.</exception>
    public async Task<ManyChange> Undo(Guid id, CancellationToken ct = default)
    {
        await using var session = store.LightweightSession();
        var many = await Hold(session, id, ct) ?? throw Missing(id);
        if (many.Undoing is null)
        {
            (many.Undoing, many.Open) = (clock.GetUtcNow(), true);
            session.Store(many);
            await session.SaveChangesAsync(ct);
            wake.Release();
        }

        return many;
    }

    /// <summary>How far a change of many is.</summary>
    /// <exception cref="NotFoundException">There is no such change.</exception>
    public async Task<ManyProgress> Find(Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var many = await session.LoadAsync<ManyChange>(id, ct) ?? throw Missing(id);
        var counts = await session.AdvancedSql.QueryAsync<string>(
            $"select outcome || ' ' || count(*) from {CatalogueStore.Schema}.mt_doc_manypiece where many = ? group by outcome", ct, id);
        return new(Seen(many), counts.Select(c => c.Split(' ')).ToDictionary(c => Enum.Parse<ManyOutcome>(c[0]), c => int.Parse(c[1], CultureInfo.InvariantCulture)));
    }

    /// <summary>One page of the pieces that were left as they were, other than those that were so already.</summary>
    public async Task<IReadOnlyList<ManyPiece>> Left(Guid id, int page, int size, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return await session.Query<ManyPiece>().Where(p => p.Many == id && p.Outcome.IsOneOf(ManyProgress.LeftAlone))
            .OrderBy(p => p.Id).Skip((page - 1) * size).Take(size).ToListAsync(ct);
    }

    /// <summary>The last changes of many, the newest first.</summary>
    public async Task<IReadOnlyList<ManyChange>> Latest(int most, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return [.. (await session.Query<ManyChange>().OrderByDescending(m => m.Id).Take(most).ToListAsync(ct)).Select(Seen)];
    }

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await DoAll(stoppingToken);
                await wake.WaitAsync(Poll, stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // Whatever it was, the work is still there; it is said and tried again.
            catch (Exception e)
#pragma warning restore CA1031
            {
                log.GoesOnLater(e);
                await Task.Delay(Poll, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    // One node at a time; the lock goes with the connection, so that a killed host holds nobody up.
    private async Task DoAll(CancellationToken ct)
    {
        await using var alone = store.LightweightSession();
        if (!await alone.Query<ManyChange>().AnyAsync(m => m.Open == true, ct))
        {
            return;
        }

        await alone.BeginTransactionAsync(ct);
        var mine = await alone.AdvancedSql.QueryAsync<bool>("select pg_try_advisory_xact_lock(hashtext('archive_many_at_once'))", ct);
        while (mine[0] && await Next(ct) is { } many)
        {
            await DoSome(many, ct);
        }
    }

    private async Task<ManyChange?> Next(CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.Query<ManyChange>().Where(m => m.Open == true).OrderBy(m => m.Id).FirstOrDefaultAsync(ct);
    }

    private async Task DoSome(ManyChange many, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        var toDo = many.Undoing is null ? new[] { ManyOutcome.Waiting } : [ManyOutcome.Waiting, ManyOutcome.Changed];
        var pieces = await session.Query<ManyPiece>().Where(p => p.Many == many.Id && p.Outcome.IsOneOf(toDo)).OrderBy(p => p.Id).Take(AtOnce).ToListAsync(ct);
        foreach (var piece in pieces)
        {
            await (many.Undoing is null ? Do(many, piece, ct) : piece.Outcome == ManyOutcome.Waiting ? Keep(piece, ManyOutcome.Stopped, null, ct) : Undo(many, piece, ct));
        }

        if (pieces.Count == 0 && await Hold(session, many.Id, ct) is { } now && now.Undoing == many.Undoing)
        {
            now.Open = false;
            session.Store(now);
            await session.SaveChangesAsync(ct);
        }
    }

    // Until the session ends nobody else holds it: an undo that is asked for while the change ends is not written over.
    private static async Task<ManyChange?> Hold(IDocumentSession session, Guid id, CancellationToken ct)
    {
        await session.BeginTransactionAsync(ct);
        await session.AdvancedSql.QueryAsync<Guid>($"select id from {CatalogueStore.Schema}.mt_doc_manychange where id = ? for update", ct, id);
        return await session.LoadAsync<ManyChange>(id, ct);
    }

    // A place that is asked for is told to those who may know places.
    private static ManyChange Seen(ManyChange many)
    {
        if (many.Asked["change"] is JsonObject change)
        {
            Viewer.Now.Sight.Trim(change);
        }

        return many;
    }

    private async Task Do(ManyChange many, ManyPiece piece, CancellationToken ct)
    {
        JsonObject before = [];
        var changed = false;
        await Try(piece, async () =>
        {
            await archive.ChangeInTurn(piece.Garment, now =>
            {
                before = now.Fields.DeepClone().AsObject();
                return ManyRequest.Patch(many.Asked, now);
            }, many.Who, (session, e) =>
            {
                changed = true;
                (piece.Outcome, piece.After) = (ManyOutcome.Changed, e.Fields.DeepClone().AsObject());
                piece.Before = new(e.Fields.Select(f => KeyValuePair.Create(f.Key, before[f.Key]?.DeepClone())));
                SaveWith(session, many, piece);
            }, ct);
            if (!changed)
            {
                await Keep(piece, ManyOutcome.Same, null, ct);
            }
        }, ct);
    }

    private Task Undo(ManyChange many, ManyPiece piece, CancellationToken ct) => Try(piece, async () =>
    {
        IReadOnlyList<string> since = [];
        var undone = false;
        await archive.ChangeInTurn(piece.Garment, now =>
        {
            (var patch, since) = ManyRequest.Unpatch(piece, now);
            return patch;
        }, many.Who, (session, _) =>
        {
            undone = true;
            (piece.Outcome, piece.Why) = since.Count == 0 ? (ManyOutcome.Undone, null) : (ManyOutcome.ChangedSince, string.Join(", ", since));
            SaveWith(session, many, piece);
        }, ct);
        if (!undone)
        {
            await Keep(piece, since.Count == 0 ? ManyOutcome.Undone : ManyOutcome.ChangedSince, since.Count == 0 ? null : string.Join(", ", since), ct);
        }
    }, ct);

    private static void SaveWith(IDocumentSession session, ManyChange many, ManyPiece piece)
    {
        session.SetHeader(ManyStore.Header, many.Id.ToString());
        session.Store(piece);
    }

    private async Task Try(ManyPiece piece, Func<Task> what, CancellationToken ct)
    {
        try
        {
            await what();
        }
        catch (SetAsideException e)
        {
            await Keep(piece, ManyOutcome.Aside, e.Message, ct);
        }
        catch (FaultException e)
        {
            await Keep(piece, ManyOutcome.Refused, string.Join(" ", e.Faults.Take(3).Select(f => f.Message)), ct);
        }
        catch (StaleException e)
        {
            await Keep(piece, ManyOutcome.Refused, e.Message, ct);
        }
    }

    private async Task Keep(ManyPiece piece, ManyOutcome outcome, string? why, CancellationToken ct)
    {
        (piece.Outcome, piece.Why) = (outcome, why);
        await using var session = store.LightweightSession();
        session.Store(piece);
        await session.SaveChangesAsync(ct);
    }

    private static async Task Check(IQuerySession session, ManyRequest request, IReadOnlyList<Guid> ids, CancellationToken ct)
    {
        if (ids.Count is 0 or > ManyRequest.Most)
        {
            throw new FaultException("all", ids.Count == 0 ? T("No piece is as asked for.") : T($"{ids.Count} pieces are too many at once; {ManyRequest.Most} is the most."));
        }

        var named = request.Pieces.ToArray();
        var there = (await session.Query<Garment>().Where(g => g.Id.IsOneOf(named)).Select(g => g.Id).ToListAsync(ct)).ToHashSet();
        var faults = named.Select((id, i) => (id, i)).Where(n => !there.Contains(n.id)).Take(20).Select(n => new Fault($"pieces[{n.i}]", T($"No garment has the id {n.id}."))).ToList();
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }
    }

    private static NotFoundException Missing(Guid id) => new(T($"No change of many has the id {id}."));
}

/// <summary>How far a change of many is.</summary>
/// <param name="Many">What was asked.</param>
/// <param name="Counts">How many pieces have each outcome.</param>
public sealed record ManyProgress(ManyChange Many, IReadOnlyDictionary<ManyOutcome, int> Counts)
{
    /// <summary>The outcomes of pieces that were left as they were though something was asked of them.</summary>
    public static readonly ManyOutcome[] LeftAlone = [ManyOutcome.Aside, ManyOutcome.Refused, ManyOutcome.ChangedSince];

    /// <summary>How many pieces have one of these outcomes.</summary>
    public int Count(params ManyOutcome[] outcomes) => outcomes.Sum(o => Counts.GetValueOrDefault(o));

    /// <summary>How many had their turn: of the undoing, once it is asked for.</summary>
    public int Done => Many.Total - Count(ManyOutcome.Waiting) - (Many.Undoing is null ? 0 : Count(ManyOutcome.Changed));
}

internal static partial class ManyLog
{
    [LoggerMessage(Level = LogLevel.Warning, Message = "A change of many pieces at once could not go on; it is tried again.")]
    public static partial void GoesOnLater(this ILogger log, Exception e);
}
