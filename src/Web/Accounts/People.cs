using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Access;
using Marten;
using Microsoft.AspNetCore.Identity;

namespace HeirloomArchive.Web.Accounts;

/// <summary>What the owner decides: who may come in, and as what.</summary>
public sealed class People(UserManager<Person> people, Sessions sessions, Tokens tokens, Book book, IDocumentStore store, TimeProvider clock)
{
    public const int LongestDays = 60;

    // One after another: two owners who take the role from each other at once would leave none.
    private const string Owners = "archive_owners";

    /// <summary>All who may come in, by name.</summary>
    public async Task<IReadOnlyList<Person>> All(CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.Query<Person>().Where(p => p.Left == null).OrderBy(p => p.NormalizedName).ToListAsync(ct);
    }

    /// <summary>Invitations that can still be used.</summary>
    public async Task<IReadOnlyList<Invitation>> Invitations(CancellationToken ct)
    {
        var now = clock.GetUtcNow();
        await using var session = store.QuerySession();
        return [.. (await session.Query<Invitation>().Where(i => i.Used == null && i.Ends > now).ToListAsync(ct)).OrderBy(i => i.Made)];
    }

    /// <summary>Invites; the code is told now and never again.</summary>
    /// <exception cref="FaultException">No such role, or for too long.</exception>
    public async Task<(Invitation Invitation, string Code)> Invite(HttpContext http, Role? role, string? note, int days, Guid? again, CancellationToken ct)
    {
        List<Fault> faults = [];
        if (role is null)
        {
            faults.Add(new("role", T($"Say what she will be: {string.Join(", ", Roles.ForPeople.Select(r => r.Slug()))}.")));
        }

        if (days is < 1 or > LongestDays)
        {
            faults.Add(new("days", T($"An invitation can be good for 1 to {LongestDays} days, not {days}.")));
        }

        if (note?.Length > 200)
        {
            faults.Add(new("note", T("The note has more than 200 characters.")));
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var (code, now) = (Codes.ForPeople(), clock.GetUtcNow());
        var invitation = new Invitation
        {
            Digest = Codes.Digest(code), Id = Guid.CreateVersion7(now), Role = role!.Value, Note = note?.Trim() ?? "", Again = again, By = http.Caller().Name, Made = now, Ends = now.AddDays(days),
        };
        await using var session = store.LightweightSession();
        session.Insert(invitation);
        session.DeleteWhere<Invitation>(i => i.Ends < now);
        await session.SaveChangesAsync(ct);
        await book.Write(http, Deeds.Invited, $"{role.Value.Slug()}{(invitation.Note.Length > 0 ? ", " + invitation.Note : "")}");
        return (invitation, code);
    }

    /// <summary>A new way in for somebody who has lost hers.</summary>
    public async Task<(Invitation Invitation, string Code)> InviteAgain(HttpContext http, Guid id, CancellationToken ct)
    {
        var person = await Find(id);
        return await Invite(http, person.Role, $"again: {person.Name}", 2, person.Id, ct);
    }

    /// <summary>Takes an invitation back.</summary>
    /// <exception cref="NotFoundException">There is none that can still be used.</exception>
    public async Task Withdraw(HttpContext http, Guid id, CancellationToken ct)
    {
        await using var session = store.LightweightSession();
        var invitation = await session.Query<Invitation>().FirstOrDefaultAsync(i => i.Id == id && i.Used == null, ct) ?? throw new NotFoundException($"No open invitation has the id {id}.");
        session.Delete(invitation);
        await session.SaveChangesAsync(ct);
        await book.Write(http, Deeds.Withdrew, invitation.Note);
    }

    /// <summary>Gives somebody another role; it holds from her next request on.</summary>
    /// <exception cref="NotFoundException">There is no such person.</exception>
    /// <exception cref="FaultException">No such role, or nobody would be the owner.</exception>
    public async Task<Person> ChangeRole(HttpContext http, Guid id, Role? role, CancellationToken ct)
    {
        await using var turn = await Turn.Take(store, Owners, ct);
        var person = await Find(id);
        var to = role ?? throw new FaultException("role", T($"A role is one of {string.Join(", ", Roles.ForPeople.Select(r => r.Slug()))}."));
        if (person.Role == Role.Owner && to != Role.Owner)
        {
            await CheckOtherOwner(person, "role", ct);
        }

        var before = person.Role;
        person.Role = to;
        Entrance.Demand(await people.UpdateAsync(person));
        await book.Write(http, Deeds.ChangedRole, $"{person.Name}: {before.Slug()} to {to.Slug()}");
        return person;
    }

    /// <summary>Takes somebody off: her sessions and tokens end at once; what she did stays, under her name.</summary>
    public async Task TakeOff(HttpContext http, Guid id, CancellationToken ct)
    {
        await using var turn = await Turn.Take(store, Owners, ct);
        var person = await Find(id);
        if (person.Role == Role.Owner)
        {
            await CheckOtherOwner(person, "", ct);
        }

        (person.Left, person.PasswordHash) = (clock.GetUtcNow(), null);
        person.Passkeys.Clear();
        person.RecoveryCodes.Clear();
        Entrance.Demand(await people.UpdateSecurityStampAsync(person));
        await sessions.EndAll(id, null, ct);
        await tokens.EndAll(id, ct);
        await book.Write(http, Deeds.TookOff, person.Name);
    }

    /// <summary>Ends all sessions of somebody; she may sign in again.</summary>
    public async Task EndSessions(HttpContext http, Guid id, CancellationToken ct)
    {
        var person = await Find(id);
        await sessions.EndAll(id, null, ct);
        await book.Write(http, Deeds.EndedSession, $"all of {person.Name}");
    }

    private async Task<Person> Find(Guid id) => await people.FindByIdAsync(id.ToString()) ?? throw new NotFoundException($"No person has the id {id}.");

    private async Task CheckOtherOwner(Person person, string path, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        if (!await session.Query<Person>().AnyAsync(p => p.Role == Role.Owner && p.Left == null && p.Id != person.Id, ct))
        {
            throw new FaultException(path, T($"{person.Name} is the only owner; make somebody else one first."));
        }
    }
}
