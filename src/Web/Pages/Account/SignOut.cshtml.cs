using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>Ends the session.</summary>
public sealed class SignOutModel(SignInManager<Person> signIn, Book book) : AccountPage
{
    public IActionResult OnGet() => LocalRedirect("/account");

    public async Task<IActionResult> OnPost()
    {
        await signIn.SignOutAsync();
        await book.Write(HttpContext, Deeds.SignedOut);
        return LocalRedirect("/account/sign-in");
    }
}
