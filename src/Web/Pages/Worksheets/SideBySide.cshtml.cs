using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>A worksheet of several things side by side: tucks, an insertion, tucks, perhaps with their mirror image.</summary>
public sealed class SideBySideModel(Archive archive, IDocumentStore documents, TimeProvider clock) : PageModel
{
    /// <summary>The run of one section; it lies from start to end.</summary>
    public static RecordType Run { get; } = new([.. WorksheetForm.Plan.Fields.Where(f => f.Name is "groups" or "between" or "lead" or "trail" or "lies" or "twinNeedle" or "testStrip")]);

    private static readonly RecordType Section = new(
    [
        new("kind", new ChoiceType("tucks", "insertion")), new("technique", new IdType("techniques")), new("plan", Run),
        new("insertion", new RecordType([new("width", new MeasureType(Sign.AboveZero)), new("laidOn", new FlagType())])),
    ]);

    /// <summary>What the page asks.</summary>
    public static RecordType Shape { get; } = new(
        [new("sections", new ListType(Section, 40)), new("mirrored", new FlagType()), .. WorksheetForm.Request.Fields.Where(f => f.Name is not "onto" and not "plan" and not "technique")]);

    public Form Form { get; private set; } = new([]);

    public JsonObject? Garment { get; private set; }

    public async Task<IActionResult> OnGet(Guid? garment, string? technique, CancellationToken ct)
    {
        if (!await Load(garment, ct))
        {
            return NotFound();
        }

        Form = new(new() { ["garment"] = garment?.ToString(), ["paper"] = "A4", ["unit"] = Tape.Chosen(Request) is { Length: > 0 } unit ? unit : null, ["sections"] = Start(technique) }) { About = "worksheet", Garment = Garment };
        return Page();
    }

    public async Task<IActionResult> OnPost(string? add, string? remove, int? up, CancellationToken ct)
    {
        var rearranges = add is not null || remove is not null || up is not null;
        var values = FormReader.Read(Request.Form, Shape, rearranges);
        if (!await Load(Guid.TryParse(values["garment"]?.ToString(), out var id) ? id : null, ct))
        {
            return NotFound();
        }

        Form = new(values) { About = "worksheet", Garment = Garment };
        if (rearranges)
        {
            Rearrange(add, remove, up);
            return Page();
        }

        try
        {
            var worksheet = WorksheetMaker.Make(Asked(values), Garment, clock.GetUtcNow());
            await documents.Keep(worksheet, ct);
            return Redirect($"/worksheets/{worksheet.Id}");
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }
    }

    /// <summary>What kind of thing a section is: <c>tucks</c> or <c>insertion</c>.</summary>
    public string Kind(int section) => Form.Text($"sections[{section}].kind") == "insertion" ? "insertion" : "tucks";

    private void Rearrange(string? add, string? remove, int? up)
    {
        if (add is not null)
        {
            Form.Add(add);
        }

        if (remove is not null)
        {
            Form.Remove(remove);
        }

        if (up is { } at && Form.Values["sections"] is JsonArray list && at > 0 && at < list.Count)
        {
            var moved = list[at];
            list.RemoveAt(at);
            list.Insert(at - 1, moved);
        }
    }

    // The kind only tells the page which fields to show; the API sees it by what is there.
    private static JsonObject Asked(JsonObject values)
    {
        var asked = values.DeepClone().AsObject();
        foreach (var section in (asked["sections"] as JsonArray ?? []).OfType<JsonObject>())
        {
            section.Remove(section["kind"]?.ToString() == "insertion" ? "plan" : "insertion");
            section.Remove("kind");
        }

        return asked;
    }

    /// <summary>The recorded runs and insertions in the order of the record, or one of them; without a piece one run to fill in.</summary>
    private JsonArray Start(string? only)
    {
        var sections = new JsonArray();
        foreach (var technique in (Garment?["techniques"] as JsonArray ?? []).OfType<JsonObject>().Where(t => only is null || t["id"]?.ToString() == only))
        {
            if (technique["kind"]?.ToString() == "tucks")
            {
                var plan = TuckDrawing.Asked(technique);
                plan.Remove("lies");
                sections.Add((JsonNode)new JsonObject { ["kind"] = "tucks", ["technique"] = technique["id"]?.ToString(), ["plan"] = plan });
            }
            else if (technique["kind"]?.ToString() == "insertion" || technique["form"]?.ToString() == "insertion")
            {
                sections.Add((JsonNode)new JsonObject
                {
                    ["kind"] = "insertion", ["technique"] = technique["id"]?.ToString(), ["insertion"] = new JsonObject { ["width"] = technique["width"]?.DeepClone() },
                });
            }
        }

        return sections.Count > 0 ? sections : [new JsonObject { ["kind"] = "tucks" }];
    }

    private async Task<bool> Load(Guid? garment, CancellationToken ct)
    {
        Garment = garment is { } id ? (await archive.Find(id, ct))?.State() : null;
        return garment is null || Garment is not null;
    }
}
