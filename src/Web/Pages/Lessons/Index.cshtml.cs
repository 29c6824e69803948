using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>All lessons, a new one, and those taken away.</summary>
public sealed class IndexModel(LessonBook book) : LessonPage(book)
{
    private const int Size = 40;

    public long Total { get; private set; }

    public IReadOnlyList<Lesson> Lessons { get; private set; } = [];

    /// <summary>The latest that were taken away.</summary>
    public IReadOnlyList<Lesson> Away { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public async Task<IActionResult> OnGet(int number = 1, CancellationToken ct = default)
    {
        if (number is < 1 or > 250)
        {
            return NotFound();
        }

        await List(number, ct);
        return Page();
    }

    public async Task<IActionResult> OnPost(CancellationToken ct)
    {
        Form = new(new JsonObject { ["name"] = Request.Form["name"].ToString() }) { About = "lesson" };
        if (await Save(() => Book.Make(new JsonObject { ["name"] = Form.Text("name") }, Who, ct)))
        {
            return Redirect($"/lessons/{Lesson.Id}");
        }

        await List(1, ct);
        return Page();
    }

    public async Task<IActionResult> OnPostBringBack(Guid lesson, CancellationToken ct)
    {
        try
        {
            return Redirect($"/lessons/{(await Book.BringBack(lesson, Who, ct)).Id}");
        }
        catch (NotFoundException)
        {
            return NotFound();
        }
    }

    private async Task List(int number, CancellationToken ct)
    {
        (Total, Lessons) = await Book.Page(number, Size, ct: ct);
        Away = Teaches ? (await Book.Page(1, Size, away: true, ct)).Items : [];
        Pager = new(number, Size, Total, n => $"/lessons?number={n}");
    }
}
