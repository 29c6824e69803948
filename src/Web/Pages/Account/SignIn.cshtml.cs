using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>Where somebody signs in.</summary>
public sealed class SignInModel(Entrance entrance) : AccountPage
{
    public string Name { get; private set; } = "";

    public void OnGet(string? back) => Back = Url.Here(back);

    public Task<IActionResult> OnPost() => Do(async () =>
    {
        (Name, Back) = (Posted("name"), Url.Here(Posted("back")));
        var entered = await entrance.ByPassword(HttpContext, Name.Length > 300 ? "" : Name, Posted("password") is { Length: <= 1000 } password ? password : "");
        if (entered.Person is not null)
        {
            return LocalRedirect(Back);
        }

        Refuse(entered);
        return null;
    });
}
