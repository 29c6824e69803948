using System.Text.Encodings.Web;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Marten;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Tokens by which programs come in, as the person who made them and for what she made them.</summary>
public sealed class Tokens(IDocumentStore store, TimeProvider clock)
{
    public const string Prefix = "heirloom_";

    public const int LongestDays = 366, MostOfOne = 50;

    private static readonly TimeSpan SeenEvery = TimeSpan.FromMinutes(10);

    /// <summary>For the host's own hand while it makes the demo archive through the API; nobody is told it.</summary>
    public string Own { get; } = Prefix + Codes.ForPrograms();

    /// <summary>Makes one; its text is told now and never again.</summary>
    /// <exception cref="FaultException">Without a name or a scope, or for too long.</exception>
    public async Task<(AccessToken Token, string Text)> Make(Guid person, string? name, IReadOnlyCollection<string> scopes, int days, CancellationToken ct)
    {
        List<Fault> faults = [];
        if (string.IsNullOrWhiteSpace(name) || name.Trim().Length > 60)
        {
            faults.Add(new("name", T("Say in up to 60 characters what the token is for: \"Backup of the pictures\".")));
        }

        if (scopes.Count == 0 || scopes.FirstOrDefault(s => !TokenScopes.All.ContainsKey(s)) is { } unknown)
        {
            faults.Add(new("scopes", T($"Name what it may do: one or more of {string.Join(", ", TokenScopes.All.Keys)}.")));
        }

        if (days is < 1 or > LongestDays)
        {
            faults.Add(new("days", T($"It can be good for 1 to {LongestDays} days, not {days}.")));
        }

        await using var session = store.LightweightSession();
        if (faults.Count == 0 && await session.Query<AccessToken>().CountAsync(t => t.Person == person, ct) >= MostOfOne)
        {
            faults.Add(new("", T($"You have {MostOfOne} tokens, the most there can be; end one first.")));
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var (text, now) = (Prefix + Codes.ForPrograms(), clock.GetUtcNow());
        var token = new AccessToken
        {
            Digest = Codes.Digest(text), Id = Guid.CreateVersion7(now), Person = person, Name = name!.Trim(), Scopes = [.. scopes.Distinct().Order(StringComparer.Ordinal)],
            Made = now, Ends = now.AddDays(days),
        };
        session.Insert(token);
        await session.SaveChangesAsync(ct);
        return (token, text);
    }

    /// <summary>A person's tokens, the newest first.</summary>
    public async Task<IReadOnlyList<AccessToken>> Of(Guid person, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return [.. (await session.Query<AccessToken>().Where(t => t.Person == person).ToListAsync(ct)).OrderByDescending(t => t.Made)];
    }

    /// <summary>Ends one of a person's tokens; null where she has none of this id.</summary>
    public async Task<AccessToken?> End(Guid person, Guid id, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        if (await session.Query<AccessToken>().FirstOrDefaultAsync(t => t.Id == id && t.Person == person, ct) is not { } token)
        {
            return null;
        }

        session.Delete(token);
        await session.SaveChangesAsync(ct);
        return token;
    }

    /// <summary>Ends all tokens of a person who leaves.</summary>
    public async Task EndAll(Guid person, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        session.DeleteWhere<AccessToken>(t => t.Person == person);
        await session.SaveChangesAsync(ct);
    }

    /// <summary>Who comes by a token; null for one that is none, has run out, or whose person has left.</summary>
    public async Task<Caller?> Read(string text, CancellationToken ct)
    {
        if (Codes.Same(Codes.Digest(text), Codes.Digest(Own)))
        {
            return new(Guid.Empty, "demo", Role.Keeper) { Scopes = TokenScopes.All.Keys.ToHashSet() };
        }

        var now = clock.GetUtcNow();
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<AccessToken>(Codes.Digest(text), ct) is not { } token || token.Ends < now
            || await session.LoadAsync<Person>(token.Person, ct) is not { Left: null } person)
        {
            return null;
        }

        if (token.Seen is not { } seen || seen + SeenEvery < now)
        {
            token.Seen = now;
            session.Update(token);
            await session.SaveChangesAsync(ct);
        }

        return new(person.Id, person.Name, person.Role) { Scopes = token.Scopes.ToHashSet() };
    }
}

/// <summary><c>Authorization: Bearer</c>.</summary>
public sealed class TokenHandler(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory log, UrlEncoder encoder, Tokens tokens)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, log, encoder)
{
    public const string Name = "Token", Bearer = "Bearer ";

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync() =>
        Request.Headers.Authorization.ToString() is var sent && sent.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase)
        && await tokens.Read(sent[Bearer.Length..].Trim(), Context.RequestAborted) is { } caller
            ? AuthenticateResult.Success(new(caller.ToPrincipal(Name), Name)) : AuthenticateResult.NoResult();
}
