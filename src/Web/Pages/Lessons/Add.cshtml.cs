using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>The small form that puts what was chosen, on results, a piece or a worksheet, into a lesson or a new one.</summary>
public sealed class AddModel(LessonBook book, IDocumentStore documents, ShownOnPictures places) : LessonPage(book)
{
    private const int MostLessons = 100;

    /// <summary>What is to be added, each as it stands in the address.</summary>
    public IReadOnlyList<string> Chosen { get; private set; } = [];

    /// <summary>The same, as it will be shown.</summary>
    public IReadOnlyList<LessonEntryView> Entries { get; private set; } = [];

    public IReadOnlyList<Lesson> Lessons { get; private set; } = [];

    /// <summary>Where she came from.</summary>
    public string Back { get; private set; } = "/lessons";

    /// <summary>How an entry is named in an address: <c>garment</c>, <c>garment:technique:id</c>, <c>worksheet:id</c>.</summary>
    public static string Named(string garment, string? what = null, string? id = null) => what is null ? garment : $"{garment}:{what}:{id}";

    /// <summary>The address of this form for a piece, or for an entry of it; from there the way leads back to the piece.</summary>
    public static string Of(string garment, string? what = null, JsonObject? entry = null) => Address(
        Named(garment, what, entry?["id"]?.ToString()), $"/pieces/{garment}{(entry is null || what == "picture" ? "" : $"#{entry["id"]}")}");

    /// <summary>The address of this form for one thing.</summary>
    public static string Address(string entry, string back) => $"/lessons/add?e={Uri.EscapeDataString(entry)}&back={Uri.EscapeDataString(back)}";

    public async Task<IActionResult> OnGet(string[] e, string? back, CancellationToken ct) => await Show(e, back, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPost(string[] e, string? back, string? lesson, CancellationToken ct)
    {
        var name = Request.Form["name"].ToString();
        Form = new(new JsonObject { ["lesson"] = lesson, ["name"] = name, ["show"] = Request.Form["show"].ToString(), ["note"] = Request.Form["note"].ToString() }) { About = "lesson" };
        if (!await Show(e, back, ct) || Entries.Count == 0)
        {
            return NotFound();
        }

        var entries = Chosen.Select(c => Read(c)!).ToList();
        foreach (var entry in entries)
        {
            entry["show"] = Form.Text("show") is { Length: > 0 } show ? show : null;
            entry["note"] = Form.Text("note");
        }

        // A name typed means a new lesson, whatever stands in the choice beside it.
        var made = Guid.TryParse(lesson, out var id) && string.IsNullOrWhiteSpace(name)
            ? await Save(() => Book.Add(id, entries, Who, ct))
            : await Save(() => Book.Make(new JsonObject { ["name"] = name, ["entries"] = new JsonArray([.. entries]) }, Who, ct));
        return made ? Redirect($"/lessons/{Lesson.Id}#e-{Lesson.Entries[^entries.Count]["id"]}") : Page();
    }

    private async Task<bool> Show(string[] chosen, string? back, CancellationToken ct)
    {
        Back = Url.Here(back, "/examples");
        Chosen = [.. chosen.Distinct()];
        if (Chosen.Count > LessonShape.MostEntries || Chosen.Any(c => Read(c) is null))
        {
            return false;
        }

        Entries = await LessonEntryView.All(Book, documents, new() { Fields = new() { ["entries"] = new JsonArray([.. Chosen.Select(Read)]) } }, places, ct);
        (_, Lessons) = await Book.Page(1, MostLessons, ct: ct);
        return Entries.All(entry => entry.To is not null);
    }

    private static JsonObject? Read(string chosen) => chosen.Split(':') switch
    {
        ["worksheet", var id] when Guid.TryParse(id, out _) => new() { ["worksheet"] = id },
        [var garment] when Guid.TryParse(garment, out _) => new() { ["garment"] = garment },
        [var garment, var what, var id] when Guid.TryParse(garment, out _) && Guid.TryParse(id, out _) && LessonShape.Lists.ContainsKey(what) => new() { ["garment"] = garment, [what] = id },
        _ => null,
    };
}
