using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Search.Alike;
using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

public sealed class AlikeTests : IDisposable
{
    private const string Yoke = """{"id":"t1","kind":"tucks","tuckKind":"pin","part":"yoke","sewn":"hand","groups":[{"tucks":6,"width":{"mm":3.175},"space":{"mm":6.35}}]}""";

    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void It_is_the_same_both_ways_from_nothing_to_one_and_nothing_to_itself() =>
        Gen.Select(Archives.Garment, Archives.Garment, Gen.Bool).Sample((one, other, anySize) =>
        {
            foreach (var (a, b) in Techniques(one).SelectMany(a => Techniques(other), (a, b) => (Construction.Of(a), Construction.Of(b))))
            {
                var distance = Distance.Between(a, b, anySize).Value;
                Assert.Equal(distance, Distance.Between(b, a, anySize).Value, 12);
                Assert.InRange(distance, 0, 1);
                Assert.Equal(0, Distance.Between(a, a, anySize).Value);
            }
        }, iter: 200);

    [Theory]
    // Weights 4 kind, 3 sort, 3 proportion, 2 size, 2 groups, 2 sewn, 2 part: 18 together.
    [InlineData("sewn", "\"machine\"", 2.0 / 18)]
    [InlineData("sewn", "null", 1.0 / 18)]
    [InlineData("part", "\"hem\"", 2.0 / 18)]
    [InlineData("tuckKind", "\"growth\"", 3.0 / 18)]
    [InlineData("groups", """[{"tucks":6,"width":{"mm":6.35},"space":{"mm":12.7}}]""", 2 * 0.5 / 18)]
    [InlineData("groups", """[{"tucks":3,"width":{"mm":3.175},"space":{"mm":6.35}}]""", 2 * 0.25 / 18)]
    [InlineData("groups", """[{"tucks":6,"width":{"mm":3.175},"space":{"mm":0}}]""", 3 * 0.79248125 / 18)]
    public void Each_aspect_weighs_what_the_documentation_says(string field, string value, double distance)
    {
        var changed = JsonNode.Parse(Yoke)!.AsObject();
        changed[field] = JsonNode.Parse(value);
        Assert.Equal(distance, Distance.Between(Construction.Of(JsonNode.Parse(Yoke)!.AsObject()), Construction.Of(changed)).Value, 6);
    }

    [Fact]
    public void Kinds_of_machine_are_near_each_other_and_reasons_are_told_in_words()
    {
        Assert.Equal(0.25, Distance.SewnApart("machine", "machine-lockstitch"));
        Assert.Equal(1, Distance.SewnApart("hand", "overlock"));
        var larger = JsonNode.Parse(Yoke.Replace("3.175", "6.35", StringComparison.Ordinal).Replace("\"space\":{\"mm\":6.35}", "\"space\":{\"mm\":12.7}", StringComparison.Ordinal))!.AsObject();
        Assert.Equal(
            ["both tucks", "both pin tucks", "w : s is 1 : 2 in both", "1/8 in wide, here 1/4 in", "both 6 tucks in 1 group", "both sewn by hand", "both on the yoke"],
            Distance.Between(Construction.Of(JsonNode.Parse(Yoke)!.AsObject()), Construction.Of(larger), anySize: true).Why);
    }

    [Fact]
    public void The_index_finds_the_same_as_comparing_with_every_technique()
    {
        var archives = 0;
        Gen.Select(Archives.Garment.Array[5, 30], Gen.Bool).Sample((garments, anySize) =>
        {
            using var index = Indexes.Of(Path.Combine(folder.Path, Interlocked.Increment(ref archives).ToString(System.Globalization.CultureInfo.InvariantCulture)), garments);
            foreach (var garment in garments.Take(4))
            {
                foreach (var technique in Techniques(garment).Where(t => Parameter.Text(t["kind"]) is not null))
                {
                    var asked = Construction.Of(technique);
                    var all = garments.Where(g => g != garment).SelectMany(Techniques).Select(Construction.Of)
                        .Where(c => c.Kind == asked.Kind && (!anySize || (c.Width != asked.Width && c.Share is not null)))
                        .Select(c => Math.Round(Distance.Between(asked, c, anySize).Value, 3)).Order().Take(100);
                    var found = index.LikeTechnique(Guid.Parse(garment["id"]!.GetValue<string>()), technique, anySize, 100)["items"]!.AsArray();
                    Assert.Equal(all, found.Select(f => f!["distance"]!.GetValue<double>()));
                }
            }
        }, iter: 40, threads: 1);
    }

    [Fact]
    public void A_whole_piece_is_like_those_with_its_techniques_its_kind_and_its_words()
    {
        using var index = Indexes.Of(folder.Path,
            Indexes.Garment(1, """{"name":"Baby dress","kind":"baby-dress","techniques":[TUCKS]}""".Replace("TUCKS", Yoke, StringComparison.Ordinal)),
            Indexes.Garment(2, """{"name":"Baby dress of lawn","kind":"baby-dress","techniques":[TUCKS]}""".Replace("TUCKS", Yoke, StringComparison.Ordinal)),
            Indexes.Garment(3, """{"name":"Baby petticoat","kind":"petticoat","techniques":[{"id":"t2","kind":"lace","lace":"torchon"}]}"""),
            Indexes.Garment(4, """{"name":"Sampler","kind":"sampler"}"""));
        var like = index.LikeGarment(Guid.Parse("019a0000-0000-7000-8000-000000000001"), Indexes.Garment(1, """{"name":"Baby dress","kind":"baby-dress","techniques":[TUCKS]}""".Replace("TUCKS", Yoke, StringComparison.Ordinal)), 10)["items"]!.AsArray();
        Assert.Equal(["Baby dress of lawn", "Baby petticoat"], like.Select(l => l!["name"]!.GetValue<string>()));
        Assert.InRange(like[0]!["distance"]!.GetValue<double>(), 0, 0.2);
        Assert.Contains("both: baby dress", like[0]!["why"]!.AsArray().Select(w => w!.GetValue<string>()));
        Assert.True(like[0]!.AsObject().ContainsKey("technique") && like[0]!["technique"] is null);
    }

    [Fact]
    public void A_piece_of_which_little_is_told_is_compared_by_that()
    {
        using var index = Indexes.Of(folder.Path, Indexes.Garment(1, """{"name":"Cap"}"""), Indexes.Garment(2, """{"name":"Cap"}"""), Indexes.Garment(3, """{"name":"Bib"}"""));
        var like = index.LikeGarment(Guid.Parse("019a0000-0000-7000-8000-000000000001"), Indexes.Garment(1, """{"name":"Cap"}"""), 10)["items"]!.AsArray();
        Assert.Equal(0, Assert.Single(like)!["distance"]!.GetValue<double>());
    }

    private static IEnumerable<JsonObject> Techniques(JsonObject garment) => garment["techniques"]!.AsArray().Select(t => t!.AsObject());
}
