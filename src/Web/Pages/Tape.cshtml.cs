using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>Where she chooses the unit that a bare number means.</summary>
public sealed class TapeModel : PageModel
{
    public string Unit { get; private set; } = "";

    /// <summary>The page she came from.</summary>
    public string Back { get; private set; } = "/";

    public void OnGet(string? back) => (Unit, Back) = (Tape.Chosen(Request), Url.Here(back));

    public IActionResult OnPost(string? unit, string? back)
    {
        if (Tape.Choices.All(c => c.Value != (unit ?? "")))
        {
            return BadRequest();
        }

        Preference.Keep(HttpContext, Tape.Cookie, unit ?? "");
        return LocalRedirect(Url.Here(back));
    }
}
