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

/// <summary>From a recorded run, or from none, to a worksheet; when nothing fits, the nearest that does.</summary>
public sealed class NewModel(Archive archive, IDocumentStore documents, TimeProvider clock) : PageModel
{
    public static (string Name, string Legend)[] Ranges =>
        [("tucks", T("How many tucks")), ("width", T("How wide each")), ("space", T("Plain cloth between")), ("ends", T("Plain before and after"))];

    public Form Form { get; private set; } = new([]);

    public JsonObject? Garment { get; private set; }

    public JsonObject? Technique { get; private set; }

    public string? Reason { get; private set; }

    public IReadOnlyList<Nearest> Nearest { get; private set; } = [];

    /// <summary>The plan of the run as recorded, where enough of it is.</summary>
    public TuckPlan? Plan => Technique is null ? null : TuckDrawing.PlanOf(Technique);

    public async Task<IActionResult> OnGet(Guid? garment, string? technique, CancellationToken ct)
    {
        if (!await Load(garment, technique, ct))
        {
            return NotFound();
        }

        // No fit exists for tucks without a fold; their form asks for the strip.
        if (Technique?["tuckKind"]?.ToString() == "twin-needle")
        {
            return Redirect($"/worksheets/new/side-by-side?garment={garment}&technique={technique}");
        }

        Form = new(new()
        {
            ["garment"] = garment?.ToString(), ["technique"] = technique, ["onto"] = WorksheetForm.Start(Technique), ["paper"] = "A4",
            ["unit"] = Tape.Chosen(Request) is { Length: > 0 } unit ? unit : null,
        }) { About = "worksheet", Garment = Garment };
        return Page();
    }

    public async Task<IActionResult> OnPost(CancellationToken ct)
    {
        var (add, remove) = (Request.Form["add"].ToString(), Request.Form["remove"].ToString());
        var rearranges = add.Length + remove.Length > 0;
        var values = FormReader.Read(Request.Form, WorksheetForm.Request, rearranges);
        if (!await Load(Guid.TryParse(values["garment"]?.ToString(), out var id) ? id : null, values["technique"]?.ToString(), ct))
        {
            return NotFound();
        }

        Form = new(values) { About = "worksheet", Garment = Garment };
        if (rearranges)
        {
            if (add.Length > 0)
            {
                Form.Add(add);
            }

            if (remove.Length > 0)
            {
                Form.Remove(remove);
            }

            return Page();
        }

        Worksheets.Nearest.Apply(Form, Request.Form["nearest"].ToString(), "onto.");
        var asked = Form.Values.DeepClone().AsObject();
        if (Request.Form["as"] == "recorded" && Technique is not null)
        {
            asked.Remove("onto");
            asked["plan"] = TuckDrawing.Asked(Technique);
        }

        try
        {
            var worksheet = WorksheetMaker.Make(asked, Garment, clock.GetUtcNow());
            await documents.Keep(worksheet, ct);
            return Redirect($"/worksheets/{worksheet.Id}");
        }
        catch (DoesNotFitException e)
        {
            Reason = e.Answer.Reason;
            Nearest = Worksheets.Nearest.Of(FitAnswerJson.Write(e.Answer)["nearest"] as JsonArray);
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    private async Task<bool> Load(Guid? garment, string? technique, CancellationToken ct)
    {
        if (garment is null)
        {
            return true;
        }

        Garment = (await archive.Find(garment.Value, ct))?.State();
        Technique = (Garment?["techniques"] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(t => t["id"]?.ToString() == technique);
        return Garment is not null && (Technique is not null || string.IsNullOrEmpty(technique));
    }
}
