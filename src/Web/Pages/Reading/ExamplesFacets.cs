using System.Text.Json.Nodes;
using HeirloomArchive.Search;

namespace HeirloomArchive.Web.Pages.Reading;

using Asked = IReadOnlyList<KeyValuePair<string, string?>>;

/// <summary>The facets in their groups, as the page shows them.</summary>
public static class ExamplesFacets
{
    private static (Group Group, string Title, string Help, (string Name, string Label)[] Boxes)[] Groups =>
    [
        (Group.Work, T("The work"), T("All of it on one run or one piece of work."), [("widthFrom", T("Tucks at least this wide")), ("widthTo", T("Tucks at most this wide"))]),
        (Group.Lace, T("Lace"), T("All of it on one lace, insertion or edging."), [("laceWidthFrom", T("Lace at least this wide")), ("laceWidthTo", T("Lace at most this wide"))]),
        (Group.Garment, T("The piece"), T("Of the whole piece."), [("from", T("From the year")), ("to", T("Until the year")), ("tolerance", T("Typed measures, give or take"))]),
        (Group.Condition, T("Condition"), T("All of it on one finding."), []),
        (Group.Repair, T("Repairs"), T("All of it on one repair."), []),
    ];

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

    private static string Label(string name) => name switch
    {
        "kind" => T("Kind"),
        "overall" => T("Overall state"),
        "handling" => T("Handling"),
        "cloth" => T("Cloth"),
        "withPictures" => T("Pictures"),
        "tag" => T("Tags"),
        "decade" => T("Decade"),
        "technique" => T("Technique"),
        "tuckKind" => T("Kind of tuck"),
        "sewn" => T("Sewn by"),
        "part" => T("Where"),
        "work" => T("Whitework"),
        "lace" => T("Lace"),
        "trim" => T("Embroidered trim"),
        "laceForm" => T("Form"),
        "laceMade" => T("Lace made by"),
        "lacePart" => T("Lace where"),
        "condition" => T("Finding"),
        "severity" => T("How bad"),
        "attention" => T("Attention"),
        "repair" => T("Way of mending"),
        "repairSewn" => T("Repair sewn by"),
        _ => Say.Plain(name),
    };

    private static ExamplesModel.FacetView View(string name, JsonArray counted, Asked asked)
    {
        var chosen = asked.Where(p => p.Key == name).Select(p => Parameter.Find(name)?.Meant(p.Value!) ?? p.Value!).ToHashSet();
        var values = counted.OfType<JsonObject>().Select(v => (Value: v["value"]!.ToString(), Count: Say.Number(v["count"]))).ToList();
        values.AddRange(chosen.Where(c => values.TrueForAll(v => v.Value != c)).Select(c => (c, 0L)));
        return new(name, Label(name),
            [.. values.Select(v => new ExamplesModel.FacetValue(v.Value, Plain(name, v.Value), v.Count, chosen.Contains(v.Value)))]);
    }

    /// <summary>A facet's value in words.</summary>
    internal static string Plain(string name, string value) => name == "withPictures" ? (value == "true" ? T("With pictures") : T("Without"))
        : Parameter.All.FirstOrDefault(p => p.Name == name)?.Words is { } facet ? Say.Word(facet, value)
        : name is "tag" or "decade" ? value : Say.Plain(value);
}
