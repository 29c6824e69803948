using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Asking;

/// <summary>What the record says of the piece and of the techniques she chose.</summary>
internal sealed class Recorded
{
    private Recorded(JsonObject? garment, IReadOnlyList<JsonObject> techniques, JsonObject? tucks, JsonObject? first) =>
        (Garment, Techniques, Tucks, First) = (garment, techniques, tucks, first);

    public JsonObject? Garment { get; }

    /// <summary>The chosen techniques, in her order.</summary>
    public IReadOnlyList<JsonObject> Techniques { get; }

    /// <summary>The one that is planned: the first of kind tucks.</summary>
    public JsonObject? Tucks { get; }

    /// <summary>What stands at the start, whose <c>measuredFrom</c> is the line that all is measured from.</summary>
    public JsonObject? First { get; }

    public long? Version => Garment?["version"]?.GetValue<long>();

    public string Name => Garment?["name"].Text() ?? "";

    public string Number => Garment?["number"].Text() ?? "";

    /// <summary>True for a kind of piece that a child may wear.</summary>
    public bool IsAChilds => Garment is not null && Cautions.OfKind(Word(Garment["kind"])).Count > 0;

    public static Recorded Read(WorksheetRequest request, JsonObject? garment)
    {
        List<Fault> faults = [];
        List<JsonObject> techniques = [];
        for (var i = 0; i < request.Techniques.Count; i++)
        {
            if (Find(garment, request.Techniques[i]) is { } technique)
            {
                techniques.Add(technique);
            }
            else
            {
                var path = request.TechniquesPath == "technique" ? "technique" : $"techniques[{i}]";
                faults.Add(new Fault(path, T($"“{request.Techniques[i]}” is not a technique of this garment.")));
            }
        }

        for (var i = 0; i < request.Sections.Count; i++)
        {
            if (request.Sections[i].Technique is not { } id)
            {
                continue;
            }

            if (Find(garment, id) is not { } technique)
            {
                faults.Add(new Fault($"sections[{i}].technique", garment is null
                    ? T("A technique belongs to a garment; say which with “garment”.") : T($"“{id}” is not a technique of this garment.")));
            }
            else if (!techniques.Contains(technique))
            {
                techniques.Add(technique);
            }
        }

        for (var i = 0; i < request.Trims.Count; i++)
        {
            if (request.Trims[i].Technique is { } id && Find(garment, id) is null)
            {
                faults.Add(new Fault($"trims[{i}].technique", T($"“{id}” is not a technique of this garment.")));
            }
        }

        var tucks = techniques.FirstOrDefault(t => Word(t["kind"]) == "tucks");
        var first = request.Sections.Count == 0 ? tucks : request.Sections[0].Technique is { } at ? Find(garment, at) : null;
        return faults.Count == 0 ? new Recorded(garment, techniques, tucks, first) : throw new FaultException(faults);
    }

    /// <summary>A technique of the garment, chosen or not.</summary>
    public JsonObject? Technique(string id) => Find(Garment, id);

    /// <summary>The technique that a section copies; for a single run the one planned.</summary>
    public JsonObject? OfSection(WorksheetRequest request, int section) =>
        request.Sections.Count == 0 ? Tucks : request.Sections[section].Technique is { } id ? Find(Garment, id) : null;

    /// <summary>Whether its tucks are planned: the one run, or those of a section.</summary>
    public bool IsPlanned(WorksheetRequest request, JsonObject technique) => request.Sections.Count == 0
        ? technique == Tucks
        : request.Sections.Any(s => s.Insertion is null && s.Technique == technique["id"].Text());

    /// <summary>A word field's slug or own word.</summary>
    public static string Word(JsonNode? node) => node is JsonObject own ? own["own"].Text() : node.Text();

    /// <summary>A word field as it is read aloud: its label in the thesaurus, in the language of the worksheet, or her own word.</summary>
    public static string Said(string facet, JsonNode? node) => node is JsonObject ? Label(facet, node) : T(Label(facet, node));

    /// <summary>A value of a closed list as it is read aloud: <c>rolled-and-whipped</c> is "rolled and whipped".</summary>
    public static string Plain(string slug) => T(slug.Replace('-', ' '));

    /// <summary>A word field in English.</summary>
    public static string Label(string facet, JsonNode? node) =>
        node is null ? "" : node is JsonObject own ? own["own"].Text() : Words.Label(facet, node.Text()) is var label && label == node.Text()
            ? label.Replace('-', ' ') : label;

    private static JsonObject? Find(JsonObject? garment, string id) =>
        garment?["techniques"].Each().FirstOrDefault(t => t["id"].Text() == id);
}
