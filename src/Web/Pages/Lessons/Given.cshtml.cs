using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>The times a lesson was given: what goes out, what comes back, needles counted both times.</summary>
public sealed class GivenModel(LessonBook book, Archive archive, TimeProvider clock) : LessonPage(book)
{
    private readonly Dictionary<string, string> names = [];

    /// <summary>The times in the order of the lesson, with their place in it.</summary>
    public IReadOnlyList<GivenView> Times { get; private set; } = [];

    /// <summary>The place of the time whose form was refused, to keep what was typed there; null where none was.</summary>
    public int? Refused { get; private set; }

    /// <summary>What can go out.</summary>
    public IReadOnlyList<FetchView> Pieces { get; private set; } = [];

    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("work").Where(c => c.Code is "count-sharps" or "sharps-left-in" or "ask-a-conservator");

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Show(id, ct))
        {
            return NotFound();
        }

        Form = Another();
        return Page();
    }

    /// <summary>It begins: what goes out is written down.</summary>
    public Task<IActionResult> OnPostOut(Guid id, long version, CancellationToken ct) => Keep(id, version, Typed("date", "group", "out", "needlesOut"), (given, typed) => given.Add((JsonNode)typed), ct);

    /// <summary>It is over: what came back.</summary>
    public Task<IActionResult> OnPostBack(Guid id, int time, long version, CancellationToken ct)
    {
        Refused = time;
        return Keep(id, version, Typed("back", "needlesBack", "changed"), (given, typed) =>
        {
            if (time >= 0 && time < given.Count)
            {
                foreach (var field in (string[])["back", "needlesBack", "changed"])
                {
                    given[time]![field] = typed[field]?.DeepClone();
                }
            }
        }, ct);
    }

    /// <summary>The form of another time: today, with every piece that may go.</summary>
    public Form Another() => new(new JsonObject
    {
        ["date"] = clock.GetLocalNow().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["out"] = new JsonArray([.. Pieces.Where(p => p.Stays.Count == 0).Select(p => (JsonNode)p.Id)]),
    }) { About = "lesson" };

    private JsonObject Typed(params string[] fields)
    {
        var read = FormReader.Read(Request.Form.Where(f => f.Key is not ("out" or "back")), LessonShape.Given);
        foreach (var list in (string[])["out", "back"])
        {
            read[list] = new JsonArray([.. Request.Form[list].Select(id => (JsonNode?)id)]);
        }

        return new(read.Where(f => fields.Contains(f.Key)).Select(f => KeyValuePair.Create(f.Key, f.Value?.DeepClone())));
    }

    private async Task<IActionResult> Keep(Guid id, long version, JsonObject typed, Action<JsonArray, JsonObject> change, CancellationToken ct)
    {
        if (!await Show(id, ct))
        {
            return NotFound();
        }

        Form = new(typed.DeepClone().AsObject()) { About = "lesson", NameOf = path => Reading.Say.Path(path[(path.IndexOf('.', StringComparison.Ordinal) + 1)..]) };
        return await Save(() => Book.Change(id, version, lesson => change(lesson["given"]!.AsArray(), typed), Who, ct)) ? Redirect($"/lessons/{id}/given") : Page();
    }

    private async Task<bool> Show(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return false;
        }

        Pieces = FetchView.Of(await Book.Look(Lesson, ct: ct));
        foreach (var piece in Lesson.Given.SelectMany(g => (g["out"] as JsonArray ?? []).Concat(g["back"] as JsonArray ?? [])).Select(p => p!.ToString()).Distinct())
        {
            names[piece] = await archive.Find(Guid.Parse(piece), ct) is { } garment ? string.Join(" · ", new[] { garment.Number ?? "", garment.Name }.Where(t => t.Length > 0)) : piece;
        }

        Times = [.. Lesson.Given.Select(g => GivenView.Of(g, piece => names.GetValueOrDefault(piece, piece)))];
        return true;
    }
}
