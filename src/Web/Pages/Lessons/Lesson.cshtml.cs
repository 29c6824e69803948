using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>A lesson: its entries side by side, in her order.</summary>
public sealed class LessonModel(LessonBook book, IDocumentStore documents, ShownOnPictures places) : LessonPage(book)
{
    public IReadOnlyList<LessonEntryView> Entries { get; private set; } = [];

    /// <summary>What was typed for an entry and refused; null where nothing was.</summary>
    public (string Entry, string Show, string Note)? Refused { get; private set; }

    /// <summary>The times it was given that something does not agree in.</summary>
    public int Disagreements => Lesson.Given.Count(g => GivenView.Of(g, _ => "").Wrong.Count > 0);

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct) => await Show(id, ct) ? Page() : NotFound();

    public Task<IActionResult> OnPostMove(Guid id, string entry, int by, long version, CancellationToken ct) => Change(id, version, entry, (entries, at) =>
    {
        var moved = entries[at];
        entries.RemoveAt(at);
        entries.Insert(Math.Clamp(at + by, 0, entries.Count), moved);
    }, ct);

    /// <summary>The whole order at once, as it was dragged: what is not named keeps its place behind.</summary>
    public Task<IActionResult> OnPostOrder(Guid id, string? order, long version, CancellationToken ct)
    {
        var places = (order ?? "").Split(',').Distinct().Select((e, i) => (e, i)).ToDictionary(p => p.e, p => p.i);
        return Change(id, version, null, (entries, _) =>
        {
            var sorted = entries.OrderBy(e => places.GetValueOrDefault(e!["id"]!.ToString(), int.MaxValue)).ToList();
            entries.Clear();
            sorted.ForEach(e => entries.Add(e));
        }, ct);
    }

    public Task<IActionResult> OnPostOut(Guid id, string entry, long version, CancellationToken ct) => Change(id, version, entry, (entries, at) => entries.RemoveAt(at), ct);

    public async Task<IActionResult> OnPostEntry(Guid id, string entry, string? show, string? note, long version, CancellationToken ct)
    {
        var answer = await Change(id, version, entry, (entries, at) =>
        {
            entries[at]!["show"] = string.IsNullOrEmpty(show) ? null : show;
            entries[at]!["note"] = note;
        }, ct);
        Refused = answer is PageResult ? (entry, show ?? "", note ?? "") : null;
        return answer;
    }

    private async Task<IActionResult> Change(Guid id, long version, string? entry, Action<JsonArray, int> change, CancellationToken ct)
    {
        if (await Book.Find(id, ct) is null)
        {
            return NotFound();
        }

        var saved = await Save(() => Book.Change(id, version, lesson =>
        {
            var entries = lesson["entries"]!.AsArray();
            var at = entry is null ? 0 : entries.ToList().FindIndex(e => e!["id"]!.ToString() == entry);
            if (at >= 0)
            {
                change(entries, at);
            }
        }, Who, ct));
        if (saved)
        {
            return Redirect($"/lessons/{id}#{(Lesson.Entries.Any(e => e["id"]!.ToString() == entry) ? $"e-{entry}" : "entries")}");
        }

        return await Show(id, ct) ? Page() : NotFound();
    }

    private async Task<bool> Show(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return false;
        }

        Entries = await LessonEntryView.All(Book, documents, Lesson, places, ct);
        return true;
    }
}
