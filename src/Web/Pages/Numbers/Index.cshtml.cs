using HeirloomArchive.Search;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Numbers;

/// <summary>What the collection holds, as bars and as tables; every number is a search.</summary>
public sealed class IndexModel(CollectionNumbers numbers) : PageModel
{
    public long Total { get; private set; }

    public IReadOnlyList<Chart> Charts { get; private set; } = [];

    public IActionResult OnGet()
    {
        try
        {
            (Total, Charts) = numbers.Now();
            return Page();
        }
        catch (IndexNotReadyException)
        {
            Response.Headers.RetryAfter = "2";
            return StatusCode(StatusCodes.Status503ServiceUnavailable);
        }
    }
}
