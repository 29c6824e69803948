using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using Marten;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Npgsql;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// Her own words: made, changed, merged and set apart again, and known to every node. No record is touched by it: what was
/// entered stays as entered, only what it counts as changes. Refusals: <see cref="FaultException"/>, <see cref="NotFoundException"/>,
/// <see cref="WordConflictException"/>.
/// </summary>
public sealed class OwnWords(IDocumentStore store, TimeProvider clock, ILogger<OwnWords> log) : BackgroundService
{
    private const string Channel = "archive_own_words";

    private static readonly TimeSpan Poll = TimeSpan.FromSeconds(3);

    private readonly SemaphoreSlim refreshing = new(1);

    /// <summary>Makes a word.</summary>
    /// <param name="facet">One of the facets.</param>
    /// <param name="sent">As <see cref="Saying.Read"/> takes it.</param>
    /// <param name="who">Who makes it.</param>
    /// <param name="ct">Stops it.</param>
    public Task<Word> Add(string facet, JsonObject sent, string who, CancellationToken ct = default)
    {
        CheckFacet(facet);
        var saying = Saying.Read(sent);
        var slug = OwnWord.SlugOf(saying.Label);
        return Write(facet, slug, (session, words, _) =>
        {
            if (words.Find(facet, slug) is { } there)
            {
                throw Taken(there, saying.Label);
            }

            CheckSense(words, facet, slug, saying);
            var now = clock.GetUtcNow();
            session.Insert(new OwnWord { Id = $"{facet}/{slug}", Now = saying, Who = who, When = now, Made = now });
        }, ct);
    }

    /// <summary>Says anew what a word of hers is; its slug and what it was merged into stay.</summary>
    public Task<Word> Change(string facet, string slug, JsonObject sent, string who, CancellationToken ct = default)
    {
        CheckFacet(facet);
        var saying = Saying.Read(sent);
        return Write(facet, slug, (session, words, own) =>
        {
            CheckSense(words, facet, slug, saying);
            Say(session, Mine(own, words, facet, slug), saying with { MergedInto = own!.Now.MergedInto }, who);
        }, ct);
    }

    /// <summary>Lets a word of hers count as another of the same facet from now on.</summary>
    public Task<Word> Merge(string facet, string slug, string into, string who, CancellationToken ct = default)
    {
        CheckFacet(facet);
        return Write(facet, slug, (session, words, own) =>
        {
            var mine = Mine(own, words, facet, slug);
            var target = words.Find(facet, into) ?? throw NoSuch("into", words, facet, into);
            if (target.Slug == slug)
            {
                throw new FaultException("into", T($"\"{into}\" is the word itself; name another one."));
            }

            if (LeadsTo(words, target, slug))
            {
                throw new FaultException("into", T($"\"{into}\" was itself merged into \"{mine.Now.Label}\"; set it apart again first."));
            }

            Say(session, mine, mine.Now with { MergedInto = target.Slug }, who);
        }, ct);
    }

    /// <summary>Sets a merged word apart again: all that was entered with it is its own once more.</summary>
    public Task<Word> Unmerge(string facet, string slug, string who, CancellationToken ct = default)
    {
        CheckFacet(facet);
        return Write(facet, slug, (session, words, own) =>
        {
            var mine = Mine(own, words, facet, slug);
            Say(session, mine, mine.Now with { MergedInto = null }, who);
        }, ct);
    }

    /// <summary>Takes a word away that no record has ever had and no other word hangs on.</summary>
    public async Task Remove(string facet, string slug, CancellationToken ct = default)
    {
        CheckFacet(facet);
        await using var session = await Begin(ct);
        var mine = Mine(await session.LoadAsync<OwnWord>($"{facet}/{slug}", ct), await Known(session, ct), facet, slug);
        var all = await session.Query<OwnWord>().ToListAsync(ct);
        if (all.FirstOrDefault(w => w.Facet == facet && (w.Now.Broader == slug || w.Now.MergedInto == slug)) is { } hanging)
        {
            throw new WordConflictException(T($"\"{hanging.Now.Label}\" hangs on \"{mine.Now.Label}\"; change that one first."));
        }

        if (await IsUsed(session, mine, ct))
        {
            throw new WordConflictException(T($"\"{mine.Now.Label}\" stands in a record or in its history, which are kept; merge it into another word instead."));
        }

        session.Delete<OwnWord>(mine.Id);
        await Save(session, ct);
    }

    /// <summary>Loads the words before anything is asked of them.</summary>
    public override async Task StartAsync(CancellationToken cancellationToken)
    {
        await Refresh(cancellationToken);
        await base.StartAsync(cancellationToken);
    }

    /// <summary>Reads the words as they are kept now.</summary>
    public async Task Refresh(CancellationToken ct = default)
    {
        // One at a time, so that what was read earlier is never learnt later.
        await refreshing.WaitAsync(ct);
        try
        {
            await using var session = store.QuerySession();
            Words.Learn(this, [.. (await session.Query<OwnWord>().OrderBy(w => w.Id).ToListAsync(ct)).Select(w => w.ToWord())]);
        }
        finally
        {
            refreshing.Release();
        }
    }

    /// <inheritdoc />
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken);
        Words.Learn(this, null);
    }

    /// <summary>Hears of every node's changes at once; should a word of it get lost, it looks by itself every few seconds.</summary>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await using var connection = store.Storage.Database.CreateConnection();
                await connection.OpenAsync(stoppingToken);
                await using (var listen = new NpgsqlCommand($"listen {Channel}", connection))
                {
                    await listen.ExecuteNonQueryAsync(stoppingToken);
                }

                while (true)
                {
                    await Refresh(stoppingToken);
                    await connection.WaitAsync(Poll, stoppingToken);
                }
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is NpgsqlException or Marten.Exceptions.MartenCommandException or TimeoutException or InvalidOperationException or IOException)
            {
                if (!stoppingToken.IsCancellationRequested)
                {
                    log.LogWarning(e, "Words of one's own could not be read; it tries again.");
                }

                await Task.Delay(Poll, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    // Names must not clash, and words must not come to hang on each other in a ring.
    private Task<IDocumentSession> Begin(CancellationToken ct) => Turn.Take(store, Channel, ct);

    private async Task<Word> Write(string facet, string slug, Action<IDocumentSession, Thesaurus, OwnWord?> decide, CancellationToken ct)
    {
        await using var session = await Begin(ct);
        decide(session, await Known(session, ct), await session.LoadAsync<OwnWord>($"{facet}/{slug}", ct));
        await Save(session, ct);
        return Words.Find(facet, slug)!;
    }

    private async Task Save(IDocumentSession session, CancellationToken ct)
    {
        session.QueueSqlCommand($"select pg_notify('{Channel}', '')");
        await session.SaveChangesAsync(ct);
        await Refresh(ct);
    }

    private static async Task<Thesaurus> Known(IQuerySession session, CancellationToken ct) =>
        Thesaurus.OfTrade.With((await session.Query<OwnWord>().ToListAsync(ct)).Select(w => w.ToWord()));

    private void Say(IDocumentSession session, OwnWord word, Saying saying, string who)
    {
        if (word.Say(saying, who, clock.GetUtcNow()))
        {
            session.Store(word);
        }
    }

    // Events hold all that ever stood in a record; before it was made, the word can't have stood in one.
    private static async Task<bool> IsUsed(IQuerySession session, OwnWord word, CancellationToken ct)
    {
        var found = await session.AdvancedSql.QueryAsync<bool>('^',
            $"select exists(select 1 from {CatalogueStore.EventSchema}.mt_events where timestamp >= ^ and jsonb_path_exists(data, '$.** ? (@ == $word)', jsonb_build_object('word', ^::text)))",
            ct, word.Made.AddMinutes(-5), word.Slug);
        return found[0];
    }

    private static void CheckFacet(string facet)
    {
        if (!Words.FacetNames.Contains(facet))
        {
            throw new NotFoundException(T($"There is no facet \"{Short(facet)}\"; the facets are {string.Join(", ", Words.FacetNames)}."));
        }
    }

    private static void CheckSense(Thesaurus words, string facet, string slug, Saying saying)
    {
        // A merged word shares its names with what it counts as.
        var self = words.Find(facet, slug) is null ? slug : words.Meant(facet, slug);
        foreach (var name in saying.Synonyms.Prepend(saying.Label))
        {
            if (words.Named(facet, name) is { } other && other.Slug != self)
            {
                throw Taken(other, name);
            }
        }

        if (saying.Broader is { } broader)
        {
            var above = words.Find(facet, broader) ?? throw NoSuch("broader", words, facet, broader);
            for (var up = above; up is not null; up = up.Broader is { } next ? words.Find(facet, next) : null)
            {
                if (up.Slug == slug)
                {
                    throw new FaultException("broader", T($"\"{broader}\" stands below \"{saying.Label}\" itself; name a word above it."));
                }
            }
        }
    }

    private static bool LeadsTo(Thesaurus words, Word from, string slug)
    {
        for (var at = from; at is not null; at = at.MergedInto is { } into ? words.Find(at.Facet, into) : null)
        {
            if (at.Slug == slug)
            {
                return true;
            }
        }

        return false;
    }

    private static OwnWord Mine(OwnWord? own, Thesaurus words, string facet, string slug) => own
        ?? (words.Find(facet, slug) is { } word
            ? throw new WordConflictException(T($"\"{word.Label}\" is a word of the trade that comes with the archive; only words of your own are changed or merged."))
            : throw new NotFoundException(T($"The facet {facet} has no word \"{Short(slug)}\".")));

    private static FaultException NoSuch(string field, Thesaurus words, string facet, string slug)
    {
        var nearest = Words.Nearest(facet, slug);
        return new(field, nearest.Count == 0
            ? T($"\"{Short(slug)}\" is not among the {words.In(facet).Count} words of {facet}.")
            : T($"\"{Short(slug)}\" is not among the {words.In(facet).Count} words of {facet}; nearest: {string.Join(", ", nearest)}."));
    }

    private static WordConflictException Taken(Word other, string name) => new(Thesaurus.Fold(other.Label) == Thesaurus.Fold(name)
        ? T($"\"{name}\" is a word already, as {other.Id}.")
        : T($"\"{name}\" is another name of \"{other.Label}\" already, as {other.Id}."));

    private static string Short(string text) => text.Length <= 60 ? text : text[..60] + "…";
}

/// <summary>A name is taken, a word is in use, or it is not hers to change (409).</summary>
public sealed class WordConflictException(string message) : Exception(message);
