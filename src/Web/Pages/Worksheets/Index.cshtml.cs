using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>The worksheets made, newest first.</summary>
public sealed class IndexModel(IDocumentStore documents) : PageModel
{
    private const int Size = 40;

    public long Total { get; private set; }

    public IReadOnlyList<Worksheet> Sheets { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public async Task<IActionResult> OnGet(int number = 1, CancellationToken ct = default)
    {
        if (number is < 1 or > 400)
        {
            return NotFound();
        }

        await using var session = documents.QuerySession();
        Total = await session.Query<Worksheet>().LongCountAsync(ct);
        Sheets = await session.Query<Worksheet>().OrderByDescending(w => w.Id).Skip((number - 1) * Size).Take(Size).ToListAsync(ct);
        Pager = new(number, Size, Total, n => $"/worksheets?number={n}");
        return Page();
    }
}
