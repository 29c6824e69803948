using System.Text.Json.Nodes;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Pages.Reading;

using Asked = IReadOnlyList<KeyValuePair<string, string?>>;

/// <summary>The facets in their groups, as the page shows them.</summary>
public static class ExamplesFacets
{
    private static readonly (Group Group, string Title, string Help, (string Name, string Label)[] Boxes)[] Groups =
    [
        (Group.Work, "The work", "All of it on one run or one piece of work.", [("widthFrom", "Tucks at least this wide"), ("widthTo", "Tucks at most this wide")]),
        (Group.Lace, "Lace", "All of it on one lace, insertion or edging.", [("laceWidthFrom", "Lace at least this wide"), ("laceWidthTo", "Lace at most this wide")]),
        (Group.Garment, "The piece", "Of the whole piece.", [("from", "From the year"), ("to", "Until the year"), ("tolerance", "Typed measures, give or take")]),
        (Group.Condition, "Condition", "All of it on one finding.", []),
        (Group.Repair, "Repairs", "All of it on one repair.", []),
    ];

    private static readonly Dictionary<string, string> Labels = new()
    {
        ["kind"] = "Kind", ["overall"] = "Overall state", ["handling"] = "Handling", ["cloth"] = "Cloth", ["withPictures"] = "Pictures", ["tag"] = "Tags",
        ["decade"] = "Decade", ["technique"] = "Technique", ["tuckKind"] = "Kind of tuck", ["sewn"] = "Sewn by", ["part"] = "Where", ["work"] = "Whitework",
        ["lace"] = "Lace", ["trim"] = "Embroidered trim", ["laceForm"] = "Form", ["laceMade"] = "Lace made by", ["lacePart"] = "Lace where",
        ["condition"] = "Finding", ["severity"] = "How bad", ["attention"] = "Attention", ["repair"] = "Way of mending", ["repairSewn"] = "Repair sewn by",
    };

    public static IReadOnlyList<ExamplesModel.GroupView> Of(JsonObject facets, Asked asked) =>
    [
        .. Groups.Select(g =>
        {
            var names = Parameter.All.Where(p => p.Group == g.Group).Select(p => p.Name).Concat(g.Group == Group.Garment ? ["decade"] : []);
            var views = names.Select(n => View(n, facets[n] as JsonArray ?? [], asked)).Where(v => v.Values.Count > 0).ToList();
            var boxes = g.Boxes.Select(b => new ExamplesModel.Box(b.Name, b.Label, asked.FirstOrDefault(p => p.Key == b.Name).Value ?? "")).ToList();
            var chosen = views.Any(v => v.Values.Any(x => x.Chosen)) || boxes.Any(b => b.Value.Length > 0);
            return new ExamplesModel.GroupView(g.Title, g.Help, views, boxes, chosen || g.Group == Group.Work);
        }),
    ];

    private static ExamplesModel.FacetView View(string name, JsonArray counted, Asked asked)
    {
        var chosen = asked.Where(p => p.Key == name).Select(p => Parameter.Find(name)?.Meant(p.Value!) ?? p.Value!).ToHashSet();
        var values = counted.OfType<JsonObject>().Select(v => (Value: v["value"]!.ToString(), Count: Say.Number(v["count"]))).ToList();
        values.AddRange(chosen.Where(c => values.TrueForAll(v => v.Value != c)).Select(c => (c, 0L)));
        return new(name, Labels.GetValueOrDefault(name, Say.Plain(name)),
            [.. values.Select(v => new ExamplesModel.FacetValue(v.Value, Plain(name, v.Value), v.Count, chosen.Contains(v.Value)))]);
    }

    /// <summary>A facet's value in words.</summary>
    internal static string Plain(string name, string value) => name == "withPictures" ? (value == "true" ? "With pictures" : "Without")
        : Parameter.All.FirstOrDefault(p => p.Name == name)?.Words is { } facet ? Catalogue.Words.Label(facet, value)
        : name is "tag" or "decade" ? value : Say.Plain(value);
}
