using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>What pupils take home: the entries with their pictures and measures, and nothing private.</summary>
public sealed class HandOutModel(LessonBook book, IDocumentStore documents, ShownOnPictures places) : LessonPage(book)
{
    public IReadOnlyList<LessonEntryView> Entries { get; private set; } = [];

    /// <summary>What pupils are told before they touch anything.</summary>
    public static IReadOnlyList<Caution> ForPupils { get; } =
    [
        .. Cautions.At("hands").Where(c => c.Code is "bare-clean-hands" or "jewellery-off"),
        .. Cautions.At("table").Where(c => c.Code is "lift-on-a-support" or "pencil-only" or "no-food-or-drink" or "stop-if-it-resists"),
        .. Cautions.At("work").Where(c => c.Code is "count-sharps" or "sheet-off-the-cloth"),
    ];

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Entries = await LessonEntryView.All(Book, documents, Lesson, places, ct);
        return Page();
    }
}
