using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

/// <summary>
/// Sixty questions as she would type them, over the demonstration collection, each with the pieces that must be found, set down by reading the
/// first twenty records, not by asking the index. Recall: how many of them stand in the first twenty; MRR: one over the place of the first.
/// </summary>
public sealed class RelevanceTests : IDisposable
{
    private const double RecallFloor = 0.97;
    private const double RankFloor = 0.95;

    private static readonly (string Typed, string Must)[] Questions =
    [
        ("pin tucks by hand", "2 19 20"), ("pin tucks by machine", "4 8 19"), ("torchon", "5 15"), ("val lace", "2 4 8 20"), ("valenciennes insertion", "2 4 20"),
        ("irish crochet", "9"), ("torchon on the flounce", "5"), ("needle lace", "11"), ("honiton", "17"), ("bucks point", "13"),
        ("ayrshire", "1"), ("broderie anglaise", "10"), ("eyelet embroidery", "10"), ("growth tucks", "2 10"), ("let down tucks", "10"),
        ("nuns tucks", "5"), ("shell tucks", "12"), ("lace edged tucks", "15"), ("crossed tucks", "9"), ("graduated tucks", "4 9"),
        ("release tucks", "4 14"), ("whipped tucks", "13"), ("corded tucks", "13"), ("blind tucks", "10"), ("twin needle", "19"),
        ("christening gown", "1"), ("baptismal gown", "1"), ("baby dress", "2"), ("petticoat", "5"), ("drawers", "6"),
        ("chemise 1861", "7"), ("nightdress", "12"), ("corset covers", "8 18"), ("camisole", "14"), ("pinafore", "15"),
        ("H-004", "4"), ("h-019", "19"), ("flannel", "3"), ("longcloth", "5 6 12"), ("batiste", "8 14 19 20"),
        ("handkerchief linen", "9 11"), ("before 1850", "11"), ("1860s", "6 7 13"), ("made since 2000", "19 20"), ("foxing", "5"),
        ("rust marks", "2 4 14"), ("darned by hand", "6 10 15"), ("net darn", "1 9"), ("patch on a sleeve", "4 7"), ("iron-on", "10"),
        ("mothballs", "16"), ("shattering silk", "3"), ("yellowing", "4 12"), ("hook and eye", "4"), ("press studs", "9 14"),
        ("snap fasteners", "9 14"), ("entredeux", "2 4"), ("beading for a ribbon", "8"), ("pin tucks 1/16 in on a yoke", "2 20"), ("feather stitch", "3 12"),
    ];

    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_must_be_found_is_found_and_stands_first()
    {
        Assert.Equal(60, Questions.Length);
        using var index = Indexes.Of(folder.Path, Demo());
        var (recall, rank) = (0.0, 0.0);
        var missed = new List<string>();
        foreach (var (typed, must) in Questions)
        {
            var wanted = must.Split(' ').Select(n => $"H-{int.Parse(n, System.Globalization.CultureInfo.InvariantCulture):000}").ToList();
            var found = index.Ask("q=" + Uri.EscapeDataString(typed))["items"]!.AsArray().Select(i => i!["number"]!.GetValue<string>()).ToList();
            var (met, first) = (wanted.Count(found.Contains) / (double)wanted.Count, found.FindIndex(wanted.Contains) + 1);
            recall += met / Questions.Length;
            rank += (first == 0 ? 0 : 1.0 / first) / Questions.Length;
            if (met < 1 || first != 1)
            {
                missed.Add($"{typed}: {string.Join(' ', found)}, wanted {string.Join(' ', wanted)}");
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"recall {recall:0.000}, MRR {rank:0.000}\n{string.Join('\n', missed)}");
        Assert.True(recall >= RecallFloor && rank >= RankFloor, $"recall {recall:0.000}, MRR {rank:0.000}\n{string.Join('\n', missed)}");
    }

    /// <summary>The demonstration pieces as they stand after all that happened to them.</summary>
    private static IEnumerable<JsonObject> Demo()
    {
        var number = 0;
        foreach (var file in Directory.GetFiles(Path.Combine(SourceFolder.Top, "seed-demo", "garments"), "*.json").Order(StringComparer.Ordinal).Take(20))
        {
            var told = JsonNode.Parse(File.ReadAllText(file))!.AsObject();
            var garment = told["post"]!.DeepClone().AsObject();
            foreach (var step in (told["then"] as JsonArray ?? []).Select(s => s!.AsObject()))
            {
                if (step["add"] is { } list)
                {
                    (garment[list.ToString()] as JsonArray ?? (JsonArray)(garment[list.ToString()] = new JsonArray())).Add(step["entry"]!.DeepClone());
                }

                Merge(step["patch"], garment);
                Merge(step["with"], step["change"] is { } path ? At(garment, path.ToString()) : garment);
            }

            yield return Indexes.Garment(++number, Lengths(garment, "")!.ToJsonString());
        }
    }

    private static void Merge(JsonNode? from, JsonObject into)
    {
        foreach (var (name, value) in from as JsonObject ?? [])
        {
            into[name] = value?.DeepClone();
        }
    }

    private static JsonObject At(JsonObject garment, string path)
    {
        var (list, place) = (path[..path.IndexOf('[')], path[(path.IndexOf('[') + 1)..^1]);
        return garment[list]![int.Parse(place, System.Globalization.CultureInfo.InvariantCulture)]!.AsObject();
    }

    // The record keeps a length with its millimetres.
    private static JsonNode? Lengths(JsonNode? node, string name) => node switch
    {
        JsonObject inner => new JsonObject(inner.Select(m => KeyValuePair.Create(m.Key, Lengths(m.Value, m.Key)))),
        JsonArray list => new JsonArray([.. list.Select(n => Lengths(n, name))]),
        JsonValue value when name is "width" or "space" or "length" or "depth" && value.TryGetValue<string>(out var text) && Length.TryParse(text, out var length, out _)
            => new JsonObject { ["mm"] = length.Millimetres, ["text"] = text },
        _ => node?.DeepClone(),
    };
}
