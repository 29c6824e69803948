using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Worksheets;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>The lines of a run with nothing recorded: the question is the address, so it can be kept and sent.</summary>
public sealed class TucksModel(IDocumentStore documents, TimeProvider clock) : PageModel
{
    public Form Form { get; private set; } = new([]);

    public Worksheet? Sheet { get; private set; }

    /// <summary>What was asked, to be asked again.</summary>
    public IEnumerable<(string Key, string Value)> Asked => Question.Of(Request.Query);

    public void OnGet(string? add, string? remove)
    {
        var rearranges = add is not null || remove is not null;
        Form = new(FormReader.Read(Request.Query, WorksheetForm.Plan, rearranges)) { About = "worksheet" };
        if (add is not null)
        {
            Form.Add(add);
        }

        if (remove is not null)
        {
            Form.Remove(remove);
        }

        if (Form.Values.Count == 0 || rearranges)
        {
            return;
        }

        try
        {
            Sheet = Make(Form.Values);
        }
        catch (FaultException e)
        {
            Form.Faults = [.. e.Faults.Select(f => f with { Path = f.Path.StartsWith("plan.", StringComparison.Ordinal) ? f.Path[5..] : f.Path })];
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
    }

    public async Task<IActionResult> OnPostKeep(CancellationToken ct)
    {
        IEnumerable<KeyValuePair<string, StringValues>> posted = Request.Form;
        try
        {
            var sheet = Make(FormReader.Read(posted, WorksheetForm.Plan));
            await documents.Keep(sheet, ct);
            return Redirect($"/worksheets/{sheet.Id}");
        }
        catch (FaultException)
        {
            // The question's own address says what is wrong with it.
            return LocalRedirect($"/work-it-out/tucks{QueryString.Create(Question.Of(posted).Select(p => KeyValuePair.Create(p.Key, (string?)p.Value)))}");
        }
    }

    private Worksheet Make(JsonObject plan) =>
        WorksheetMaker.Make(new JsonObject { ["plan"] = plan.DeepClone(), ["paper"] = "A4" }, null, clock.GetUtcNow());
}
