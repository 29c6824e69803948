using System.Security.Claims;
using System.Text.Encodings.Web;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Marten;
using Marten.Exceptions;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Sessions are kept here, not in the cookie: they can be seen, and ended from elsewhere.</summary>
public sealed class Sessions(IDocumentStore store, TimeProvider clock)
{
    /// <summary>How long one lasts that is not used, and how long it lasts at most.</summary>
    public static readonly TimeSpan Idle = TimeSpan.FromDays(14), Longest = TimeSpan.FromDays(60);

    /// <summary>How long a sign-in is enough to change what signs in.</summary>
    public static readonly TimeSpan Fresh = TimeSpan.FromMinutes(15);

    private static readonly TimeSpan SeenEvery = TimeSpan.FromMinutes(5);

    /// <summary>Begins one, and ends the one that the browser had; answers the new key.</summary>
    internal async Task<string> Begin(HttpContext http, Guid person, string? formerKey)
    {
        var (key, now) = (Codes.ForPrograms(), clock.GetUtcNow());
        var browser = http.Request.Headers.UserAgent.ToString();
        await using var session = store.LightweightSession();
        session.Insert(new Session
        {
            Digest = Codes.Digest(key), Id = Guid.CreateVersion7(now), Person = person, Began = now, Seen = now, Ends = now + Idle,
            Browser = browser.Length > 300 ? browser[..300] : browser, Address = http.Address(),
        });
        session.DeleteWhere<Session>(s => s.Ends < now);
        if (formerKey is not null)
        {
            session.Delete<Session>(Codes.Digest(formerKey));
        }

        await session.SaveChangesAsync();
        return key;
    }

    /// <summary>Who is signed in by a key; null where it has ended or she has left.</summary>
    internal async Task<Caller?> Read(string key, CancellationToken ct)
    {
        var now = clock.GetUtcNow();
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<Session>(Codes.Digest(key), ct) is not { } kept || kept.Ends < now || kept.Began + Longest < now
            || await session.LoadAsync<Person>(kept.Person, ct) is not { Left: null } person)
        {
            return null;
        }

        if (kept.Seen + SeenEvery < now)
        {
            (kept.Seen, kept.Ends) = (now, now + Idle);
            session.Update(kept);
            try
            {
                await session.SaveChangesAsync(ct);
            }
            catch (NonExistentDocumentException)
            {
                return null; // Ended from elsewhere while it was read.
            }
        }

        return new(person.Id, person.Name, person.Role) { Session = kept.Id };
    }

    /// <summary>Demands that who asks has signed in a short while ago: a browser left open is not enough to make another way in.</summary>
    /// <exception cref="FaultException">It is longer ago.</exception>
    public async Task DemandFresh(HttpContext http)
    {
        var (id, since) = (http.Caller().Session ?? Guid.Empty, clock.GetUtcNow() - Fresh);
        await using var session = store.QuerySession();
        if (!await session.Query<Session>().AnyAsync(s => s.Id == id && s.Began > since))
        {
            throw new FaultException("", T($"You signed in more than {Fresh.TotalMinutes} minutes ago. Sign in again, then do this: a browser left open is not enough for it."));
        }
    }

    /// <summary>Ends the one of a key.</summary>
    internal async Task End(string key)
    {
        await using var session = store.LightweightSession();
        session.Delete<Session>(Codes.Digest(key));
        await session.SaveChangesAsync();
    }

    /// <summary>Where a person is signed in, the latest first.</summary>
    public async Task<IReadOnlyList<Session>> Of(Guid person, CancellationToken ct)
    {
        var now = clock.GetUtcNow();
        await using var session = store.QuerySession();
        return [.. (await session.Query<Session>().Where(s => s.Person == person && s.Ends > now).ToListAsync(ct)).OrderByDescending(s => s.Seen)];
    }

    /// <summary>Ends one of a person's sessions; false where she has none of this id.</summary>
    public async Task<bool> End(Guid person, Guid id, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        if (await session.Query<Session>().FirstOrDefaultAsync(s => s.Id == id && s.Person == person, ct) is not { } kept)
        {
            return false;
        }

        session.Delete(kept);
        await session.SaveChangesAsync(ct);
        return true;
    }

    /// <summary>Ends all sessions of a person but one.</summary>
    public async Task EndAll(Guid person, Guid? but, CancellationToken ct)
    {
        var kept = but ?? Guid.Empty;
        await using var session = store.LightweightSession();
        session.DeleteWhere<Session>(s => s.Person == person && s.Id != kept);
        await session.SaveChangesAsync(ct);
    }
}

/// <summary>
/// The scheme by which Identity signs in: the cookie holds a key of 256 bits and nothing else. Every sign-in makes a new key, and
/// what a person may do is read from her at every request.
/// </summary>
public sealed class SessionHandler(IOptionsMonitor<SessionHandler.Settings> options, ILoggerFactory log, UrlEncoder encoder, Sessions sessions)
    : SignInAuthenticationHandler<SessionHandler.Settings>(options, log, encoder)
{
    /// <summary>The cookie, which the host names by how it is reached.</summary>
    public sealed class Settings : AuthenticationSchemeOptions
    {
        public CookieBuilder Cookie { get; set; } = new();
    }

    private string CookieName => Options.Cookie.Name!;

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync() =>
        Request.Cookies[CookieName] is { Length: > 0 and < 100 } key && await sessions.Read(key, Context.RequestAborted) is { } caller
            ? AuthenticateResult.Success(new(caller.ToPrincipal(Scheme.Name), Scheme.Name)) : AuthenticateResult.NoResult();

    protected override async Task HandleSignInAsync(ClaimsPrincipal user, AuthenticationProperties? properties)
    {
        var key = await sessions.Begin(Context, Guid.Parse(user.FindFirstValue(ClaimTypes.NameIdentifier)!), Request.Cookies[CookieName]);
        var cookie = Options.Cookie.Build(Context);
        cookie.MaxAge = Sessions.Longest;
        Response.Cookies.Append(CookieName, key, cookie);
    }

    protected override async Task HandleSignOutAsync(AuthenticationProperties? properties)
    {
        if (Request.Cookies[CookieName] is { Length: > 0 and < 100 } key)
        {
            await sessions.End(key);
        }

        Response.Cookies.Delete(CookieName, Options.Cookie.Build(Context));
        // What she saw does not stay in a browser that others use (by https and on this machine; else browsers pass over it).
        Response.Headers["Clear-Site-Data"] = "\"cache\", \"storage\"";
    }
}

/// <summary>From a person to the claims of her session.</summary>
public sealed class ClaimsOf : Microsoft.AspNetCore.Identity.IUserClaimsPrincipalFactory<Person>
{
    public Task<ClaimsPrincipal> CreateAsync(Person user) => Task.FromResult(
        new Caller(user.Id, user.Name, user.Role).ToPrincipal(Microsoft.AspNetCore.Identity.IdentityConstants.ApplicationScheme));
}
