using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Search.Tests;

/// <summary>Answers by the definition of finding, piece by piece: slow, plain and written without the index's code.</summary>
internal sealed class BruteForce(IReadOnlyList<JsonObject> garments, ILookup<string, string> asked)
{
    private static readonly string[] LaceKinds = ["lace", "insertion", "edging", "embroidered-trim"];

    private static readonly Dictionary<string, Func<JsonObject, IEnumerable<string>>> OfGarment = new()
    {
        ["kind"] = g => One(g["kind"]), ["overall"] = g => One(g["overall"]), ["handling"] = g => One(g["handling"]),
        ["whereabouts"] = g => One(g["whereabouts"]?["is"]), ["cloth"] = g => Many(g["materials"], m => m?["word"]),
        ["tag"] = g => Many(g["tags"], t => t), ["withPictures"] = g => [g["pictures"]!.AsArray().Count > 0 ? "true" : "false"],
    };

    private static readonly Dictionary<string, Func<JsonObject, IEnumerable<string>>> OfWork = new()
    {
        ["technique"] = t => One(t["kind"]), ["tuckKind"] = t => One(t["tuckKind"]), ["sewn"] = t => One(t["sewn"]), ["work"] = t => One(t["work"]),
        ["handStitch"] = t => One(t["handStitch"]), ["remains"] = t => One(t["remains"]), ["part"] = Parts,
    };

    private static readonly Dictionary<string, Func<JsonObject, IEnumerable<string>>> OfLace = new()
    {
        ["lace"] = t => One(t["lace"]), ["trim"] = t => One(t["trim"]), ["laceForm"] = t => One(t["form"]), ["laceMade"] = t => One(t["laceMade"]),
        ["laceSet"] = t => Many(t["set"], s => s), ["lacePart"] = Parts,
    };

    private static readonly Dictionary<string, Func<JsonObject, IEnumerable<string>>> OfFinding = new()
    {
        ["condition"] = f => One(f["what"]), ["severity"] = f => One(f["severity"]), ["attention"] = f => One(f["attention"]), ["conditionPart"] = f => One(f["part"]),
    };

    private static readonly Dictionary<string, Func<JsonObject, IEnumerable<string>>> OfRepair = new()
    {
        ["repair"] = r => One(r["method"]), ["repairSewn"] = r => One(r["sewn"]), ["repairWhen"] = r => One(r["when"]), ["repairPart"] = r => One(r["part"]),
    };

    private static readonly string[] Uncounted = ["whereabouts", "handStitch", "remains", "laceSet", "conditionPart", "repairWhen", "repairPart"];

    public HashSet<string> Found() => [.. garments.Where(Meets).Select(g => g["id"]!.GetValue<string>())];

    public IEnumerable<string> Techniques(JsonObject garment)
    {
        var work = Entries(garment["techniques"]).Where(t => Asks(OfWork, "width") && MeetsWork(t));
        var lace = Entries(garment["techniques"]).Where(t => Asks(OfLace, "laceWidth") && MeetsLace(t));
        return work.Concat(lace).Select(t => t["id"]!.GetValue<string>()).Distinct();
    }

    /// <summary>Every value of a facet, with the total that choosing it in the facet's place gives.</summary>
    public Dictionary<string, int> Facet(string facet)
    {
        IEnumerable<string> values = facet == "decade"
            ? Enumerable.Range(170, 203 - 170).Select(d => $"{d}0s")
            : garments.SelectMany(g => Values(facet, g)).Distinct();
        return values.ToDictionary(v => v, v => Choosing(facet, v).Found().Count).Where(c => c.Value > 0).ToDictionary();
    }

    public static IEnumerable<string> Facets => OfGarment.Keys.Concat(OfWork.Keys).Concat(OfLace.Keys).Concat(OfFinding.Keys).Concat(OfRepair.Keys)
        .Except(Uncounted).Append("decade");

    private BruteForce Choosing(string facet, string value) => new(garments,
        asked.Where(a => a.Key != facet).SelectMany(a => a.Select(v => (a.Key, v))).Append((facet, value)).ToLookup(p => p.Item1, p => p.Item2));

    private static IEnumerable<string> Values(string facet, JsonObject garment) =>
        OfGarment.TryGetValue(facet, out var whole) ? whole(garment)
        : OfWork.TryGetValue(facet, out var work) ? Entries(garment["techniques"]).SelectMany(work)
        : OfLace.TryGetValue(facet, out var lace) ? Entries(garment["techniques"]).SelectMany(lace)
        : OfFinding.TryGetValue(facet, out var finding) ? Entries(garment["condition"]).SelectMany(finding)
        : Entries(garment["repairs"]).SelectMany(OfRepair[facet]);

    private bool Meets(JsonObject garment) =>
        MeetsAll(OfGarment, garment) && MeetsYears(garment)
        && (!Asks(OfWork, "width") || Entries(garment["techniques"]).Any(MeetsWork))
        && (!Asks(OfLace, "laceWidth") || Entries(garment["techniques"]).Any(MeetsLace))
        && (!Asks(OfFinding) || Entries(garment["condition"]).Any(f => f["ended"] is null && MeetsAll(OfFinding, f)))
        && (!Asks(OfRepair) || Entries(garment["repairs"]).Any(r => MeetsAll(OfRepair, r)));

    private bool MeetsWork(JsonObject technique) =>
        MeetsAll(OfWork, technique) && MeetsWidth("width", Entries(technique["groups"]).Select(g => g["width"]));

    private bool MeetsLace(JsonObject technique) => One(technique["kind"]).Any(LaceKinds.Contains)
        && MeetsAll(OfLace, technique) && MeetsWidth("laceWidth", [technique["width"]]);

    private bool MeetsAll(Dictionary<string, Func<JsonObject, IEnumerable<string>>> parameters, JsonObject entry) =>
        parameters.All(p => !asked.Contains(p.Key) || p.Value(entry).Intersect(asked[p.Key]).Any());

    private bool Asks(Dictionary<string, Func<JsonObject, IEnumerable<string>>> parameters, string width = "-") =>
        parameters.Keys.Append($"{width}From").Append($"{width}To").Any(asked.Contains);

    private bool MeetsYears(JsonObject garment)
    {
        var dated = Archives.Dates.FirstOrDefault(d => d.Edtf == garment["dated"]?.GetValue<string>());
        bool Overlaps(int from, int to) => dated.Edtf is not null && (dated.To ?? 9999) >= from && (dated.From ?? 0) <= to;
        return (!asked.Contains("from") || asked["from"].Any(y => Overlaps(Year(y), 9999)))
            && (!asked.Contains("to") || asked["to"].Any(y => Overlaps(0, Year(y))))
            && (!asked.Contains("decade") || asked["decade"].Any(d => d.EndsWith("0s", StringComparison.Ordinal) && Overlaps(Year(d[..4]), Year(d[..4]) + 9)));
    }

    private bool MeetsWidth(string name, IEnumerable<JsonNode?> widths)
    {
        var measured = widths.OfType<JsonNode>().Select(w => w["mm"]!.GetValue<decimal>()).ToList();
        var (from, to) = (asked[$"{name}From"].Select(Millimetres).ToList(), asked[$"{name}To"].Select(Millimetres).ToList());
        return from.Count + to.Count == 0
            || measured.Exists(w => (from.Count == 0 || from.Exists(f => f <= w)) && (to.Count == 0 || to.Exists(t => w <= t)));
    }

    private static int Year(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static decimal Millimetres(string typed) => typed switch
    {
        "1/8 in" or "3.175 mm" => 3.175m,
        "1/4 in" or "6.35 mm" => 6.35m,
        "5 mm" => 5m,
        "1 cm" => 10m,
        _ => throw new ArgumentOutOfRangeException(nameof(typed), typed, "no such length is asked"),
    };

    private static IEnumerable<string> One(JsonNode? node) => node is null ? [] : [node is JsonObject own ? own["own"]!.GetValue<string>() : node.GetValue<string>()];

    private static IEnumerable<string> Many(JsonNode? list, Func<JsonNode?, JsonNode?> value) => list is JsonArray array ? array.SelectMany(n => One(value(n))) : [];

    private static IEnumerable<string> Parts(JsonObject technique) => One(technique["part"]).Concat(Many(technique["repeats"], r => r?["part"]));

    private static IEnumerable<JsonObject> Entries(JsonNode? list) => list is JsonArray array ? array.Cast<JsonObject>() : [];
}
