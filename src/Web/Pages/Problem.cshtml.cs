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
        404 => ("Nothing is kept here", "The address may be mistyped, or the piece or worksheet was never made."),
        400 => ("The form was too old", "Go back, reload the page and send it again. Nothing was changed."),
        403 => ("Not for you", "Your role here does not go so far. The owner of the archive can change it."),
        429 => ("A little slower", "There were too many requests in a short time. Wait a minute, then go on."),
        413 => ("That was too large", "Send smaller or fewer files at a time. Nothing was changed."),
        503 => ("Not ready yet", "The archive is still starting. Try again in a moment."),
        _ => ("Something went wrong here", "Nothing that was said to be saved is lost. Go back and try again; if it happens again, look at what the program wrote when it happened."),
    };
}
