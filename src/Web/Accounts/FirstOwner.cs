using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Marten;

namespace HeirloomArchive.Web.Accounts;

/// <summary>Who comes first: by a code that the program prints at its start, so that only who can read its terminal becomes the owner.</summary>
public sealed class FirstOwner(IDocumentStore store) : IDisposable
{
    private readonly SemaphoreSlim one = new(1, 1);

    /// <summary>Good until there is an owner or the program ends.</summary>
    public string Code { get; } = Codes.ForPeople();

    public void Dispose() => one.Dispose();

    /// <summary>Whether there is an owner already.</summary>
    public async Task<bool> IsThere(CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.Query<Person>().AnyAsync(p => p.Role == Role.Owner && p.Left == null, ct);
    }

    /// <summary>Makes the first owner.</summary>
    /// <exception cref="FaultException">There is one, or the code, the name or the password will not do.</exception>
    public async Task<Person> Make(HttpContext http, Entrance entrance, Book book, string code, string name, string password, CancellationToken ct)
    {
        await one.WaitAsync(ct);
        try
        {
            // The same answer whether there is an owner or the code is wrong.
            if (!Codes.Same(Codes.Digest(Codes.Typed(code)), Codes.Digest(Code)) || await IsThere(ct))
            {
                await book.Write(http, Deeds.Failed, "as the first owner", who: name);
                throw new FaultException("code", T("This is not the code that the program printed when it last started, or it has been used."));
            }

            var person = await entrance.Make(name, Role.Owner, password);
            await entrance.Enter(http, person, Deeds.First);
            return person;
        }
        finally
        {
            one.Release();
        }
    }
}
