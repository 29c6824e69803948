using System.Globalization;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Marten;
using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Accounts;

/// <summary>The answer to somebody who wants to sign in.</summary>
/// <param name="Person">Who has signed in; null if nobody has.</param>
/// <param name="Wait">How long to wait before another try; null where there is no need.</param>
public sealed record Entered(Person? Person, TimeSpan? Wait = null)
{
    /// <summary>What is said, the same whether the name is known or not.</summary>
    public string Why => Wait switch
    {
        null => T("The name or what goes with it is not right."),
        { TotalSeconds: < 90 } wait => Seconds((long)Math.Ceiling(wait.TotalSeconds)),
        { } wait => Minutes((long)Math.Ceiling(wait.TotalMinutes)),
    };

    /// <summary>Writes 401, or 429 and how long to wait, at the head of the answer.</summary>
    public void Refuse(HttpResponse response)
    {
        response.StatusCode = Wait is null ? StatusCodes.Status401Unauthorized : StatusCodes.Status429TooManyRequests;
        if (Wait is { } wait)
        {
            response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }
    }

    private static string Seconds(long left) => N(left, $"Too many tries: wait {left} second, then try again.", $"Too many tries: wait {left} seconds, then try again.");

    private static string Minutes(long left) => N(left, $"Too many tries: wait {left} minute, then try again.", $"Too many tries: wait {left} minutes, then try again.");
}

/// <summary>Ways to sign in. An unknown name gets the same answer as a wrong password, in the same time.</summary>
public sealed class Entrance(
    UserManager<Person> people, SignInManager<Person> signIn, IPasswordHasher<Person> hasher, Sessions sessions, Delays delays, Book book, IDocumentStore store,
    TimeProvider clock)
{
    private static string? nobodysHash;

    /// <summary>By name and password.</summary>
    public async Task<Entered> ByPassword(HttpContext http, string name, string password)
    {
        var (address, key) = (http.Address(), people.NormalizeName(name) ?? "");
        if (delays.Wait(address, key) is { } wait)
        {
            return new(null, wait);
        }

        var person = await people.FindByNameAsync(name);
        var hash = person is { Left: null, PasswordHash: { } own } ? own : null;
        // The same work where there is nothing to compare with; made at the first try, whoever's it is.
        var nobodys = nobodysHash ??= hasher.HashPassword(new(), Codes.ForPrograms());
        var verified = hasher.VerifyHashedPassword(person ?? new(), hash ?? nobodys, password);
        if (hash is null || verified == PasswordVerificationResult.Failed)
        {
            return await Failed(http, address, name, key);
        }

        delays.Succeeded(address, key);
        await Enter(http, person!, Deeds.SignedIn);
        return new(person);
    }

    /// <summary>By name and a recovery code, which is used up; a new password takes the old one's place.</summary>
    /// <exception cref="FaultException">The new password will not do; the code is not used up.</exception>
    public async Task<Entered> ByRecoveryCode(HttpContext http, string name, string code, string password)
    {
        var (address, key) = (http.Address(), people.NormalizeName(name) ?? "");
        if (delays.Wait(address, key) is { } wait)
        {
            return new(null, wait);
        }

        Check(password, name, "password");
        var digest = Codes.Digest(Codes.Typed(code));
        var person = await people.FindByNameAsync(name);
        var fits = person is { Left: null } && person.RecoveryCodes.Any(c => Codes.Same(c, digest));
        var hash = hasher.HashPassword(new(), password);
        if (!fits)
        {
            return await Failed(http, address, name, key);
        }

        person!.RecoveryCodes.Remove(digest);
        person.PasswordHash = hash;
        if (!(await people.UpdateSecurityStampAsync(person)).Succeeded)
        {
            return await Failed(http, address, name, key);
        }

        await sessions.EndAll(person.Id, null, CancellationToken.None);
        delays.Succeeded(address, key);
        await Enter(http, person, Deeds.Recovered);
        return new(person);
    }

    /// <summary>By a passkey: what the browser answered to the request options.</summary>
    public async Task<Entered> ByPasskey(HttpContext http, string credential)
    {
        var (address, key) = (http.Address(), "");
        if (delays.Wait(address, key) is { } wait)
        {
            return new(null, wait);
        }

        var result = await Try(() => signIn.PerformPasskeyAssertionAsync(credential));
        if (result is not { Succeeded: true, User: { Left: null } person })
        {
            return await Failed(http, address, "(a passkey)", key);
        }

        await people.AddOrUpdatePasskeyAsync(person, result.Passkey);
        await Enter(http, person, Deeds.SignedIn);
        return new(person);
    }

    /// <summary>By an invitation: a new person, or one who is let in again.</summary>
    /// <exception cref="FaultException">The code, the name or the password will not do.</exception>
    public async Task<Person> ByInvitation(HttpContext http, string code, string name, string password, CancellationToken ct)
    {
        var (digest, now) = (Codes.Digest(Codes.Typed(code)), clock.GetUtcNow());
        await using var session = store.LightweightSession();
        var invitation = await session.LoadAsync<Invitation>(digest, ct);
        if (invitation is null || invitation.Used is not null || invitation.Ends < now)
        {
            await book.Write(http, Deeds.Failed, "by an invitation", who: name);
            throw new FaultException("code", T("This invitation is not known, has run out, or has been used. Ask for a new one."));
        }

        var again = invitation.Again is { } known ? await people.FindByIdAsync(known.ToString()) ?? throw new FaultException("code", T("The person has left.")) : null;
        Check(password, again?.Name ?? name, "password");
        if (again is null)
        {
            await CheckName(name, invitation.Role);
        }

        // First it is used up, so that two at once can't both use it.
        invitation.Used = now;
        session.Store(invitation);
        try
        {
            await session.SaveChangesAsync(ct);
        }
        catch (JasperFx.ConcurrencyException)
        {
            throw new FaultException("code", T("This invitation has just been used."));
        }

        if (again is not null)
        {
            again.PasswordHash = hasher.HashPassword(again, password);
            Demand(await people.UpdateSecurityStampAsync(again));
            await sessions.EndAll(again.Id, null, ct);
        }

        var person = again ?? await Make(name, invitation.Role, password);
        await Enter(http, person, Deeds.Joined);
        return person;
    }

    /// <summary>A person who is to come in from now on.</summary>
    /// <exception cref="FaultException">The name is taken or none, or the password will not do.</exception>
    internal async Task<Person> Make(string name, Role role, string password)
    {
        Check(password, name, "password");
        await CheckName(name, role);
        var now = clock.GetUtcNow();
        var person = new Person { Id = Guid.CreateVersion7(now), Name = name.Trim(), Role = role, Since = now };
        Demand(await people.CreateAsync(person, password));
        return person;
    }

    internal async Task Enter(HttpContext http, Person person, string deed)
    {
        await signIn.SignInAsync(person, isPersistent: true);
        await book.Write(http, deed, who: person.Name);
    }

    internal static void Check(string password, string name, string path)
    {
        if (PasswordRules.Fault(password, name) is { } fault)
        {
            throw new FaultException(path, fault);
        }
    }

    internal static void Demand(IdentityResult result)
    {
        if (!result.Succeeded)
        {
            var error = result.Errors.First();
            throw new FaultException(error.Code == "DuplicateUserName" ? "name" : "", error.Code switch
            {
                "DuplicateUserName" => T("This name is taken; choose another."),
                "ConcurrencyFailure" => T("Somebody has just changed the same; look again, then try once more."),
                _ => error.Description,
            });
        }
    }

    /// <summary>What the browser sent for a passkey is read by Identity; anything it can't read is a refusal.</summary>
    internal static async Task<T?> Try<T>(Func<Task<T>> read)
        where T : class
    {
        try
        {
            return await read();
        }
        catch (Exception e) when (e is InvalidOperationException or PasskeyException or System.Text.Json.JsonException or FormatException or ArgumentException)
        {
            return null;
        }
    }

    private async Task CheckName(string name, Role role)
    {
        name = name.Trim();
        if (name.Length is 0 or > 60 || name.Any(char.IsControl))
        {
            throw new FaultException("name", T("Take a name of 1 to 60 characters: it stands beside everything that you change."));
        }

        // The history of an archive that one person kept calls her so.
        if (role != Role.Owner && people.NormalizeName(name) is "OWNER" or "VISITOR" or "NOBODY" or "DEMO" || await people.FindByNameAsync(name) is not null)
        {
            throw new FaultException("name", T("This name is taken; choose another."));
        }
    }

    private async Task<Entered> Failed(HttpContext http, string address, string name, string key)
    {
        delays.Failed(address, key);
        await book.Write(http, Deeds.Failed, who: name.Length > 60 ? name[..60] + "…" : name);
        return new(null);
    }
}
