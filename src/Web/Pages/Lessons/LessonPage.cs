using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>A page about one lesson: reads it, changes it or says what is wrong, and loses nothing that was typed.</summary>
public abstract class LessonPage(LessonBook book) : PageModel
{
    protected LessonBook Book => book;

    public Lesson Lesson { get; private set; } = new();

    /// <summary>What was typed, and what is wrong with it.</summary>
    public Form Form { get; protected set; } = new([]) { About = "lesson" };

    /// <summary>Where a form and the lesson went apart; null if they did not.</summary>
    public JsonArray? Differs { get; private set; }

    /// <summary>The version that a save replaces.</summary>
    public long Version { get; protected set; }

    /// <summary>A field of the lesson in plain words; empty where nothing is written.</summary>
    public string Text(string field) => Lesson.Fields[field]?.ToString() ?? "";

    /// <summary>For whom it is, how long it takes and for how many, in one line; empty where none of it is written.</summary>
    public string Under => string.Join(" · ", new[] { Text("level"), Text("time"), Lesson.Fields["pupils"] is { } pupils ? N(Reading.Say.Number(pupils), $"{pupils} pupil", $"{pupils} pupils") : "" }.Where(t => t.Length > 0));

    protected static string Who => Versions.Who;

    /// <summary>Whether she teaches: a pupil only reads what is shared with her.</summary>
    public static bool Teaches => Viewer.Now.Sight.Teaching;

    /// <summary>False when there is no such lesson.</summary>
    protected async Task<bool> Load(Guid id, CancellationToken ct)
    {
        if (await book.Find(id, ct) is not { } lesson)
        {
            return false;
        }

        (Lesson, Version) = (lesson, lesson.Version);
        return true;
    }

    /// <summary>Saves; false when it was refused, and then the page shows what is wrong.</summary>
    protected async Task<bool> Save(Func<Task<Lesson>> write)
    {
        try
        {
            Lesson = await write();
            return true;
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        catch (NotFoundException)
        {
            Form.Faults = [new("", T("Somebody took this lesson away in between. Under “Taken away” on the page of all lessons it can be brought back."))];
            Response.StatusCode = StatusCodes.Status404NotFound;
        }
        catch (StaleException e)
        {
            (Differs, Version) = (e.Differs, e.Version);
            Response.StatusCode = StatusCodes.Status412PreconditionFailed;
        }

        return false;
    }
}
