using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>A page where somebody comes in by a code and chooses a password.</summary>
public abstract class ComeInModel : AccountPage
{
    public abstract string CodeLabel { get; }

    public virtual string NameHelp => T("It stands beside everything that you change, and you sign in by it.");

    public string Code { get; private set; } = "";

    public string Name { get; private set; } = "";

    public void OnGet(string? code) => Code = code is { Length: <= 100 } ? code : "";

    public Task<IActionResult> OnPost(CancellationToken ct) => Do(async () =>
    {
        (Code, Name) = (Posted("code"), Posted("name"));
        return await Enter(Posted("password"), ct) ? LocalRedirect("/account") : null;
    });

    protected abstract Task<bool> Enter(string password, CancellationToken ct);
}

/// <summary>The first owner comes in.</summary>
public sealed class FirstModel(FirstOwner first, Entrance entrance, Book book) : ComeInModel
{
    public override string CodeLabel => T("The code that the program printed");

    protected override async Task<bool> Enter(string password, CancellationToken ct) => await first.Make(HttpContext, entrance, book, Code, Name, password, ct) is not null;
}

/// <summary>Somebody who was invited comes in.</summary>
public sealed class JoinModel(Entrance entrance) : ComeInModel
{
    public override string CodeLabel => T("The code of your invitation");

    protected override async Task<bool> Enter(string password, CancellationToken ct) => await entrance.ByInvitation(HttpContext, Code, Name, password, ct) is not null;
}

/// <summary>Somebody who lost what she signed in with comes in.</summary>
public sealed class RecoverModel(Entrance entrance) : ComeInModel
{
    public override string CodeLabel => T("One of your recovery codes");

    public override string NameHelp => T("As you sign in by it.");

    protected override async Task<bool> Enter(string password, CancellationToken ct)
    {
        var entered = await entrance.ByRecoveryCode(HttpContext, Name, Code, password);
        if (entered.Person is null)
        {
            Refuse(entered);
        }

        return entered.Person is not null;
    }
}
