using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Access;
using Marten;

namespace HeirloomArchive.Web.Accounts;

/// <summary>What is written in the book.</summary>
public static class Deeds
{
    public const string SignedIn = "signed in", Failed = "failed to sign in", SignedOut = "signed out", Refused = "was refused", SawPrivate = "saw private fields", Original = "took an original", // texts
        Invited = "invited", Withdrew = "withdrew an invitation", Joined = "came in by an invitation", First = "became the first owner",
        ChangedRole = "changed a role", TookOff = "took somebody off", ChangedPassword = "changed the password", Recovered = "came in by a recovery code",
        MadeCodes = "made recovery codes", AddedPasskey = "added a passkey", RemovedPasskey = "removed a passkey", MadeToken = "made a token",
        EndedToken = "ended a token", EndedSession = "ended a session", ShowedToVisitors = "showed a piece to visitors", HidFromVisitors = "hid a piece from visitors";

    /// <summary>As a person reads it.</summary>
    // A lone small word in a table counts as a slug, so it is asked for here.
    public static string InWords(string deed) => deed == Invited ? T("invited") : T(deed);
}

/// <summary>The book of who came in, saw what is private, took copies, changed rights. Nothing here changes or removes a line.</summary>
public sealed class Book(IDocumentStore store, TimeProvider clock)
{
    /// <summary>Adds a line.</summary>
    /// <param name="who">The person's name; of a failed try the name that was typed.</param>
    /// <param name="what">One of <see cref="Deeds"/>.</param>
    /// <param name="about">A piece, a person, a token.</param>
    /// <param name="from">The address she came from.</param>
    public async Task Write(string who, string what, string about, string from)
    {
        var now = clock.GetUtcNow();
        await using var session = store.LightweightSession();
        session.Insert(new BookLine { Id = clock.NewId(now), When = now, Who = Short(who), What = what, About = Short(about), From = from });
        await session.SaveChangesAsync();
    }

    /// <summary>The same, of a request.</summary>
    public Task Write(HttpContext http, string what, string about = "", string? who = null) => Write(who ?? http.Caller().Name, what, about, http.Address());

    /// <summary>One page of it, the newest first, and how many lines there are.</summary>
    public async Task<(long Total, IReadOnlyList<BookLine> Lines)> Page(int page, int size, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        var total = await session.Query<BookLine>().LongCountAsync(ct);
        return (total, await session.Query<BookLine>().OrderByDescending(l => l.Id).Skip((page - 1) * size).Take(size).ToListAsync(ct));
    }

    private static string Short(string text) => text.Length > 2000 ? text[..2000] + "…" : text;
}
