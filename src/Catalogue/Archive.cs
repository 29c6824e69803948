using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using JasperFx;
using JasperFx.Events;
using Marten;
using Npgsql;

namespace HeirloomArchive.Catalogue;

/// <summary>A garment as it stands after a save.</summary>
/// <param name="Garment">The garment.</param>
/// <param name="Position">The global position of its last event; where nothing changed, that of the change before.</param>
public record Saved(Garment Garment, long Position);

/// <summary>The same, with the entry that was saved, as the API shows it.</summary>
public sealed record SavedEntry(Garment Garment, JsonObject Entry, long Position);

/// <summary>
/// The room's door: everything that is read from the record or changed in it. Each change is one event, saved with the
/// snapshot and the number's reservation in one transaction; one that changes nothing saves nothing and answers as it stands.
/// Refusals: <see cref="FaultException"/> (what can't be read comes before all else), <see cref="NotFoundException"/>,
/// <see cref="SetAsideException"/>, <see cref="StaleException"/>, <see cref="TakenException"/>, looked at in this order.
/// </summary>
public sealed class Archive(IDocumentStore store, TimeProvider clock)
{
    private const int MostOwners = 10_000;

    private readonly ConcurrentDictionary<Guid, PictureOwner> owners = new();

    /// <summary>The garment, also one set aside; null if there is none that <see cref="Viewer.Now"/> may see.</summary>
    public async Task<Garment?> Find(Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Garment>(id, ct) is { } garment && Viewer.Now.Sight.Sees(garment) ? garment : null;
    }

    /// <summary>Whose a picture is, and its digest; null if there is none that <see cref="Viewer.Now"/> may see. A visitor sees those that stand in the record of a piece shown to her.</summary>
    public async Task<PictureOwner?> FindPicture(Guid id, CancellationToken ct = default)
    {
        // What is said of a picture when it comes in never changes: it is read once. Who may see it is asked each time.
        if (!owners.TryGetValue(id, out var owner))
        {
            await using var session = store.QuerySession();
            if ((owner = await session.LoadAsync<PictureOwner>(id, ct)) is null)
            {
                return null;
            }

            if (owners.Count >= MostOwners)
            {
                owners.Clear();
            }

            owners.TryAdd(id, owner);
        }

        return !Viewer.Now.Sight.OnlyShown
            || (await Find(owner.Garment, ct))?.Fields["pictures"] is JsonArray pictures && Folding.Place(pictures, id.ToString()) >= 0 ? owner : null;
    }

    /// <summary>One page of all garments that are not set aside, newest first, and how many there are.</summary>
    /// <param name="page">From 1.</param>
    /// <param name="size">Garments a page.</param>
    /// <param name="ct">Stops it.</param>
    public async Task<(long Total, IReadOnlyList<Garment> Items)> Page(int page, int size, CancellationToken ct = default)
    {
        if (Viewer.Now.Sight.Blind)
        {
            return (0, []);
        }

        await using var session = store.QuerySession();
        // "== false" is asked of the index as it is; "!" would ask for null too and miss it.
        var seen = session.Query<Garment>().Where(g => g.IsAside == false);
        if (Viewer.Now.Sight.OnlyShown)
        {
            seen = seen.Where(g => g.IsForVisitors == true);
        }

        var total = await seen.LongCountAsync(ct);
        // Ids of version 7 rise in the order of entry; the primary key is the order.
        var items = await seen.OrderByDescending(g => g.Id).Skip((page - 1) * size).Take(size).ToListAsync(ct);
        return (total, items);
    }

    /// <summary>The number after the greatest of her commonest pattern, as she writes it; null where no piece has one that counts.</summary>
    public async Task<string?> NextNumber(CancellationToken ct = default)
    {
        await using var session = store.LightweightSession();
        // Those of pieces set aside are taken too, so it is the reservations that are looked at.
        return await NumberReservation.Greatest(session, ct) is { } greatest
            && await session.LoadAsync<Garment>(greatest.Garment, ct) is { Number: { } number }
                ? Numbers.After(number)
                : null;
    }

    /// <summary>Enters a new garment: one event that carries everything sent.</summary>
    public async Task<Saved> Enter(JsonObject sent, string who, CancellationToken ct = default)
    {
        var now = clock.GetUtcNow();
        var entered = Decisions.Enter(Reading.Garment(sent), now);
        var id = clock.NewId(now);
        await using var session = Open(who);
        await CheckBelonging(session, id, [], entered.Fields, ct);
        var stream = session.Events.StartStream<Garment>(id, entered);
        var number = entered.Fields["number"]?.GetValue<string>();
        NumberReservation.Move(session, id, null, number);
        session.Store(ListedPiece.Of(id, 1, entered.Fields, now, aside: false));
        await Save(session, id, number, ct);
        return After(null, id, stream.Events[^1]);
    }

    /// <summary>Changes fields by a JSON merge patch (RFC 7396).</summary>
    public Task<Saved> Change(Guid id, long version, JsonObject patch, string who, CancellationToken ct = default)
    {
        var sent = Reading.Garment(patch);
        return Write(id, version, who, now => Decisions.Change(now, sent with { Faults = [.. sent.Faults] }, clock.GetUtcNow()), now => Decisions.Differs(now, sent), ct);
    }

    /// <summary>Changes a piece at whatever version it stands, when its turn comes: one of many at once.</summary>
    /// <param name="id">The piece.</param>
    /// <param name="patch">The merge patch that follows from the piece as it stands.</param>
    /// <param name="who">Who changes it.</param>
    /// <param name="alsoSave">What is saved with the event.</param>
    /// <param name="ct">Stops it.</param>
    internal Task<Saved> ChangeInTurn(Guid id, Func<Garment, JsonObject> patch, string who, Action<IDocumentSession, GarmentChanged> alsoSave, CancellationToken ct) =>
        Write(id, null, who, now => Decisions.Change(now, Reading.Garment(patch(now)), clock.GetUtcNow()), _ => [], ct,
            alsoSave: (session, e) => alsoSave(session, (GarmentChanged)e));

    /// <summary>Adds an entry at the end of <c>techniques, examinations, condition</c> or <c>repairs</c>.</summary>
    public async Task<SavedEntry> AddEntry(Guid id, long version, string list, JsonObject entry, string who, CancellationToken ct = default)
    {
        if (!GarmentShape.EntryLists.Contains(list))
        {
            throw new ArgumentException($"Nothing is added to \"{list}\" here; the lists are {string.Join(", ", GarmentShape.EntryLists)}.", nameof(list));
        }

        var sent = Reading.Entry(list, entry);
        var saved = await Write(id, version, who, now => Decisions.Add(now, list, sent, clock.GetUtcNow()), now => Decisions.Differs(now, list, null, sent.Read), ct);
        return Shown(saved, list, saved.Garment.Fields[list]!.AsArray()[^1]!);
    }

    /// <summary>Puts an entry as sent in the place of the one with this id; of a picture, its caption, view and tags.</summary>
    public async Task<SavedEntry> PutEntry(Guid id, long version, string list, Guid entryId, JsonObject entry, string who, CancellationToken ct = default)
    {
        var sent = Reading.Entry(list, entry);
        var saved = await Write(id, version, who, now => Decisions.Put(now, list, entryId, sent), now => Decisions.Differs(now, list, entryId, sent.Read), ct);
        var entries = saved.Garment.Fields[list]!.AsArray();
        return Shown(saved, list, entries[Folding.Place(entries, entryId.ToString())]!);
    }

    /// <summary>Takes an entry or a picture out, and references to it; history keeps it.</summary>
    public Task<Saved> RemoveEntry(Guid id, long version, string list, Guid entryId, string who, CancellationToken ct = default) =>
        Write(id, version, who, now => Decisions.Remove(now, list, entryId), now => Decisions.Differs(now, list, entryId, null), ct);

    /// <summary>Sets a garment aside that was entered by mistake: it keeps its number, leaves lists and search, refuses changes.</summary>
    public Task<Saved> SetAside(Guid id, long version, string who, CancellationToken ct = default) =>
        Write(id, version, who, _ => new GarmentSetAside(), _ => [], ct);

    /// <summary>Brings a garment back; one that is not set aside stays as it is.</summary>
    public Task<Saved> BringBack(Guid id, string who, CancellationToken ct = default) =>
        Write(id, null, who, now => now.IsAside ? new GarmentBroughtBack() : null, _ => [], ct, asideToo: true);

    /// <summary>Shows a garment to visitors, or hides it from them again.</summary>
    public Task<Saved> ShowToVisitors(Guid id, long version, bool show, string who, CancellationToken ct = default) => Write(id, version, who,
        now => now.IsForVisitors == show ? null : show ? new GarmentShownToVisitors() : new GarmentHiddenFromVisitors(), _ => [], ct);

    /// <summary>Puts back the record as it was at a version, or one field of it.</summary>
    public async Task<Saved> PutBack(Guid id, long version, long toVersion, string? field, string who, CancellationToken ct = default)
    {
        if (field is not null && GarmentShape.Garment.Fields.All(f => f.Name != field))
        {
            var nearest = Sent.Nearest(field, GarmentShape.Garment.Fields.Select(f => f.Name));
            throw new FaultException("field", nearest.Count == 0
                ? T($"{Sent.Quote(field)} is not a field of the record.")
                : T($"{Sent.Quote(field)} is not a field of the record; nearest: {string.Join(", ", nearest)}."));
        }

        await using var reading = store.QuerySession();
        var then = toVersion < 1 ? null : await reading.Events.AggregateStreamAsync<Garment>(id, toVersion, token: ct);
        return await Write(id, version, who,
            now => Decisions.PutBack(now, At(then, now, toVersion), field),
            now => Differences.Between(now.Fields, At(then, now, toVersion).Fields), ct);
    }

    /// <summary>What changed, when and by whom, newest first: <c>{"total","items":[{"version","when","who","what","changes":[{"path","old","new"}]}]}</c>.</summary>
    public async Task<JsonObject> History(Guid id, int page, int size, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var sight = Viewer.Now.Sight;
        var now = await session.LoadAsync<Garment>(id, ct) is { } garment && sight.Sees(garment) ? garment : throw Missing(id);
        if (sight.OnlyShown)
        {
            return new() { ["total"] = 0, ["items"] = new JsonArray() };
        }

        var newest = now.Version - ((long)(page - 1) * size);
        IReadOnlyList<IEvent> events = newest < 1 ? [] : await session.Events.FetchStreamAsync(id, newest, token: ct);
        var (told, tellsPrivate) = Catalogue.History.Write(events, now.Version, size, sight);
        if (tellsPrivate)
        {
            Viewer.Now.Saw(id);
        }

        return told;
    }

    /// <summary>Adds uploaded pictures, each with its <see cref="PictureOwner"/>; one the garment already has by its digest is not added again.</summary>
    /// <param name="id">The garment.</param>
    /// <param name="pictures">Each <c>{"id"?,"sha256","width","height","format","caption"?,"view"?,"tags"?}</c>.</param>
    /// <param name="who">Who uploads.</param>
    /// <param name="ct">Stops it.</param>
    public Task<Saved> AddPictures(Guid id, IReadOnlyList<JsonObject> pictures, string who, CancellationToken ct = default)
    {
        var formats = pictures.ToLookup(p => p["sha256"]!.GetValue<string>(), p => p["format"]?.GetValue<string>() ?? "");
        return Write(id, null, who, now => Decisions.AddPictures(now, pictures, clock.GetUtcNow()), _ => [], ct, alsoSave: (session, e) =>
            session.Insert(((PicturesAdded)e).Pictures.Select(p => new PictureOwner
            {
                Id = Guid.Parse(p!["id"]!.GetValue<string>()),
                Garment = id,
                Sha256 = p["sha256"]!.GetValue<string>(),
                Format = formats[p["sha256"]!.GetValue<string>()].First(),
            })));
    }

    // Every change of a garment goes through here: look, decide, save once. Without a version it waits for its turn instead.
    private async Task<Saved> Write(
        Guid id, long? version, string who, Func<Garment, object?> decide, Func<Garment, IReadOnlyList<Difference>> differs, CancellationToken ct,
        bool asideToo = false, Action<IDocumentSession, object>? alsoSave = null)
    {
        await using var session = Open(who);
        var stream = version is null
            ? await session.Events.FetchForExclusiveWriting<Garment>(id, ct)
            : await session.Events.FetchForWriting<Garment>(id, ct);
        var now = stream.Aggregate ?? throw Missing(id);
        if (now.IsAside && !asideToo)
        {
            throw new SetAsideException();
        }

        if (version is not null && (version != now.Version || version != stream.CurrentVersion))
        {
            throw Stale(now, differs);
        }

        if (decide(now) is not { } e)
        {
            return new(now, now.Position);
        }

        var before = now.Copy();
        var after = now.Fields.DeepClone().AsObject();
        Folding.Apply(after, e);
        var number = after["number"]?.GetValue<string>();
        await CheckBelonging(session, id, before.Fields, after, ct);
        stream.AppendOne(e);
        NumberReservation.Move(session, id, before.Number, number);
        session.Store(ListedPiece.Of(id, before.Version + 1, after, clock.GetUtcNow(), e is GarmentSetAside || (before.IsAside && e is not GarmentBroughtBack)));
        alsoSave?.Invoke(session, e);
        try
        {
            await Save(session, id, number, ct);
        }
        catch (ConcurrencyException)
        {
            var newest = await Find(id, ct) ?? throw Missing(id);
            throw newest.IsAside && !asideToo ? new SetAsideException() : Stale(newest, differs);
        }

        return After(before, id, stream.Events[^1]);
    }

    private async Task Save(IDocumentSession session, Guid garment, string? number, CancellationToken ct)
    {
        try
        {
            await session.SaveChangesAsync(ct);
        }
        catch (Exception e) when (number is not null && (e is DocumentAlreadyExistsException || IsDeadlock(e)))
        {
            await using var reading = store.QuerySession();
            if (await reading.LoadAsync<NumberReservation>(NumberReservation.Normalise(number), ct) is not { } taken || taken.Garment == garment)
            {
                throw;
            }

            var holder = await reading.LoadAsync<Garment>(taken.Garment, ct);
            throw new TakenException(number, taken.Garment, holder?.Name ?? "");
        }
    }

    // Two pieces that exchange their numbers at once wait for each other; PostgreSQL ends it for one of them.
    private static bool IsDeadlock(Exception? e) =>
        e is not null && (e is PostgresException { SqlState: PostgresErrorCodes.DeadlockDetected } || IsDeadlock(e.InnerException));

    private static async Task CheckBelonging(IQuerySession session, Guid self, JsonObject before, JsonObject after, CancellationToken ct)
    {
        var known = (before["belongsWith"] as JsonArray ?? []).Select(g => g!.GetValue<string>()).ToHashSet();
        var named = (after["belongsWith"] as JsonArray ?? []).Select((g, i) => (Id: Guid.Parse(g!.GetValue<string>()), Path: $"belongsWith[{i}]"))
            .Where(g => !known.Contains(g.Id.ToString())).ToList();
        if (named.Count == 0)
        {
            return;
        }

        var ids = named.Select(g => g.Id).ToArray();
        var there = (await session.Query<Garment>().Where(g => g.Id.IsOneOf(ids)).Select(g => g.Id).ToListAsync(ct)).ToHashSet();
        var faults = named.Where(g => g.Id == self || !there.Contains(g.Id)).Select(g => new Fault(
            g.Path, g.Id == self ? T("A piece can't belong with itself; send the id of another.") : T($"No garment has the id {g.Id}."))).ToList();
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }
    }

    private IDocumentSession Open(string who)
    {
        var session = store.LightweightSession();
        ((IMetadataContext)session).CurrentUserName = who;
        return session;
    }

    private static Saved After(Garment? before, Guid id, IEvent e)
    {
        var garment = GarmentProjection.After(before, id, e);
        return new(garment, garment.Position);
    }

    private static SavedEntry Shown(Saved saved, string list, JsonNode entry) =>
        new(saved.Garment, GarmentShape.EntryOf(list).Present(entry).AsObject(), saved.Position);

    private static Garment At(Garment? then, Garment now, long version) =>
        then is not null && version <= now.Version ? then : throw new NotFoundException(T($"The record has the versions 1 to {now.Version}, no version {version}."));

    private static StaleException Stale(Garment now, Func<Garment, IReadOnlyList<Difference>> differs) =>
        new(now.Version, Decisions.Written(differs(now), Viewer.Now.Sight));

    private static NotFoundException Missing(Guid id) => new(T($"No garment has the id {id}."));
}
