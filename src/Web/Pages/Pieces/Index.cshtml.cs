using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>All pieces, as tiles or as a table with columns of her choice; sorted and asked by the database.</summary>
public sealed class IndexModel(PieceList list) : PageModel
{
    private const int Tiles = 24, Rows = 50, Furthest = 100_000;

    public ListAsked Asked { get; private set; } = null!;

    public long Total { get; private set; }

    public IReadOnlyList<ListedPiece> Listed { get; private set; } = [];

    public IReadOnlyList<TileView> Pieces { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    /// <summary>Whether only some are asked for.</summary>
    public bool IsSome => Asked.Question.Parts.Any();

    public IEnumerable<PieceColumn> Columns => PieceColumn.All.Where(c => Asked.Columns.Contains(c.Name));

    public async Task<IActionResult> OnGet(int number = 1, CancellationToken ct = default)
    {
        if (number is < 1 or > Furthest)
        {
            return NotFound();
        }

        Asked = ListAsked.Of(Request);
        var size = Asked.AsTable ? Rows : Tiles;
        (Total, Listed) = await list.Page(Asked.Question, Asked.Sort, Asked.Down, number, size, ct);
        Pieces = Asked.AsTable ? [] : [.. (await list.Garments(Listed, ct)).Select(TileView.Of)];
        Pager = new(number, size, Total, Asked.To);
        if (Request.Query.ContainsKey("as"))
        {
            Preference.Keep(HttpContext, ListAsked.Cookie, Asked.Kept);
        }

        return Page();
    }
}
