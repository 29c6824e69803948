using CsCheck;
using HeirloomArchive.Sewing.Cloth;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Cloth;

public class OldUnitTests
{
    [Fact]
    public void A_count_comes_back_from_its_length() => Gen.Select(Gen.Int[0, OldUnit.All.Count - 1], Gen.Int[1, 100_000]).Sample((which, hundredths) =>
        Math.Abs(OldUnit.All[which].In(OldUnit.All[which].Of(hundredths / 100m)) - (hundredths / 100m)) < 0.000_002m);

    [Fact]
    public void They_stand_from_the_smallest() => Assert.Equal(OldUnit.All.OrderBy(u => u.Of(1)), OldUnit.All);

    [Fact]
    public void A_length_is_shown_in_every_measure()
    {
        var answer = Of("units", """{"length":"1 yd"}""");
        Assert.Equal(("36 in", "914.4 mm", 16m), (answer.Text("inches"), answer.Text("millimetres"), (decimal)answer["nails"]!));
        Assert.Equal(1440m, answer["measures"]!.AsArray().Where(m => ((string)m!["unit"]!).StartsWith("Button", StringComparison.Ordinal)).Select(m => (decimal)m!["count"]!).Single());
    }

    [Theory]
    [InlineData("{}", "length", "one of the two")]
    [InlineData("""{"length":"1 in","count":2,"unit":"nail"}""", "length", "one of the two")]
    [InlineData("""{"count":2}""", "unit", "belong together")]
    [InlineData("""{"count":1000000,"unit":"french-ell"}""", "count", "more than 1 km")]
    public void A_length_or_a_count_of_a_measure_is_wanted(string sent, string field, string words) => Refuses("units", sent, field, words);
}
