using System.Text.Json.Nodes;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Pages.Reading;

using Asked = IReadOnlyList<KeyValuePair<string, string?>>;

/// <summary>Addresses of the examples: with one thing more, or without one thing.</summary>
public static class ExamplesLinks
{
    private static readonly Dictionary<string, string> Named = new()
    {
        ["from"] = "from", ["to"] = "until", ["decade"] = "", ["widthFrom"] = "tucks at least", ["widthTo"] = "tucks at most",
        ["laceWidthFrom"] = "lace at least", ["laceWidthTo"] = "lace at most", ["tolerance"] = "give or take", ["withPictures"] = "",
        ["part"] = "on", ["lacePart"] = "lace on", ["conditionPart"] = "condition of", ["repairPart"] = "repair of", ["handStitch"] = "stitch",
        ["sewn"] = "sewn by", ["laceMade"] = "lace made by", ["repairSewn"] = "repair sewn by", ["attention"] = "attention",
    };

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
                : value.StartsWith("without ", StringComparison.Ordinal) ? Say.Capital(value) : $"“{text}” is nowhere; taken as “{value}”";
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
        var label = name == "withPictures" ? (value == "true" ? "With pictures" : "Without pictures")
            : parameter?.Words is { } facet ? Catalogue.Words.Label(facet, value)
            : name is "tag" or "from" or "to" or "decade" || parameter is null ? value : Say.Plain(value);
        var before = Named.GetValueOrDefault(name, "");
        return before.Length == 0 ? label : $"{Say.Capital(before)} {(parameter is null ? label : label.ToLowerInvariant())}";
    }

    private static string Without(string q, string text)
    {
        var at = q.IndexOf(text, StringComparison.CurrentCultureIgnoreCase);
        return text.Length == 0 || at < 0 ? "" : (q[..at] + q[(at + text.Length)..]).Replace("  ", " ", StringComparison.Ordinal).Trim(' ', ',');
    }

    private static string Address(Asked asked) =>
        "/examples" + string.Concat(asked.Select((p, i) => $"{(i == 0 ? '?' : '&')}{Uri.EscapeDataString(p.Key)}={Uri.EscapeDataString(p.Value ?? "")}"));
}
