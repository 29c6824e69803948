using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using Marten;

namespace HeirloomArchive.Catalogue.Questions;

/// <summary>A search kept with a name, and what it found when she last looked.</summary>
public sealed class Question
{
    /// <summary>The most pieces that are remembered one by one; a broader question knows only pieces entered since.</summary>
    public const int MostKnown = 2_000;

    /// <summary>Of version 7.</summary>
    public Guid Id { get; set; }

    /// <summary>Who keeps it: everybody has her own.</summary>
    public string Owner { get; set; } = "";

    /// <summary>Hers.</summary>
    public string Name { get; set; } = "";

    /// <summary>The parameters of the search as they stand in an address: <c>q=pin+tucks&amp;to=1909</c>.</summary>
    public string Search { get; set; } = "";

    /// <summary>When it was kept.</summary>
    public DateTimeOffset Made { get; set; }

    /// <summary>When she last looked.</summary>
    public DateTimeOffset Seen { get; set; }

    /// <summary>What it found then, newest piece first, at most <see cref="MostKnown"/>.</summary>
    public IList<Guid> Known { get; set; } = [];

    /// <summary>Whether it found more than it remembers.</summary>
    public bool IsBroad { get; set; }

    /// <summary>Whether a piece that fits now did not when she last looked.</summary>
    public Func<Guid, bool> IsNew()
    {
        if (IsBroad)
        {
            // Ids rise in the order of entry.
            var newest = Known[0].ToString();
            return id => string.CompareOrdinal(id.ToString(), newest) > 0;
        }

        var known = Known.ToHashSet();
        return id => !known.Contains(id);
    }
}

/// <summary>What a question finds: the pieces, newest first, as far as they are remembered, and how many there are in all.</summary>
public sealed record Found(long Total, IReadOnlyList<Guid> Newest);

/// <summary>The questions that <see cref="Viewer.Now"/> keeps; those of others are not there for her.</summary>
public sealed class QuestionBook(IDocumentStore store, TimeProvider clock)
{
    /// <summary>The most questions that are kept.</summary>
    public const int Most = 200;

    private static readonly RecordType Shape = new([new("name", new TextType(300, lines: false)), new("search", new TextType(10_000, lines: false))]);

    /// <summary>All of them, by name.</summary>
    public async Task<IReadOnlyList<Question>> All(CancellationToken ct = default)
    {
        var who = Viewer.Now.Name;
        await using var session = store.QuerySession();
        return await session.Query<Question>().Where(q => q.Owner == who).OrderBy(q => q.Name).ThenBy(q => q.Id).Take(Most).ToListAsync(ct);
    }

    /// <summary>One of them.</summary>
    /// <exception cref="NotFoundException">There is none.</exception>
    public async Task<Question> Find(Guid id, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Question>(id, ct) is { } question && question.Owner == Viewer.Now.Name ? question : throw new NotFoundException($"No kept question has the id {id}.");
    }

    /// <summary>Keeps <c>{"name","search"}</c>; what it finds now counts as seen.</summary>
    /// <param name="sent">What was sent.</param>
    /// <param name="find">Asks the index; refuses what is no search under the path <c>search</c>.</param>
    /// <param name="ct">Stops it.</param>
    /// <exception cref="FaultException">It can't be read, has no name, or is no search.</exception>
    public async Task<Question> Keep(JsonObject sent, Func<string, Found> find, CancellationToken ct = default)
    {
        var faults = new List<Fault>();
        var read = Shape.Read(sent, "", faults)!.AsObject();
        if (read["name"] is null && !faults.Exists(f => f.Path == "name"))
        {
            faults.Senseless("name", T("A question is kept under a name, such as \"Pin tucks on yokes\"."));
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var search = (read["search"]?.ToString() ?? "").TrimStart('?');
        var (found, who) = (find(search), Viewer.Now.Name);
        await using var session = store.LightweightSession();
        if (await session.Query<Question>().CountAsync(q => q.Owner == who, ct) >= Most)
        {
            throw new FaultException("", T($"There are {Most} questions already; forget one first."));
        }

        var now = clock.GetUtcNow();
        var question = new Question { Id = clock.NewId(now), Owner = who, Name = read["name"]!.ToString(), Search = search, Made = now };
        Remember(question, found, now);
        session.Insert(question);
        await session.SaveChangesAsync(ct);
        return question;
    }

    /// <summary>What it finds now is seen.</summary>
    public async Task<Question> Look(Guid id, Func<string, Found> find, CancellationToken ct = default)
    {
        var question = await Find(id, ct);
        Remember(question, find(question.Search), clock.GetUtcNow());
        await using var session = store.LightweightSession();
        // Forgotten meanwhile, it stays forgotten.
        session.Update(question);
        try
        {
            await session.SaveChangesAsync(ct);
        }
        catch (Marten.Exceptions.NonExistentDocumentException)
        {
            throw new NotFoundException($"No kept question has the id {id}.");
        }

        return question;
    }

    /// <summary>Forgets a question.</summary>
    /// <exception cref="NotFoundException">There is none.</exception>
    public async Task Forget(Guid id, CancellationToken ct = default)
    {
        await Find(id, ct);
        await using var session = store.LightweightSession();
        session.Delete<Question>(id);
        await session.SaveChangesAsync(ct);
    }

    private static void Remember(Question question, Found found, DateTimeOffset now)
    {
        question.Seen = now;
        question.Known = [.. found.Newest.Take(Question.MostKnown)];
        question.IsBroad = found.Total > Question.MostKnown;
    }
}
