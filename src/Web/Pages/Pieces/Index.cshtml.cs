using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>All pieces, newest first.</summary>
public sealed class IndexModel(Archive archive) : PageModel
{
    private const int Size = 24;

    public long Total { get; private set; }

    public IReadOnlyList<TileView> Pieces { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public async Task<IActionResult> OnGet(int number = 1, CancellationToken ct = default)
    {
        if (number is < 1 or > 400)
        {
            return NotFound();
        }

        (Total, var pieces) = await archive.Page(number, Size, ct);
        Pieces = [.. pieces.Select(TileView.Of)];
        Pager = new(number, Size, Total, n => $"/pieces?number={n}");
        return Page();
    }
}
