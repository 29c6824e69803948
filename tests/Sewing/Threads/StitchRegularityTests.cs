using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Sewing.Threads;

namespace HeirloomArchive.Sewing.Tests.Threads;

public class StitchRegularityTests
{
    private static readonly Length Tenth = Length.FromMillimetres(0.1m);

    private static JsonObject Of(string request) => AllSums.Find("stitch-regularity")!.Of(JsonNode.Parse(request)).ToJson();

    private static StitchRegularity Of(params double[] millimetres) =>
        StitchRegularity.Of([.. millimetres.Select(m => Length.FromMillimetres((decimal)m))], StitchesSeen.EndToEnd, null, [], Tenth);

    [Fact]
    public void Fewer_than_ten_are_refused_and_told_how_many_more()
    {
        var refused = Assert.Throws<FaultException>(() => Of("""{"stitches":["2 mm","2 mm","3 mm","2 mm","2 mm","2 mm","3 mm"]}"""));
        Assert.False(refused.Unreadable);
        Assert.Equal("7 stitches say too little: measure at least 3 more, 10 in all.", Assert.Single(refused.Faults).Message);
    }

    [Fact]
    public void Mean_spread_and_variation_are_those_of_a_worked_example()
    {
        // 2, 4, 4, 4, 5, 5, 7, 9 twice: mean 5, sum of squares 64, over 15.
        var found = Of(2, 4, 4, 4, 5, 5, 7, 9, 2, 4, 4, 4, 5, 5, 7, 9);
        Assert.Equal(Length.FromMillimetres(5), found.Mean);
        Assert.InRange((double)found.Spread.Millimetres - Math.Sqrt(64.0 / 15), -1e-6, 1e-6);
        Assert.Equal(Math.Sqrt(64.0 / 15) / 5, found.Variation, 12);
        Assert.Equal(25.4 / 5, found.PerInch, 12);
        Assert.Equal((Length.FromMillimetres(2), Length.FromMillimetres(9)), found.Range);
    }

    [Fact]
    public void Of_running_stitches_a_machine_would_show_twice_as_many()
    {
        Length[] stitches = [.. Enumerable.Repeat(Length.FromMillimetres(2), 12)];
        var seen = StitchRegularity.Of(stitches, StitchesSeen.OneFace, null, [], Tenth);
        Assert.Equal(25.4 / 4, seen.PerInch, 12);
        Assert.Equal(25.4 / 2, seen.PerInchAsMachine, 12);
        var told = StitchRegularity.Of(stitches, StitchesSeen.OneFace, Length.FromMillimetres(60), [], Tenth);
        Assert.Equal(25.4 / 5, told.PerInch, 12);
        Assert.Equal(StitchRegularity.Of(stitches, StitchesSeen.EndToEnd, null, [], Tenth).PerInchAsMachine, seen.PerInchAsMachine, 12);
    }

    [Fact]
    public void The_unit_and_the_size_of_the_stitches_change_nothing_in_the_hint() =>
        Gen.Select(Gen.Double[0.5, 1.5].Array[10, 40], Gen.Double[1, 5]).Sample((lengths, times) =>
        {
            var (one, other) = (At(1), At(times));
            Assert.InRange(Math.Log(one.HandToMachine / other.HandToMachine), -1e-3, 1e-3);

            StitchRegularity At(double scale) => StitchRegularity.Of(
                [.. lengths.Select(l => Length.FromMillimetres((decimal)(10 * l * scale)))], StitchesSeen.EndToEnd, null, [], Length.FromMillimetres((decimal)(0.1 * scale)));
        });

    [Fact]
    public void The_more_uneven_the_more_it_leans_to_a_hand()
    {
        var ratios = new[] { 0.01, 0.03, 0.05, 0.08, 0.1, 0.13, 0.16, 0.2 }.Select(spread =>
            Of([.. Enumerable.Range(0, 20).Select(i => 2.5 * (1 + (spread * (i % 2 == 0 ? 1 : -1))))]).HandToMachine).ToList();
        Assert.Equal(ratios.Order(), ratios);
        Assert.True(ratios[0] < 0.1 && ratios[^1] > 10);
    }

    [Fact]
    public void More_stitches_of_the_same_evenness_tell_more_and_never_beyond_what_the_model_bears()
    {
        double Ratio(int stitches) => Of([.. Enumerable.Range(0, stitches).Select(i => i % 2 == 0 ? 2 : 2.7)]).HandToMachine;
        Assert.True(Ratio(10) < Ratio(20));
        Assert.Equal(StitchRegularity.MostRatio, Of([.. Enumerable.Range(0, 400).Select(i => i % 2 == 0 ? 2 : 3.5)]).HandToMachine);
        Assert.Equal(1 / StitchRegularity.MostRatio, Of([.. Enumerable.Repeat(2.5, 400)]).HandToMachine);
    }

    [Fact]
    public void A_coarse_ruler_tells_less()
    {
        Length[] stitches = [.. Enumerable.Range(0, 12).Select(i => Length.FromMillimetres(i % 3 == 0 ? 2.1m : 2m))];
        var fine = StitchRegularity.Of(stitches, StitchesSeen.EndToEnd, null, [], Tenth);
        var coarse = StitchRegularity.Of(stitches, StitchesSeen.EndToEnd, null, [], Length.FromMillimetres(1));
        Assert.True(fine.HandToMachine < coarse.HandToMachine && coarse.HandToMachine < 1);
    }

    [Fact]
    public void Uneven_running_stitches_with_uneven_slants_hint_at_a_hand_and_never_judge()
    {
        var answer = Of(AllSums.Find("stitch-regularity")!.Example);
        Assert.Equal("hand", (string?)answer["leansTo"]);
        Assert.Contains("a hint for hand, not a verdict", (string?)answer["evidence"], StringComparison.Ordinal);
        Assert.Contains("hand sewing dates nothing", (string?)answer["cautions"]![0]!["text"], StringComparison.Ordinal);
        Assert.Equal(2 * (decimal)answer["perInch"]!, (decimal)answer["asMachine"]!, 1);
    }

    [Fact]
    public void Even_stitches_hint_at_a_machine()
    {
        var lengths = string.Join(',', Enumerable.Range(0, 20).Select(i => i % 5 == 0 ? "\"2.1 mm\"" : "\"2 mm\""));
        var answer = Of("{\"stitches\":[" + lengths + "],\"ruler\":\"0.1 mm\"}");
        Assert.Equal("machine", (string?)answer["leansTo"]);
        Assert.True((decimal)answer["handToMachine"]! < 0.2m);
    }

    [Theory]
    [InlineData("\"slants\":\"4; up; 3\"", "slants")]
    [InlineData("\"slants\":\"4; 3\"", "slants")]
    [InlineData("\"slants\":\"95\"", "slants")]
    [InlineData("\"over\":\"10 mm\"", "over")]
    public void What_makes_no_sense_is_named(string more, string path)
    {
        var lengths = string.Join(',', Enumerable.Repeat("\"2 mm\"", 10));
        var refused = Assert.Throws<FaultException>(() => Of("{\"stitches\":[" + lengths + "]," + more + "}"));
        Assert.All(refused.Faults, f => Assert.Equal((path, FaultKind.Senseless), (f.Path, f.Kind)));
    }
}
