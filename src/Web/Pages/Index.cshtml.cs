using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages;

/// <summary>The way in: what to do first, or the three journeys and the latest pieces.</summary>
public sealed class IndexModel(Archive archive) : PageModel
{
    public long Total { get; private set; }

    public IReadOnlyList<TileView> Latest { get; private set; } = [];

    public async Task OnGet(CancellationToken ct)
    {
        (Total, var latest) = await archive.Page(1, 4, ct);
        Latest = [.. latest.Select(TileView.Of)];
    }
}
