using System.Globalization;
using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>Where somebody signs in.</summary>
public sealed class SignInModel(Entrance entrance) : AccountPage
{
    public string Name { get; private set; } = "";

    public void OnGet(string? back) => Back = Here(back);

    public Task<IActionResult> OnPost() => Do(async () =>
    {
        (Name, Back) = (Posted("name"), Here(Posted("back")));
        var entered = await entrance.ByPassword(HttpContext, Name.Length > 300 ? "" : Name, Posted("password") is { Length: <= 1000 } password ? password : "");
        if (entered.Person is not null)
        {
            return LocalRedirect(Back);
        }

        if (entered.Wait is { } wait)
        {
            Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }

        Refuse(entered.Wait is null ? StatusCodes.Status401Unauthorized : StatusCodes.Status429TooManyRequests, entered.Why);
        return null;
    });
}
