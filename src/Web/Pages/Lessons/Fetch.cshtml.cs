using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>The pieces to fetch: where each is kept, and which must stay where they are.</summary>
public sealed class FetchModel(LessonBook book) : LessonPage(book)
{
    public IReadOnlyList<FetchView> Pieces { get; private set; } = [];

    /// <summary>How many entries are shown by a photograph or a sample.</summary>
    public int Others { get; private set; }

    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("table").Concat(Catalogue.Cautions.At("hands")).DistinctBy(c => c.Code);

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        var shown = await Book.Look(Lesson, toFetch: true, ct);
        Pieces = FetchView.Of(shown);
        Others = shown.Count(s => s.Piece is not null && Pieces.All(p => p.Id != s.Piece["id"]!.ToString()));
        return Page();
    }
}
