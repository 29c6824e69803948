using System.Text.Json.Nodes;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Pages.Reading;

using Asked = IReadOnlyList<KeyValuePair<string, string?>>;

/// <summary>Addresses of the examples: with one thing more, or without one thing.</summary>
public static class ExamplesLinks
{
    /// <summary>The same question with one parameter set.</summary>
    public static string With(Asked asked, string name, string value) =>
        Address([.. asked.Where(p => p.Key != name), KeyValuePair.Create<string, string?>(name, value)]);

    /// <summary>What was chosen, and what the typed words were understood as; each with the address that leaves it out.</summary>
    public static IReadOnlyList<ExamplesModel.Part> Parts(Asked asked, string q, JsonArray understood)
    {
        var parts = new List<ExamplesModel.Part>();
        foreach (var word in understood.OfType<JsonObject>())
        {
            var (text, name, value) = (word["text"]?.ToString() ?? "", word["parameter"]?.ToString() ?? "", word["value"]?.ToString() ?? "");
            var left = Without(q, text);
            var label = name != Suggestion.Typed ? Label(name, value)
                : value.StartsWith("without ", StringComparison.Ordinal) ? T($"Without {value["without ".Length..]}") : T($"“{text}” is nowhere; taken as “{value}”");
            parts.Add(new(label, Address([.. asked.Where(p => p.Key is not ("q" or "page")), .. left.Length > 0 ? [KeyValuePair.Create<string, string?>("q", left)] : Array.Empty<KeyValuePair<string, string?>>()])));
        }

        foreach (var chosen in asked.Where(p => p.Key is not ("q" or "page" or "size" or "sort" or "seen")))
        {
            parts.Add(new(Label(chosen.Key, chosen.Value!), Address([.. asked.Where(p => p.Key != "page" && !p.Equals(chosen))])));
        }

        return parts;
    }

    /// <summary>A parameter and its value in words: "on Yoke", "until 1909".</summary>
    public static string Label(string name, string value)
    {
        var parameter = Parameter.All.FirstOrDefault(p => p.Name == name);
        var label = name == "withPictures" ? (value == "true" ? T("With pictures") : T("Without pictures"))
            : parameter?.Words is { } facet ? Say.Word(facet, value)
            : name is "tag" or "from" or "to" or "decade" || parameter is null ? value : Say.Plain(value);
        var said = parameter is null ? label : label.ToLowerInvariant();
        return name switch
        {
            "from" => T($"From {said}"),
            "to" => T($"Until {said}"),
            "widthFrom" => T($"Tucks at least {said}"),
            "widthTo" => T($"Tucks at most {said}"),
            "laceWidthFrom" => T($"Lace at least {said}"),
            "laceWidthTo" => T($"Lace at most {said}"),
            "tolerance" => T($"Give or take {said}"),
            "part" => T($"On {said}"),
            "lacePart" => T($"Lace on {said}"),
            "conditionPart" => T($"Condition of {said}"),
            "repairPart" => T($"Repair of {said}"),
            "handStitch" => T($"Stitch {said}"),
            "sewn" => T($"Sewn by {said}"),
            "laceMade" => T($"Lace made by {said}"),
            "repairSewn" => T($"Repair sewn by {said}"),
            "attention" => T($"Attention {said}"),
            _ => label,
        };
    }

    private static string Without(string q, string text)
    {
        var at = q.IndexOf(text, StringComparison.CurrentCultureIgnoreCase);
        return text.Length == 0 || at < 0 ? "" : (q[..at] + q[(at + text.Length)..]).Replace("  ", " ", StringComparison.Ordinal).Trim(' ', ',');
    }

    private static string Address(Asked asked) =>
        "/examples" + string.Concat(asked.Select((p, i) => $"{(i == 0 ? '?' : '&')}{Uri.EscapeDataString(p.Key)}={Uri.EscapeDataString(p.Value ?? "")}"));
}
