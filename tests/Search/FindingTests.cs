using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

public sealed class FindingTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Totals_ids_techniques_and_every_facet_are_those_of_looking_through_each_piece()
    {
        var archives = 0;
        Gen.Select(Archives.Garment.Array[0, 25], Archives.Question.Array[4], Gen.Int[0, 24]).Sample(
            (garments, questions, again) =>
            {
                var number = Interlocked.Increment(ref archives);
                var path = Path.Combine(folder.Path, number.ToString(System.Globalization.CultureInfo.InvariantCulture));
                using var index = Indexes.Of(path, garments);
                // Some are saved again and one is set aside, so that the index has gaps and several parts.
                foreach (var garment in garments.Take(again))
                {
                    index.Put(garment, 2);
                }

                index.Commit(number);
                var kept = garments.ToList();
                if (kept.Count > 2)
                {
                    index.Put(Archives.Object([.. kept[1].Select(f => (f.Key, f.Key == "setAside" ? Archives.Object(("who", "me")) : f.Value))]), 3);
                    kept.RemoveAt(1);
                }

                foreach (var question in questions)
                {
                    Agrees(index, kept, question);
                }
            }, iter: 250, threads: 1);
        Assert.True(archives >= 250);
    }

    private static void Agrees(GarmentIndex index, List<JsonObject> garments, (string Name, string Value)[] question)
    {
        var brute = new BruteForce(garments, question.ToLookup(q => q.Name, q => q.Value));
        var answer = index.Search(SearchRequest.Read(question.Select(q => KeyValuePair.Create(q.Name, (string?)q.Value)).Append(new("size", "100"))));
        var items = answer["items"]!.AsArray().Select(i => i!.AsObject()).ToList();
        Assert.Equal(brute.Found(), items.Select(i => i["id"]!.GetValue<string>()).ToHashSet());
        Assert.Equal(items.Count, answer["total"]!.GetValue<int>());
        foreach (var item in items)
        {
            var garment = garments.Single(g => g["id"]!.GetValue<string>() == item["id"]!.GetValue<string>());
            Assert.Equal(brute.Techniques(garment).Order(), item["techniques"]!.AsArray().Select(t => t!.GetValue<string>()).Order());
        }

        var facets = answer["facets"]!.AsObject();
        foreach (var facet in BruteForce.Facets)
        {
            var counted = facets[facet]!.AsArray().ToDictionary(c => c!["value"]!.GetValue<string>(), c => c!["count"]!.GetValue<int>());
            Assert.Equal(brute.Facet(facet).OrderBy(c => c.Key, StringComparer.Ordinal), counted.OrderBy(c => c.Key, StringComparer.Ordinal));
        }
    }
}
