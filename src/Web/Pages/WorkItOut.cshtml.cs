using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Web.Pages.Worksheets;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Extensions.Primitives;

namespace HeirloomArchive.Web.Pages;

/// <summary>The sums of tucks and of fit with nothing recorded: the question is the address, so it can be kept and sent.</summary>
public sealed class WorkItOutModel(IDocumentStore documents, TimeProvider clock) : PageModel
{
    private static readonly string[] NotAsked = ["add", "remove", "nearest", "what", "__RequestVerificationToken", "handler"];

    public Form Form { get; private set; } = new([]);

    public bool Fits { get; private set; }

    public Worksheet? Sheet { get; private set; }

    public JsonObject? Answer { get; private set; }

    public IReadOnlyList<Nearest> Nearest { get; private set; } = [];

    /// <summary>What was asked, to be asked again.</summary>
    public IEnumerable<(string Key, string Value)> Asked =>
        [.. Fits ? [("what", "fit")] : Array.Empty<(string, string)>(), .. Request.Query.Where(p => !NotAsked.Contains(p.Key)).Select(p => (p.Key, p.Value.ToString()))];

    public void OnGet(string? what, string? add, string? remove, string? nearest)
    {
        Fits = what == "fit";
        var rearranges = add is not null || remove is not null;
        Form = new(FormReader.Read(Request.Query, Fits ? Worksheets.WorksheetForm.Onto : Worksheets.WorksheetForm.Plan, rearranges)) { About = "worksheet" };
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
            Form = Fits && Form.Values.Count == 0 ? new(WorksheetForm.Start(null)) { About = "worksheet" } : Form;
            return;
        }

        Worksheets.Nearest.Apply(Form, nearest ?? "", "");
        try
        {
            if (Fits)
            {
                Answer = FitAnswerJson.Write(Fit.Find(FitRequestJson.Read(Form.Values.DeepClone())));
                Nearest = Worksheets.Nearest.Of(Answer["nearest"] as JsonArray);
            }
            else
            {
                Sheet = Make(Form.Values);
            }
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
            await using var session = documents.LightweightSession();
            session.Insert(sheet);
            await session.SaveChangesAsync(ct);
            return Redirect($"/worksheets/{sheet.Id}");
        }
        catch (FaultException)
        {
            return RedirectToPage();
        }
    }

    /// <summary>The address of the lines of one arrangement that fits.</summary>
    public static string Run(JsonObject one)
    {
        string Exact(string name) => one[name] is { } length ? Uri.EscapeDataString($"{length["mm"]} mm" is var mm && Say.Length(length).StartsWith('≈') ? mm : Say.Length(length)) : "";
        return $"/work-it-out?groups[0].tucks={one["tucks"]}&groups[0].width={Exact("width")}&groups[0].space={Exact("space")}&lead={Exact("lead")}&trail={Exact("trail")}";
    }

    private Worksheet Make(JsonObject plan) =>
        WorksheetMaker.Make(new JsonObject { ["plan"] = plan.DeepClone(), ["paper"] = "A4" }, null, clock.GetUtcNow());
}
