using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>One thing that is not written down yet, and the form that asks for it.</summary>
public sealed record Missing(string What, string To);

/// <summary>What a piece's record still lacks, in the order in which one would look: nothing of it has to be there.</summary>
public static class StillToWrite
{
    /// <summary>What is missing; empty when all of it is there.</summary>
    /// <param name="state">The piece, as the API answers it.</param>
    public static IReadOnlyList<Missing> Of(JsonObject state)
    {
        var piece = $"/pieces/{state["id"]}";
        var edit = $"{piece}/edit";
        var views = List(state, "pictures").Select(p => p["view"]?.ToString() ?? "").ToHashSet();
        var pictures = $"{piece}#add-pictures";
        (bool There, string What, string To)[] all =
        [
            (Has(state, "number"), T("Its number"), $"{edit}#f-number"),
            (Has(state, "kind"), T("What kind of piece it is"), $"{edit}#f-kind"),
            (views.Contains("front"), T("A picture of the front"), pictures),
            (views.Contains("back"), T("A picture of the back"), pictures),
            (views.Overlaps(["detail-right-side", "detail-wrong-side"]), T("A picture of a detail"), pictures),
            (Has(state, "overall"), T("Its overall state"), $"{edit}#f-overall"),
            (List(state, "examinations").Any(), T("An examination: looked over for insects, mould and damp"), $"{piece}/examinations/new"),
            (Has(state, "dated") || Has(state, "datedText"), T("When it was made"), $"{edit}#f-dated"),
            (Has(state, "made"), T("Who sewed this sort of piece"), $"{edit}#f-made"),
            (Has(state, "description"), T("A description"), $"{edit}#f-description"),
            (List(state, "materials").Any(), T("Its cloth"), $"{edit}#cloth-and-measures"),
            (List(state, "measures").Any(), T("Its measures"), $"{edit}#cloth-and-measures"),
            (List(state, "techniques").Any(), T("How it was made, part by part"), $"{piece}/look-over"),
            (List(state, "condition").Any() || Sound(state), T("Its condition, part by part"), $"{piece}/condition/new"),
            (Has(state, "acquired"), T("How it came to you (private)"), $"{edit}#more"),
            (Has(state, "place"), T("Where it is kept (private)"), $"{edit}#more"),
        ];
        return [.. all.Where(m => !m.There).Select(m => new Missing(m.What, m.To))];
    }

    // A piece found sound when it was looked over has no findings, and that is an answer.
    private static bool Sound(JsonObject state) => state["overall"]?.ToString() == "sound" && List(state, "examinations").Any();

    private static bool Has(JsonObject state, string field) => !Forms.Form.IsBlank(state[field]);

    private static IEnumerable<JsonObject> List(JsonObject state, string name) => (state[name] as JsonArray ?? []).OfType<JsonObject>();
}
