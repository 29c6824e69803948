using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Numbers;

/// <summary>What the collection holds, as bars and as tables; every number is a search.</summary>
public sealed class IndexModel(CollectionNumbers numbers) : PageModel
{
    public long Total { get; private set; }

    public IReadOnlyList<Chart> Charts { get; private set; } = [];

    public void OnGet() => (Total, Charts) = numbers.Now();
}
