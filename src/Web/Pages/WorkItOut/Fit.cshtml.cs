using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Web.Pages.Worksheets;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.WorkItOut;

/// <summary>Which equal tucks fit a width, with nothing recorded: the question is the address.</summary>
public sealed class FitModel : PageModel
{
    public Form Form { get; private set; } = new([]);

    public JsonObject? Answer { get; private set; }

    /// <summary>The plan of the best arrangement, drawn.</summary>
    public TuckPlan? Best { get; private set; }

    public IReadOnlyList<Nearest> Nearest { get; private set; } = [];

    /// <summary>What was asked, to be asked again.</summary>
    public IEnumerable<(string Key, string Value)> Asked => Question.Of(Request.Query);

    public void OnGet(string? nearest)
    {
        Form = new(FormReader.Read(Request.Query, WorksheetForm.Onto)) { About = "worksheet" };
        if (Form.Values.Count == 0)
        {
            Form = new(WorksheetForm.Start(null)) { About = "worksheet" };
            return;
        }

        Worksheets.Nearest.Apply(Form, nearest ?? "", "");
        try
        {
            var asked = FitRequestJson.Read(Form.Values.DeepClone());
            var found = Fit.Find(asked);
            Best = found.Fits ? TuckPlan.Make(asked.RunOf(found.Arrangements[0])) : null;
            Answer = FitAnswerJson.Write(found);
            Nearest = Worksheets.Nearest.Of(Answer["nearest"] as JsonArray);
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
    }

    /// <summary>The address of the lines of one arrangement that fits.</summary>
    public static string Run(JsonObject one)
    {
        string Exact(string name) => one[name] is { } length ? Uri.EscapeDataString($"{length["mm"]} mm" is var mm && Say.Length(length).StartsWith('≈') ? mm : Say.Length(length)) : "";
        return $"/work-it-out/tucks?groups[0].tucks={one["tucks"]}&groups[0].width={Exact("width")}&groups[0].space={Exact("space")}&lead={Exact("lead")}&trail={Exact("trail")}#answer";
    }
}
