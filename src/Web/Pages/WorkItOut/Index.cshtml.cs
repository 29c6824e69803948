using HeirloomArchive.Sewing.Sums;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>All sums on their shelves; an address from when this page was itself a sum leads on to it.</summary>
public sealed class IndexModel : PageModel
{
    /// <summary>The shelves with their headings.</summary>
    public static IReadOnlyList<(Shelf Shelf, string Title)> Shelves { get; } = // texts
    [
        (Shelf.Tucks, "Tucks"), (Shelf.Sizes, "From the antique to your size"), (Shelf.Cloth, "Cloth, joins and flare"),
        (Shelf.Lace, "Lace and insertion"), (Shelf.Fullness, "Gathers, smocking, pleats"), (Shelf.Thread, "Needle, thread, stitches"),
    ];

    public IActionResult OnGet(string? what) =>
        what == "fit" ? Redirect("/work-it-out/fit" + Request.QueryString)
        : Request.Query.Count > 0 ? Redirect("/work-it-out/tucks" + Request.QueryString)
        : Page();

    /// <summary>The sums of a shelf: the two great ones stand first on theirs.</summary>
    public static IEnumerable<(string Slug, string Title, string Lead)> On(Shelf shelf) =>
    [
        .. shelf == Shelf.Tucks ? [("tucks", T("A run of tucks"), T("Where every line of a run falls, and what it takes up."))] : Array.Empty<(string, string, string)>(),
        .. shelf == Shelf.Sizes ? [("fit", T("Tucks that fit a width"), T("Which equal tucks fill a width exactly, and what comes nearest when none do."))] : Array.Empty<(string, string, string)>(),
        .. AllSums.InOrder.Where(s => s.Shelf == shelf).Select(s => (s.Slug, T(s.Title), T(s.Lead))),
    ];
}
