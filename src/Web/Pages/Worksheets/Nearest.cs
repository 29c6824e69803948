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
        var count = Say.Number(one["tucks"]);
        var tucks = N(count, $"{Written.Number(count)} tuck", $"{Written.Number(count)} tucks");
        var (width, lead, finished) = (Say.Length(one["width"]), Say.Length(one["lead"]), Say.Length(one["finished"]));
        var (value, words) = change switch
        {
            "finished" => (Exact(one["finished"]), T($"{finished} finished")),
            "cloth" => (Exact(one["cloth"]), T($"{Say.Length(one["cloth"])} of cloth")),
            "tucks" => (one["tucks"]!.ToString(), tucks),
            "width" => (Exact(one["width"]), T($"tucks {width} wide")),
            "space" => (Exact(one["space"]), T($"{Say.Length(one["space"])} between tucks")),
            _ => (Exact(one["lead"]), T($"{lead} plain at the ends")),
        };
        var whole = one["space"] is { } space
            ? T($"{tucks} of {width}, {Say.Length(space)} between, {lead} plain before, {finished} finished")
            : T($"{tucks} of {width}, {lead} plain before, {finished} finished");
        return new($"{Say.Capital(words)}: {whole}", $"{change}={value}");
    }

    private static string Exact(JsonNode? length) => Say.Length(length) is var text && text.StartsWith('≈') ? $"{length!["mm"]} mm" : text;
}
