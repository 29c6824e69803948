using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Guide;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Guide;

/// <summary>A chapter of the guide; that on keeping ends with every caution there is, from the one place where they are kept.</summary>
public sealed class ChapterModel : PageModel
{
    public Chapter Chapter { get; private set; } = null!;

    /// <summary>The one that follows; null after the last.</summary>
    public Chapter? Next { get; private set; }

    public IReadOnlyList<Caution> Cautions { get; private set; } = [];

    public IActionResult OnGet(string slug)
    {
        var at = Book.Chapters.ToList().FindIndex(c => c.Slug == slug);
        if (at < 0)
        {
            return NotFound();
        }

        Chapter = Book.Chapters[at];
        Next = Book.Chapters.ElementAtOrDefault(at + 1);
        Cautions = slug == "keeping-antique-cloth" ? Catalogue.Cautions.All : [];
        return Page();
    }
}
