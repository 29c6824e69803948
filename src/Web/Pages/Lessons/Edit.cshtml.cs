using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>What a lesson is called, for whom it is, what each needs; and taking it away.</summary>
public sealed class EditModel(LessonBook book) : LessonPage(book)
{
    private static readonly string[] Words = ["name", "level", "time", "pupils", "eachNeeds", "notes", "shared"];

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Form = new(Lesson.State()) { About = "lesson" };
        return Page();
    }

    public async Task<IActionResult> OnPost(Guid id, long version, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        var typed = FormReader.Read(Request.Form, LessonShape.Lesson);
        Form = new(typed) { About = "lesson" };
        var saved = await Save(() => Book.Change(id, version, lesson =>
        {
            foreach (var field in Words)
            {
                lesson[field] = typed[field]?.DeepClone();
            }
        }, Who, ct));
        return saved ? Redirect($"/lessons/{id}") : Page();
    }

    public async Task<IActionResult> OnPostAway(Guid id, long version, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Form = new(Lesson.State()) { About = "lesson" };
        return await Save(() => Book.TakeAway(id, version, Who, ct)) ? Redirect("/lessons#away") : Page();
    }
}
