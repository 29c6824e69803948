using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Accounts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>A page about accounts: what was refused stands above its form.</summary>
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
public abstract class AccountPage : PageModel
{
    /// <summary>What was wrong with what was sent.</summary>
    public IReadOnlyList<Fault> Faults { get; protected set; } = [];

    /// <summary>What was told once, in the answer to the press that made it: a code or a token.</summary>
    public (string Title, string Text, IReadOnlyList<string> Secrets)? Told { get; protected set; }

    /// <summary>Where to go after signing in.</summary>
    public string Back { get; protected set; } = "/";

    /// <summary>Whether this form was sent and refused; it then keeps what was typed.</summary>
    public bool WasRefused(string form) => Faults.Count > 0 && Request.Query["handler"] == form;

    /// <summary>A text of the form; never null.</summary>
    public string Posted(string name) => Request.Form[name].ToString();

    /// <summary>Does what was pressed; a refusal shows the page again.</summary>
    protected async Task<IActionResult> Do(Func<Task<IActionResult?>> press, Func<Task>? load = null)
    {
        IActionResult? to = null;
        try
        {
            to = await press();
        }
        catch (FaultException e)
        {
            Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        catch (NotFoundException)
        {
            return NotFound();
        }

        if (to is null && load is not null)
        {
            await load();
        }

        return to ?? Page();
    }

    /// <summary>Shows why nobody was let in.</summary>
    protected void Refuse(Entered entered)
    {
        Faults = [new("", entered.Why)];
        entered.Refuse(Response);
    }
}
