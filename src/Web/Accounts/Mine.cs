using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Accounts;

/// <summary>What somebody does with her own account.</summary>
public sealed class Mine(UserManager<Person> people, SignInManager<Person> signIn, Sessions sessions, Delays delays, Book book)
{
    public const int RecoveryCodes = 10, MostPasskeys = 20;

    /// <summary>The account of who asks.</summary>
    public async Task<Person> Of(HttpContext http) => await people.FindByIdAsync(http.Caller().Id.ToString()) ?? throw new Catalogue.NotFoundException("This account has ended.");

    /// <summary>Changes the password; all other sessions end.</summary>
    /// <exception cref="FaultException">The old one is wrong, or the new one will not do.</exception>
    public async Task ChangePassword(HttpContext http, string? old, string password, CancellationToken ct)
    {
        var person = await Of(http);
        Entrance.Check(password, person.Name, "password");
        await CheckOld(http, person, old);
        person.PasswordHash = people.PasswordHasher.HashPassword(person, password);
        await Restamp(http, person, ct);
        await book.Write(http, Deeds.ChangedPassword);
    }

    /// <summary>New recovery codes in place of the old ones, told now and never again.</summary>
    public async Task<IReadOnlyList<string>> MakeRecoveryCodes(HttpContext http, string? password)
    {
        var person = await Of(http);
        await CheckOld(http, person, password);
        var codes = Enumerable.Range(0, RecoveryCodes).Select(_ => Codes.ForPeople()).ToList();
        person.RecoveryCodes = [.. codes.Select(Codes.Digest)];
        Entrance.Demand(await people.UpdateAsync(person));
        await book.Write(http, Deeds.MadeCodes);
        return codes;
    }

    /// <summary>What a browser needs to make a passkey, as JSON.</summary>
    public async Task<string> BeginPasskey(HttpContext http)
    {
        await sessions.DemandFresh(http);
        var person = await Of(http);
        if (person.Passkeys.Count >= MostPasskeys)
        {
            throw new FaultException("", T($"You have {MostPasskeys} passkeys, the most there can be; remove one first."));
        }

        return await signIn.MakePasskeyCreationOptionsAsync(new() { Id = person.Id.ToString(), Name = person.Name, DisplayName = person.Name });
    }

    /// <summary>Keeps the passkey that a browser made.</summary>
    /// <exception cref="FaultException">It does not hold.</exception>
    public async Task<Passkey> AddPasskey(HttpContext http, string? name, string credential)
    {
        await sessions.DemandFresh(http);
        var person = await Of(http);
        var result = await Entrance.Try(() => signIn.PerformPasskeyAttestationAsync(credential));
        if (result is not { Succeeded: true } || result.UserEntity.Id != person.Id.ToString())
        {
            throw new FaultException("credential", T("The passkey could not be checked. Begin again."));
        }

        result.Passkey.Name = name?.Trim() is { Length: > 0 and <= 60 } said ? said : "Passkey";
        Entrance.Demand(await people.AddOrUpdatePasskeyAsync(person, result.Passkey));
        await book.Write(http, Deeds.AddedPasskey, result.Passkey.Name);
        return Passkey.Of(result.Passkey);
    }

    /// <summary>Removes one of her passkeys; false where she has none of this id.</summary>
    /// <exception cref="FaultException">It is her only way in.</exception>
    public async Task<bool> RemovePasskey(HttpContext http, string id)
    {
        await sessions.DemandFresh(http);
        var person = await Of(http);
        if (person.Passkeys.FirstOrDefault(k => k.Id == id) is not { } key)
        {
            return false;
        }

        if (person.PasswordHash is null && person.Passkeys.Count == 1)
        {
            throw new FaultException("", T("This is your only way in; set a password or add another passkey first."));
        }

        person.Passkeys.Remove(key);
        Entrance.Demand(await people.UpdateAsync(person));
        await book.Write(http, Deeds.RemovedPasskey, key.Name);
        return true;
    }

    // A browser left open must not be enough to lock its owner out.
    private async Task CheckOld(HttpContext http, Person person, string? old)
    {
        if (person.PasswordHash is null)
        {
            await sessions.DemandFresh(http);
            return;
        }

        var address = http.Address();
        if (delays.Wait(address, person.NormalizedName) is { } wait)
        {
            throw new FaultException("old", new Entered(null, wait).Why);
        }

        if (!await people.CheckPasswordAsync(person, old ?? ""))
        {
            delays.Failed(address, person.NormalizedName);
            await book.Write(http, Deeds.Failed, "the old password");
            throw new FaultException("old", T("This is not your password."));
        }

        delays.Succeeded(address, person.NormalizedName);
    }

    private async Task Restamp(HttpContext http, Person person, CancellationToken ct)
    {
        Entrance.Demand(await people.UpdateSecurityStampAsync(person));
        await sessions.EndAll(person.Id, null, ct);
        await signIn.SignInAsync(person, isPersistent: true);
    }
}
