using JasperFx;
using Marten;
using Microsoft.AspNetCore.Identity;
using Npgsql;

namespace HeirloomArchive.Web.Accounts;

/// <summary>ASP.NET Core Identity's store of people, on the archive's own PostgreSQL.</summary>
public sealed class PersonStore(IDocumentStore store) : IUserPasswordStore<Person>, IUserSecurityStampStore<Person>, IUserPasskeyStore<Person>
{
    public async Task<IdentityResult> CreateAsync(Person user, CancellationToken cancellationToken)
    {
        await using var session = store.LightweightSession();
        session.Insert(user);
        return await Save(session, cancellationToken);
    }

    public async Task<IdentityResult> UpdateAsync(Person user, CancellationToken cancellationToken)
    {
        await using var session = store.LightweightSession();
        session.Store(user);
        return await Save(session, cancellationToken);
    }

    // Nobody is deleted: the history speaks of her, and her name must not become another's.
    public Task<IdentityResult> DeleteAsync(Person user, CancellationToken cancellationToken) => throw new NotSupportedException("People leave; they are not deleted.");

    public async Task<Person?> FindByIdAsync(string userId, CancellationToken cancellationToken)
    {
        await using var session = store.QuerySession();
        return Guid.TryParse(userId, out var id) && await session.LoadAsync<Person>(id, cancellationToken) is { Left: null } person ? person : null;
    }

    // Also one who has left: her name is taken.
    public async Task<Person?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken)
    {
        await using var session = store.QuerySession();
        return await session.Query<Person>().FirstOrDefaultAsync(p => p.NormalizedName == normalizedUserName, cancellationToken);
    }

    public async Task<Person?> FindByPasskeyIdAsync(byte[] credentialId, CancellationToken cancellationToken)
    {
        var key = Passkey.Key(credentialId);
        await using var session = store.QuerySession();
        return await session.Query<Person>().FirstOrDefaultAsync(p => p.Left == null && p.Passkeys.Any(k => k.Id == key), cancellationToken);
    }

    public Task<string> GetUserIdAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.Id.ToString());

    public Task<string?> GetUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Name);

    public Task SetUserNameAsync(Person user, string? userName, CancellationToken cancellationToken) => Done(() => user.Name = userName ?? "");

    public Task<string?> GetNormalizedUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.NormalizedName);

    public Task SetNormalizedUserNameAsync(Person user, string? normalizedName, CancellationToken cancellationToken) => Done(() => user.NormalizedName = normalizedName ?? "");

    public Task SetPasswordHashAsync(Person user, string? passwordHash, CancellationToken cancellationToken) => Done(() => user.PasswordHash = passwordHash);

    public Task<string?> GetPasswordHashAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash);

    public Task<bool> HasPasswordAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash is not null);

    public Task SetSecurityStampAsync(Person user, string stamp, CancellationToken cancellationToken) => Done(() => user.Stamp = stamp);

    public Task<string?> GetSecurityStampAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.Stamp);

    public Task AddOrUpdatePasskeyAsync(Person user, UserPasskeyInfo passkey, CancellationToken cancellationToken) => Done(() =>
    {
        user.Passkeys.RemoveAll(k => k.Id == Passkey.Key(passkey.CredentialId));
        user.Passkeys.Add(Passkey.Of(passkey));
    });

    public Task<IList<UserPasskeyInfo>> GetPasskeysAsync(Person user, CancellationToken cancellationToken) =>
        Task.FromResult<IList<UserPasskeyInfo>>([.. user.Passkeys.Select(k => k.ToInfo())]);

    public Task<UserPasskeyInfo?> FindPasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken) =>
        Task.FromResult(user.Passkeys.FirstOrDefault(k => k.Id == Passkey.Key(credentialId))?.ToInfo());

    public Task RemovePasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken) =>
        Done(() => user.Passkeys.RemoveAll(k => k.Id == Passkey.Key(credentialId)));

    public void Dispose()
    {
        // Each question opens its own session.
    }

    private static async Task<IdentityResult> Save(IDocumentSession session, CancellationToken ct)
    {
        try
        {
            await session.SaveChangesAsync(ct);
            return IdentityResult.Success;
        }
        catch (ConcurrencyException)
        {
            return IdentityResult.Failed(new IdentityErrorDescriber().ConcurrencyFailure());
        }
        catch (Exception e) when (IsTaken(e))
        {
            return IdentityResult.Failed(new IdentityErrorDescriber().DuplicateUserName(""));
        }
    }

    private static bool IsTaken(Exception? e) =>
        e is not null && (e is DocumentAlreadyExistsException or PostgresException { SqlState: PostgresErrorCodes.UniqueViolation } || IsTaken(e.InnerException));

    private static Task Done(Action change)
    {
        change();
        return Task.CompletedTask;
    }
}
