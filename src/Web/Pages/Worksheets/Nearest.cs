using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>One arrangement that fits once one thing is changed, as a button says it and as the form takes it.</summary>
public sealed record Nearest(string Says, string Change)
{
    /// <summary>From the fit's answer.</summary>
    public static IReadOnlyList<Nearest> Of(JsonArray? nearest) => [.. (nearest ?? []).OfType<JsonObject>().Select(Of)];

    /// <summary>Widens what stands in the form so that the arrangement is among those asked for.</summary>
    /// <param name="form">The form.</param>
    /// <param name="change">As <see cref="Change"/> has it: <c>space=3/16 in</c>.</param>
    /// <param name="prefix">What stands before the fields' names: <c>onto.</c></param>
    public static void Apply(Form form, string change, string prefix)
    {
        if (change.Split('=', 2) is not [var what, var value])
        {
            return;
        }

        if (what is "finished" or "cloth")
        {
            form.Put(prefix + what, value);
        }
        else if (what is "tucks" or "width" or "space" or "ends" && form.At(prefix + what) is JsonObject range)
        {
            // One value is a range from it to itself.
            JsonNode Exactly() => what == "tucks" && int.TryParse(value, out var tucks) ? tucks : value;
            range["from"] = Exactly();
            range["to"] = Exactly();
        }
    }

    private static Nearest Of(JsonObject one)
    {
        var change = one["change"]!.ToString();
        var (value, words) = change switch
        {
            "finished" => (Exact(one["finished"]), $"{Say.Length(one["finished"])} finished"),
            "cloth" => (Exact(one["cloth"]), $"{Say.Length(one["cloth"])} of cloth"),
            "tucks" => (one["tucks"]!.ToString(), Say.Count(Say.Number(one["tucks"]), "tuck")),
            "width" => (Exact(one["width"]), $"tucks {Say.Length(one["width"])} wide"),
            "space" => (Exact(one["space"]), $"{Say.Length(one["space"])} between tucks"),
            _ => (Exact(one["lead"]), $"{Say.Length(one["lead"])} plain at the ends"),
        };
        var whole = $"{Say.Count(Say.Number(one["tucks"]), "tuck")} of {Say.Length(one["width"])}"
            + (one["space"] is { } space ? $", {Say.Length(space)} between" : "") + $", {Say.Length(one["lead"])} plain before, {Say.Length(one["finished"])} finished";
        return new($"{Say.Capital(words)}: {whole}", $"{change}={value}");
    }

    private static string Exact(JsonNode? length) => Say.Length(length) is var text && text.StartsWith('≈') ? $"{length!["mm"]} mm" : text;
}
