using System.Text.Json.Nodes;
using CsCheck;

namespace HeirloomArchive.Search.Tests;

/// <summary>Random archives and random questions over few words, so that many pieces share them.</summary>
internal static class Archives
{
    /// <summary>Dates with the first and last year they may mean.</summary>
    public static readonly (string Edtf, int? From, int? To)[] Dates =
    [
        ("1900", 1900, 1900), ("1909~", 1909, 1909), ("1910?", 1910, 1910), ("190X", 1900, 1909), ("18XX", 1800, 1899),
        ("1895/1905", 1895, 1905), ("../1880", null, 1880), ("1908/..", 1908, null), ("1905-06-12", 1905, 1905),
    ];

    private static readonly string[] Parts = ["yoke", "skirt", "hem", "sleeve"];
    private static readonly string[] Kinds = ["tucks", "lace", "insertion", "edging", "embroidered-trim", "whitework", "hemstitching"];
    private static readonly string[] Sewn = ["hand", "machine", "machine-lockstitch", "not-determined"];
    private static readonly decimal[] Widths = [1.5875m, 3.175m, 6.35m, 12.7m];

    private static readonly Gen<JsonNode?> Part = Word(Parts);

    private static readonly Gen<JsonObject> Technique = Gen.Select(
        Word(Kinds), Word("pin", "growth", "plain"), Word(Sewn), Part, Part.Array[0, 2],
        Gen.Select(Word("torchon", "cluny"), Word("swiss-edging"), Word("edging", "insertion"), Word("hand", "machine"), OneOf("flat", "gathered", "eased").Array[0, 2]),
        Gen.Select(Word("ayrshire", "madeira"), Word("running", "whip"), Word("whole", "let-out"), OneOf(Widths).Array[0, 3], OneOf([0m, .. Widths])),
        (kind, tucks, sewn, part, repeats, lace, rest) => Object(
            ("id", Guid.NewGuid().ToString()), ("kind", kind), ("tuckKind", tucks), ("sewn", sewn), ("part", part),
            ("repeats", new JsonArray([.. repeats.OfType<JsonNode>().Select(p => Object(("part", p)))])),
            ("lace", lace.Item1), ("trim", lace.Item2), ("form", lace.Item3), ("laceMade", lace.Item4), ("set", new JsonArray([.. lace.Item5.Select(s => (JsonNode)s)])),
            ("work", rest.Item1), ("handStitch", rest.Item2), ("remains", rest.Item3),
            ("groups", new JsonArray([.. rest.Item4.Select(w => Object(("tucks", 3), ("width", Width(w))))])),
            ("width", rest.Item5 > 0 ? Width(rest.Item5) : null)));

    private static readonly Gen<JsonObject> Finding = Gen.Select(
        Word("tear", "stain", "foxing"), Word("slight", "severe"), Word("soon", "watch"), Part, Gen.Bool,
        (what, severity, attention, part, ended) => Object(
            ("what", what), ("severity", severity), ("attention", attention), ("part", part),
            ("ended", ended ? Object(("date", "2026-01-02")) : null)));

    private static readonly Gen<JsonObject> Repair = Gen.Select(
        Word("darn", "patch"), Word(Sewn), Word("in-period", "modern"), Part,
        (method, sewn, when, part) => Object(("method", method), ("sewn", sewn), ("when", when), ("part", part)));

    /// <summary>A garment's state as the record gives it.</summary>
    public static readonly Gen<JsonObject> Garment = Gen.Select(
        Gen.Guid, Technique.Array[0, 4], Finding.Array[0, 3], Repair.Array[0, 2],
        Gen.Select(Word("baby-dress", "slip", "apron"), Word("sound", "fair"), Word("show-flat", "teacher-only"), Word("here", "lent")),
        Gen.Select(Word("lawn", "mull").Array[0, 2], OneOf("lesson", "Étude & <b>").Array[0, 2], Gen.Int[0, Dates.Length], Gen.Bool, Gen.Int[0, 99]),
        (id, techniques, findings, repairs, one, two) => Object(
            ("id", id.ToString()), ("version", 1), ("setAside", null), ("name", $"Piece {two.Item5}"), ("number", two.Item5 % 3 == 0 ? null : $"G-{two.Item5}"),
            ("kind", one.Item1), ("overall", one.Item2), ("handling", one.Item3), ("whereabouts", one.Item4 is null ? null : Object(("is", one.Item4))),
            ("materials", new JsonArray([.. two.Item1.OfType<JsonNode>().Select(w => Object(("word", w)))])),
            ("tags", new JsonArray([.. two.Item2.Select(t => (JsonNode)t)])),
            ("dated", two.Item3 < Dates.Length ? Dates[two.Item3].Edtf : null),
            ("pictures", two.Item4 ? new JsonArray(Object(("id", Guid.NewGuid().ToString()))) : []),
            ("techniques", new JsonArray(techniques)), ("condition", new JsonArray(findings)), ("repairs", new JsonArray(repairs))));

    /// <summary>The parameters of a question; some values are found nowhere, some are given twice.</summary>
    public static readonly Gen<(string Name, string Value)[]> Question = Gen.OneOf(
        Choice("kind", "baby-dress", "slip"), Choice("overall", "sound", "fair"), Choice("handling", "show-flat"), Choice("whereabouts", "here", "lent"),
        Choice("cloth", "lawn", "mull"), Choice("withPictures", "true", "false"), Choice("tag", "lesson", "Étude & <b>"),
        Choice("decade", "1890s", "1900s", "1990s", "nineties"), Choice("from", "1885", "1905", "1910"), Choice("to", "1880", "1900", "1909"),
        Choice("technique", Kinds), Choice("tuckKind", "pin", "growth", "my own"), Choice("sewn", Sewn), Choice("part", Parts), Choice("work", "ayrshire"),
        Choice("handStitch", "running"), Choice("remains", "let-out"), Choice("widthFrom", "1/8 in", "5 mm"), Choice("widthTo", "1/4 in", "3.175 mm"),
        Choice("lace", "torchon", "cluny", "nowhere"), Choice("trim", "swiss-edging"), Choice("laceForm", "edging"), Choice("laceMade", "hand", "machine"),
        Choice("laceSet", "flat", "gathered"), Choice("lacePart", Parts), Choice("laceWidthFrom", "1/4 in"), Choice("laceWidthTo", "6.35 mm", "1 cm"),
        Choice("condition", "tear", "stain"), Choice("severity", "slight", "severe"), Choice("attention", "soon"), Choice("conditionPart", Parts),
        Choice("repair", "darn", "patch"), Choice("repairSewn", Sewn), Choice("repairWhen", "modern"), Choice("repairPart", Parts)).Array[0, 4];

    public static JsonObject Object(params (string Name, JsonNode? Value)[] fields)
    {
        var made = new JsonObject();
        foreach (var (name, value) in fields.Where(f => f.Value is not null || f.Name == "setAside"))
        {
            made[name] = value?.DeepClone();
        }

        return made;
    }

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static JsonObject Width(decimal mm) => Object(("mm", mm), ("text", $"{mm} mm"));

    private static Gen<(string, string)> Choice(string name, params string[] values) => OneOf(values).Select(value => (name, value));

    /// <summary>A word of these, none, or one of her own.</summary>
    private static Gen<JsonNode?> Word(params string[] words) => Gen.Int[0, words.Length + 1].Select(i =>
        i < words.Length ? (JsonNode?)words[i] : i == words.Length ? null : Object(("own", "my own")));
}
