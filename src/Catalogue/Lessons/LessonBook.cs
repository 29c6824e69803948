using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using JasperFx;
using Marten;

namespace HeirloomArchive.Catalogue.Lessons;

/// <summary>
/// All lessons. Each change is a new version, kept beside the ones before it in one transaction; of two that change the same version
/// one is refused. Refusals in this order: what can't be read, not there, stale, makes no sense.
/// </summary>
public sealed class LessonBook(IDocumentStore store, TimeProvider clock, WorksheetIsThere worksheetIsThere)
{
    private const int MostTries = 30;

    /// <summary>A lesson; null if there is none that <see cref="Viewer.Now"/> may see, or it is taken away.</summary>
    public async Task<Lesson?> Find(Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Lesson>(id, ct) is { IsAway: false } lesson && Seen(lesson.Fields) ? lesson : null;
    }

    /// <summary>One page of all lessons that <see cref="Viewer.Now"/> may see, newest first, and how many there are.</summary>
    public async Task<(long Total, IReadOnlyList<Lesson> Items)> Page(int page, int size, bool away = false, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var seen = session.Query<Lesson>().Where(l => l.IsAway == away);
        if (!Viewer.Now.Sight.Teaching)
        {
            seen = seen.Where(l => l.IsShared == true);
        }

        var total = await seen.LongCountAsync(ct);
        var items = await seen.OrderByDescending(l => l.Id).Skip((page - 1) * size).Take(size).ToListAsync(ct);
        return (total, items);
    }

    /// <summary>What it was at each version, newest first, as far as <see cref="Viewer.Now"/> may see it.</summary>
    public async Task<IReadOnlyList<LessonVersion>> Versions(Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var versions = await session.Query<LessonVersion>().Where(v => v.Lesson == id).OrderByDescending(v => v.Version).ToListAsync(ct);
        return versions is [var now, ..] && Seen(now.Fields) ? [.. versions.Where(v => Seen(v.Fields))] : [];
    }

    /// <summary>What its entries show now, nothing private in it; what was set aside or taken out since is shown as it last stood.</summary>
    /// <param name="lesson">Whose.</param>
    /// <param name="toFetch">With what <see cref="Viewer.Now"/> may see of where the pieces are kept.</param>
    /// <param name="ct">Stops it.</param>
    public async Task<IReadOnlyList<Shown>> Look(Lesson lesson, bool toFetch = false, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return await LessonSight.Of(session, lesson, toFetch, ct);
    }

    /// <summary>Makes a lesson of what was sent.</summary>
    public async Task<Lesson> Make(JsonObject sent, string who, CancellationToken ct = default)
    {
        var (read, faults) = Read(LessonShape.Lesson, sent);
        await using var session = store.LightweightSession();
        await new LessonChecks(session, worksheetIsThere, faults).Whole(null, read, ct);
        var now = clock.GetUtcNow();
        var lesson = new Lesson { Id = clock.NewId(now), Fields = read };
        Keep(session, lesson, who, "made", now);
        await session.SaveChangesAsync(ct);
        return lesson;
    }

    /// <summary>Puts a lesson as sent, its order included; an entry keeps its id, one without gets its own.</summary>
    public Task<Lesson> Put(Guid id, long seen, JsonObject sent, string who, CancellationToken ct = default)
    {
        var fields = sent.DeepClone().AsObject();
        var (sentId, sentVersion) = (fields["id"]?.DeepClone(), fields["version"]?.DeepClone());
        fields.Remove("id");
        fields.Remove("version");
        var (read, faults) = Read(LessonShape.Lesson, fields);
        return Write(id, seen, "changed", who, read, async (session, now) =>
        {
            List<Fault> found = [.. faults];
            CheckSame(sentId, now.Id.ToString(), "id", found);
            CheckSame(sentVersion, now.Version, "version", found);
            var next = read.DeepClone().AsObject();
            foreach (var hidden in LessonShape.Hidden)
            {
                // What she was not shown she can't have meant to take out.
                next.Remove(hidden);
                if (now.Fields[hidden] is { } kept)
                {
                    next[hidden] = kept.DeepClone();
                }
            }

            await new LessonChecks(session, worksheetIsThere, found).Whole(now, next, ct);
            return next;
        }, ct);
    }

    /// <summary>Adds entries at the end: of pages and results, so it asks for no version.</summary>
    /// <returns>The lesson, its new entries last.</returns>
    public Task<Lesson> Add(Guid id, IReadOnlyList<JsonObject> entries, string who, CancellationToken ct = default)
    {
        var read = entries.Select((e, i) => Read(LessonShape.Entry, e, entries.Count == 1 ? "" : $"entries[{i}]")).ToList();
        return Write(id, null, "added to", who, null, async (session, now) =>
        {
            List<Fault> found = [.. read.SelectMany(r => r.Faults)];
            var next = now.Fields.DeepClone().AsObject();
            var list = next["entries"] as JsonArray ?? [];
            next["entries"] = list;
            var checks = new LessonChecks(session, worksheetIsThere, found);
            for (var i = 0; i < read.Count; i++)
            {
                var entry = read[i].Fields.DeepClone().AsObject();
                await checks.New(entry, read.Count == 1 ? "" : $"entries[{i}]", ct);
                list.Add((JsonNode)entry);
            }

            checks.Count(list, "");
            checks.Throw();
            return next;
        }, ct);
    }

    /// <summary>Changes a lesson as it stands by a rule of a page: the version was seen, the result is checked like one sent.</summary>
    public async Task<Lesson> Change(Guid id, long seen, Action<JsonObject> change, string who, CancellationToken ct = default)
    {
        var lesson = await Find(id, ct) ?? throw Missing(id);
        var state = lesson.State();
        change(state);
        state.Remove("version");
        return await Put(id, seen, state, who, ct);
    }

    /// <summary>Takes a lesson away; it can be brought back.</summary>
    public Task<Lesson> TakeAway(Guid id, long seen, string who, CancellationToken ct = default) =>
        Write(id, seen, "taken away", who, null, (_, now) => Task.FromResult(now.Fields), ct);

    /// <summary>Brings one back that was taken away; one that is there stays as it is.</summary>
    public Task<Lesson> BringBack(Guid id, string who, CancellationToken ct = default) =>
        Write(id, null, "brought back", who, null, (_, now) => Task.FromResult(now.Fields), ct);

    private async Task<Lesson> Write(
        Guid id, long? seen, string what, string who, JsonObject? sent, Func<IDocumentSession, Lesson, Task<JsonObject>> decide, CancellationToken ct)
    {
        for (var tries = 1; ; tries++)
        {
            await using var session = store.LightweightSession();
            var now = await session.LoadAsync<Lesson>(id, ct);
            if (now is null || !Seen(now.Fields) || (now.IsAway && what != "brought back"))
            {
                throw Missing(id, now?.IsAway ?? false);
            }

            if (seen is { } version && version != now.Version)
            {
                var differs = sent is null ? [] : Differences.Between(now.Fields, sent).Where(d => !LessonShape.Hidden.Contains(d.Path.Split('[', '.')[0]));
                throw new StaleException(now.Version, Decisions.Written(differs, Sight.Everything));
            }

            var fields = await decide(session, now);
            var (away, moment) = (what == "taken away", clock.GetUtcNow());
            if (away == now.IsAway && JsonNode.DeepEquals(fields, now.Fields))
            {
                return now;
            }

            var next = new Lesson { Id = id, Version = now.Version, Fields = fields, Away = away ? new(moment, who) : null };
            Keep(session, next, who, what, moment);
            try
            {
                await session.SaveChangesAsync(ct);
                return next;
            }
            catch (DocumentAlreadyExistsException) when (tries < MostTries)
            {
                // Somebody made this version first: look again. With a version seen that is then stale.
            }
        }
    }

    private static void Keep(IDocumentSession session, Lesson lesson, string who, string what, DateTimeOffset now)
    {
        lesson.Version++;
        lesson.Changed = now;
        session.Store(lesson);
        session.Insert(new LessonVersion
        {
            Id = FormattableString.Invariant($"{lesson.Id}/{lesson.Version:D8}"), Lesson = lesson.Id, Version = lesson.Version, When = now, Who = who, What = what,
            Fields = lesson.Fields.DeepClone().AsObject(),
        });
    }

    private static (JsonObject Fields, List<Fault> Faults) Read(RecordType shape, JsonObject sent, string path = "")
    {
        var faults = new List<Fault>();
        var read = shape.Read(sent, path, faults)!.AsObject();
        return faults.Exists(f => f.Kind == FaultKind.Unreadable) ? throw new FaultException(faults) : (read, faults);
    }

    private static bool Seen(JsonObject fields) => Viewer.Now.Sight.Teaching || fields["shared"] is not null;

    private static void CheckSame(JsonNode? sent, JsonNode now, string path, List<Fault> faults)
    {
        if (sent is not null && sent.ToString() != now.ToString())
        {
            faults.Senseless(path, T($"{Sent.Quote(sent)} is not the lesson's {path}, {Sent.Quote(now)}; leave it out."));
        }
    }

    private static NotFoundException Missing(Guid id, bool away = false) => new(away
        ? $"The lesson {id} was taken away; POST /api/lessons/{id}/bring-back brings it back."
        : $"No lesson has the id {id}.");
}
