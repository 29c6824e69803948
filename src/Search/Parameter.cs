using System.Text.Json.Nodes;

namespace HeirloomArchive.Search;

/// <summary>What a parameter is asked of: the whole garment, or one of its entries.</summary>
public enum Group
{
    Garment,
    Work,
    Lace,
    Condition,
    Repair,
}

/// <summary>One parameter whose values are words or slugs, matched exactly.</summary>
/// <param name="Name">As it is typed in the address, and the index's field: <c>lacePart</c>.</param>
/// <param name="Group">The parameters of one group hold together on one entry.</param>
/// <param name="Facet">Whether its values are counted in the answer.</param>
/// <param name="Words">The thesaurus' facet its values are taken from, or null for a closed list or free text.</param>
/// <param name="Read">Its values in a garment's state or in one of its entries.</param>
public sealed record Parameter(
    string Name, Group Group, bool Facet, string? Words, Func<JsonObject, IEnumerable<string?>> Read)
{
    /// <summary>Every parameter of this kind, in the order the facets are shown. The years and the lengths stand in <see cref="Spans"/>.</summary>
    public static readonly IReadOnlyList<Parameter> All =
    [
        new("kind", Group.Garment, true, "kinds", o => [Text(o["kind"])]),
        new("overall", Group.Garment, true, null, o => [Text(o["overall"])]),
        new("handling", Group.Garment, true, null, o => [Text(o["handling"])]),
        new("whereabouts", Group.Garment, false, null, o => [Text((o["whereabouts"] as JsonObject)?["is"])]),
        new("cloth", Group.Garment, true, "cloth", o => Each(o["materials"], "word")),
        new("withPictures", Group.Garment, true, null, o => [o["pictures"] is JsonArray { Count: > 0 } ? "true" : "false"]),
        new("tag", Group.Garment, true, null, o => Each(o["tags"])),

        new("technique", Group.Work, true, "techniques", o => [Text(o["kind"])]),
        new("tuckKind", Group.Work, true, "tucks", o => [Text(o["tuckKind"])]),
        new("sewn", Group.Work, true, null, o => [Text(o["sewn"])]),
        new("part", Group.Work, true, "parts", Parts),
        new("work", Group.Work, true, "whitework", o => [Text(o["work"])]),
        new("seam", Group.Work, false, "seams", o => [Text(o["seam"])]),
        new("fastening", Group.Work, false, "fastenings", o => [Text(o["fastening"])]),
        new("handStitch", Group.Work, false, "stitches", o => [Text(o["handStitch"])]),
        new("remains", Group.Work, false, null, o => [Text(o["remains"])]),

        new("lace", Group.Lace, true, "laces", o => [Text(o["lace"])]),
        new("trim", Group.Lace, true, "trims", o => [Text(o["trim"])]),
        new("laceForm", Group.Lace, true, null, o => [Text(o["form"])]),
        new("laceMade", Group.Lace, true, null, o => [Text(o["laceMade"])]),
        new("laceSet", Group.Lace, false, null, o => Each(o["set"])),
        new("lacePart", Group.Lace, true, "parts", Parts),

        new("condition", Group.Condition, true, "findings", o => [Text(o["what"])]),
        new("severity", Group.Condition, true, null, o => [Text(o["severity"])]),
        new("attention", Group.Condition, true, null, o => [Text(o["attention"])]),
        new("conditionPart", Group.Condition, false, "parts", o => [Text(o["part"])]),

        new("repair", Group.Repair, true, "repairs", o => [Text(o["method"])]),
        new("repairSewn", Group.Repair, true, null, o => [Text(o["sewn"])]),
        new("repairWhen", Group.Repair, false, null, o => [Text(o["when"])]),
        new("repairPart", Group.Repair, false, "parts", o => [Text(o["part"])]),
    ];

    private static readonly Dictionary<string, Parameter> ByName = All.ToDictionary(p => p.Name);
    private static readonly Dictionary<Group, Parameter[]> ByGroup = All.GroupBy(p => p.Group).ToDictionary(g => g.Key, g => g.ToArray());

    /// <summary>What a value counts as: the slug of the word that it is, names or was merged into.</summary>
    public string Meant(string value) => Words is null ? value : Catalogue.Words.Meant(Words, value);

    /// <summary>The techniques that are lace, so that the lace group asks them too.</summary>
    internal static readonly IReadOnlySet<string> LaceKinds = new HashSet<string> { "lace", "insertion", "edging", "embroidered-trim" };

    /// <summary>The parameter of this name, or null.</summary>
    public static Parameter? Find(string name) => ByName.GetValueOrDefault(name);

    /// <summary>The parameters of one group.</summary>
    public static IReadOnlyList<Parameter> Of(Group group) => ByGroup[group];

    /// <summary>A slug, or the text of an own word; null when it is neither.</summary>
    internal static string? Text(JsonNode? node) => node switch
    {
        JsonValue value when value.TryGetValue<string>(out var text) => text,
        JsonObject own => own["own"] is JsonValue word && word.TryGetValue<string>(out var text) ? text : null,
        _ => null,
    };

    internal static IEnumerable<JsonObject> Entries(JsonNode? list) => list is JsonArray array ? array.OfType<JsonObject>() : [];

    private static IEnumerable<string?> Each(JsonNode? list) => list is JsonArray array ? array.Select(Text) : [];

    private static IEnumerable<string?> Each(JsonNode? list, string field) => Entries(list).Select(entry => Text(entry[field]));

    private static IEnumerable<string?> Parts(JsonObject technique) =>
        Each(technique["repeats"], "part").Prepend(Text(technique["part"]));
}
