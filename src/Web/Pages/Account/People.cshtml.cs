using System.Globalization;
using HeirloomArchive.Web.Access;
using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>For the owner: who may come in, and as what.</summary>
public sealed class PeopleModel(People people) : AccountPage
{
    public IReadOnlyList<Person> All { get; private set; } = [];

    public IReadOnlyList<Invitation> Open { get; private set; } = [];

    public Task OnGet(CancellationToken ct) => Load(ct);

    public Task<IActionResult> OnPostInvite(CancellationToken ct) => Do(async () =>
    {
        Tell(await people.Invite(HttpContext, Roles.Read(Posted("role")), Posted("note"), int.TryParse(Posted("days"), NumberStyles.None, CultureInfo.InvariantCulture, out var days) ? days : 0, null, ct));
        return null;
    }, () => Load(ct));

    public Task<IActionResult> OnPostAgain(CancellationToken ct) => Do(async () =>
    {
        Tell(await people.InviteAgain(HttpContext, Id, ct));
        return null;
    }, () => Load(ct));

    public Task<IActionResult> OnPostRole(CancellationToken ct) => Press(() => people.ChangeRole(HttpContext, Id, Roles.Read(Posted("role")), ct), ct);

    public Task<IActionResult> OnPostTakeOff(CancellationToken ct) => Press(() => people.TakeOff(HttpContext, Id, ct), ct);

    public Task<IActionResult> OnPostEndSessions(CancellationToken ct) => Press(() => people.EndSessions(HttpContext, Id, ct), ct);

    public Task<IActionResult> OnPostWithdraw(CancellationToken ct) => Press(() => people.Withdraw(HttpContext, Id, ct), ct);

    private Guid Id => Guid.TryParse(Posted("id"), out var id) ? id : Guid.Empty;

    private void Tell((Invitation Invitation, string Code) made) => Told = (
        T("The invitation"), T($"Give this to nobody but the one it is for, by a way that only she reads. It is not shown again, and can be used once until {Written.Day(made.Invitation.Ends)}."),
        [made.Code, $"{Request.Scheme}://{Request.Host}/account/join?code={made.Code}"]);

    private Task<IActionResult> Press(Func<Task> press, CancellationToken ct) => Do(async () =>
    {
        await press();
        return LocalRedirect("/account/people");
    }, () => Load(ct));

    private async Task Load(CancellationToken ct) => (All, Open) = (await people.All(ct), await people.Invitations(ct));
}
