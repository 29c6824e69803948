using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>What went wrong, in plain words, where a page can't be shown.</summary>
[IgnoreAntiforgeryToken]
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
public sealed class ProblemModel : PageModel
{
    public string Heading { get; private set; } = "";

    public string Text { get; private set; } = "";

    public void OnGet(int status) => Say(status);

    public void OnPost(int status) => Say(status);

    /// <summary>What she typed and could not be taken.</summary>
    public HeldForm? Held => HttpContext.Features.Get<HeldForm>();

    private void Say(int status) => (Heading, Text) = HttpContext.Features.Get<Outage>() is { } outage ? (outage.Title.TrimEnd('.'), outage.Detail) : status switch
    {
        404 => (T("Nothing is kept here"), T("The address may be mistyped, or the piece or worksheet was never made.")),
        400 => (T("The form was too old"), T("Go back, reload the page and send it again. Nothing was changed.")),
        403 => (T("Not for you"), T("Your role here does not go so far. The owner of the archive can change it.")),
        429 => (T("A little slower"), T("There were too many requests in a short time. Wait a minute, then go on.")),
        413 => (T("That was too large"), T("Send smaller or fewer files at a time. Nothing was changed.")),
        503 => (T("Not ready yet"), T("The archive is still starting. Try again in a moment.")),
        _ => (T("Something went wrong here"), T("Nothing that was said to be saved is lost. Go back and try again; if it happens again, look at what the program wrote when it happened.")),
    };
}
