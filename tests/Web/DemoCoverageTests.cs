using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Web.Tests;

/// <summary>Which words of the trade the demonstration uses: a teacher can show each of them on a piece.</summary>
public sealed class DemoCoverageTests
{
    // The least share of each facet that stands on some piece, in percent. Forty pieces can't be of seventy-seven kinds.
    private static readonly Dictionary<string, int> Floors = new()
    {
        ["laces"] = 100, ["techniques"] = 100, ["tucks"] = 100, ["trims"] = 100, ["whitework"] = 100, ["stitches"] = 100, ["seams"] = 100,
        ["hems"] = 100, ["findings"] = 100, ["measures"] = 100, ["repairs"] = 95, ["parts"] = 90, ["motifs"] = 90, ["fastenings"] = 80,
        ["views"] = 80, ["cloth"] = 70, ["kinds"] = 45,
    };

    // Where a facet's words stand: the list, "" for the garment itself, and the field.
    private static readonly (string Facet, string List, string Field)[] Fields =
    [
        ("kinds", "", "kind"), ("cloth", "materials", "word"), ("measures", "measures", "name"), ("views", "pictures", "view"),
        ("techniques", "techniques", "kind"), ("tucks", "techniques", "tuckKind"), ("laces", "techniques", "lace"), ("trims", "techniques", "trim"),
        ("whitework", "techniques", "work"), ("stitches", "techniques", "stitches"), ("stitches", "techniques", "handStitch"), ("stitches", "repairs", "handStitch"),
        ("seams", "techniques", "seam"), ("hems", "techniques", "hemKind"), ("fastenings", "techniques", "fastening"), ("motifs", "techniques", "motif"),
        ("findings", "condition", "what"), ("repairs", "repairs", "method"), ("parts", "techniques", "part"), ("parts", "condition", "part"), ("parts", "repairs", "part"),
    ];

    public static TheoryData<string> Facets => [.. Floors.Keys];

    [Theory, MemberData(nameof(Facets))]
    public void The_words_of_a_facet_stand_on_the_pieces(string facet)
    {
        var pieces = Pieces().ToList();
        var used = Fields.Where(f => f.Facet == facet).SelectMany(f => pieces.SelectMany(p => Words(p, f.List, f.Field))).ToHashSet();
        var words = Thesaurus.OfTrade.In(facet).Select(w => w.Slug).ToList();
        var missing = words.Where(w => !used.Contains(w)).ToList();
        var said = $"{facet}: {words.Count - missing.Count} of {words.Count}; not used: {(missing.Count == 0 ? "none" : string.Join(", ", missing))}";
        TestContext.Current.TestOutputHelper?.WriteLine(said);

        Assert.NotEmpty(words);
        Assert.True((words.Count - missing.Count) * 100 >= Floors[facet] * words.Count, said);
    }

    [Fact]
    public void There_is_a_floor_for_each_facet_of_the_words() =>
        Assert.Equal(Thesaurus.OfTrade.FacetNames.Order(StringComparer.Ordinal), Floors.Keys.Order(StringComparer.Ordinal));

    private static IEnumerable<string> Words(JsonObject piece, string list, string field)
    {
        var owners = list.Length == 0 ? [piece] : (piece[list] as JsonArray ?? []).OfType<JsonObject>();
        return owners.SelectMany(o => o[field] is JsonArray several ? several.AsEnumerable() : [o[field]])
            .OfType<JsonValue>().Where(v => v.GetValueKind() == System.Text.Json.JsonValueKind.String).Select(v => v.GetValue<string>());
    }

    // What each piece is when all that happened to it has happened, as far as words go.
    private static IEnumerable<JsonObject> Pieces()
    {
        foreach (var file in Directory.GetFiles(Path.Combine(DemoTests.Seed, "garments"), "*.json"))
        {
            var seed = JsonNode.Parse(File.ReadAllText(file))!.AsObject();
            if (seed["setAside"] is not null) continue;
            var piece = seed["post"]!.DeepClone().AsObject();
            foreach (var step in (seed["then"] as JsonArray ?? []).Where(s => s!["add"] is not null))
            {
                var list = step!["add"]!.ToString();
                (piece[list] as JsonArray ?? (JsonArray)(piece[list] = new JsonArray())).Add(step["entry"]!.DeepClone());
            }

            piece["pictures"] = seed["pictures"]?.DeepClone();
            yield return piece;
        }
    }
}
