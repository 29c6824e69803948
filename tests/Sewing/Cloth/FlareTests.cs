using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Cloth;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Cloth;

public class FlareTests
{
    private const string Circular = """{"waist":"24 in","part":1,"length":"30 in","fromHem":"3 in","tucks":3,"width":"1/2 in","space":"1/4 in"}""";
    private const string Gored = """{"gores":6,"top":"4 in","bottom":"10 in","height":"30 in","fromHem":"3 in","tucks":3,"width":"1 in","space":"1/4 in"}""";

    [Fact]
    public void Release_tucks_give_back_below_what_they_take_above()
    {
        var answer = Of("release-flare", """{"tucks":6,"width":"1/4 in","finished":"10 in","panel":"24 in","stitched":"6 in"}""");
        Assert.Equal(("3 in", "13 in", "18 in"), (answer.Text("gained"), answer.Text("below"), answer.Text("free")));
        Assert.Equal(1.3m, (decimal)answer["ratio"]!);
    }

    [Fact]
    public void Release_tucks_too_wide_for_the_panel_are_told_the_widest() =>
        Refuses("release-flare", """{"tucks":6,"width":"1/2 in","finished":"2 1/4 in","panel":"24 in","stitched":"6 in"}""", "width", "at most 3/8 in");

    [Fact]
    public void Stitching_to_the_end_releases_nothing() =>
        Refuses("release-flare", """{"tucks":6,"width":"1/4 in","finished":"10 in","panel":"24 in","stitched":"24 in"}""", "stitched", "leaves nothing free");

    [Fact]
    public void The_three_ways_of_saying_how_far_apart_give_one_curved_plan()
    {
        string Said(string spacing) => Of("circular-tucks", Circular.Replace("\"space\":\"1/4 in\"", spacing, StringComparison.Ordinal))["lines"]!.ToJsonString();
        Assert.Equal(Said("\"space\":\"1/4 in\""), Said("\"stitchToStitch\":\"3/4 in\""));
        Assert.Equal(Said("\"space\":\"1/4 in\""), Said("\"foldToFold\":\"1 3/4 in\""));
    }

    [Fact]
    public void All_three_spacings_are_told()
    {
        var answer = Of("circular-tucks", Circular);
        Assert.Equal(("1/4 in", "3/4 in", "1 3/4 in"), (answer.Text("space"), answer.Text("stitchToStitch"), answer.Text("foldToFold")));
    }

    [Fact]
    public void Spacings_that_disagree_are_refused_by_name() =>
        Refuses("circular-tucks", Circular.Replace("\"space\":\"1/4 in\"", "\"space\":\"1/4 in\",\"foldToFold\":\"2 in\"", StringComparison.Ordinal), "foldToFold", "does not agree");

    [Fact]
    public void Several_tucks_without_a_spacing_are_asked_for_one() =>
        Refuses("gored-tucks", Gored.Replace(",\"space\":\"1/4 in\"", "", StringComparison.Ordinal), "space", "How far apart?");

    [Fact]
    public void Tucks_higher_than_the_piece_say_how_long_it_must_be() =>
        Refuses("circular-tucks", Circular.Replace("30 in", "7 in", StringComparison.Ordinal), "length", "at least 7 1/2 in");

    [Fact]
    public void Lawn_warns_where_it_will_not_ease_and_is_silent_where_it_will()
    {
        Assert.DoesNotContain("will-not-ease", Codes(Of("circular-tucks", Circular)));
        var tight = Of("circular-tucks", Circular.Replace("\"length\":\"30 in\"", "\"length\":\"8 in\"", StringComparison.Ordinal));
        Assert.Contains("will-not-ease", Codes(tight));
        Assert.False((bool)tight["easesIn"]!);
        Assert.Contains("will-not-ease", Codes(Of("circular-tucks", Circular.Replace("}", ",\"ease\":1}", StringComparison.Ordinal))));
    }

    [Fact]
    public void Each_line_is_longer_than_the_next_by_the_same_round_a_circle() =>
        Gen.Select(Gen.Int[1, 100], Gen.Int[1, 64], Gen.Int[1, 12]).Sample((part, width, tucks) =>
        {
            var piece = new CircularTucks(Sixty(64 * 24), part / 100m, Sixty(64 * 60), Sixty(64), tucks, Sixty(width), Sixty(8));
            return piece.Lines.All(l => Near(l.Lower - l.Fold, l.Fold - l.Upper) && Near(l.Ease, piece.Lines[0].Ease)
                && l.Upper >= piece.Waist && l.Lower <= piece.Hem && l.LowerRadius - l.UpperRadius == 2 * piece.Width);
        });

    [Fact]
    public void A_circle_twice_as_large_is_twice_as_long_along_every_line()
    {
        var once = new CircularTucks(Sixty(1536), 0.4m, Sixty(1920), Sixty(192), 3, Sixty(32), Sixty(16)).Lines;
        var twice = new CircularTucks(Sixty(3072), 0.4m, Sixty(3840), Sixty(384), 3, Sixty(64), Sixty(32)).Lines;
        Assert.All(once.Zip(twice), pair => Assert.True(Near(2 * pair.First.Fold, pair.Second.Fold) && Near(2 * pair.First.Ease, pair.Second.Ease)));
    }

    [Fact]
    public void A_gore_as_wide_above_as_below_has_nothing_to_ease()
    {
        var straight = Of("gored-tucks", Gored.Replace("\"4 in\"", "\"10 in\"", StringComparison.Ordinal));
        Assert.Equal("0 in", straight.Text("easeEachGore"));
        Assert.True((bool)straight["easesIn"]!);
    }

    [Fact]
    public void A_gore_narrows_by_the_same_from_line_to_line()
    {
        var answer = Of("gored-tucks", Gored);
        Assert.Equal(10.16m, (decimal)answer["easeEachGore"]!["mm"]!);
        Assert.All(answer["lines"]!.AsArray(), l => Assert.Equal(10.16m, (decimal)l!["lower"]!["mm"]! - (decimal)l["upper"]!["mm"]!));
    }

    [Fact]
    public void A_gore_narrower_below_is_refused() =>
        Refuses("gored-tucks", Gored.Replace("\"10 in\"", "\"3 in\"", StringComparison.Ordinal), "bottom", "wider");

    private static Length Sixty(long fourths) => Length.FromSixtyFourthsOfInch(fourths);

    private static bool Near(Length a, Length b) => Math.Abs((a - b).Nanometres) <= 2;

    private static string[] Codes(JsonObject answer) => [.. answer["cautions"]!.AsArray().Select(c => (string)c!["code"]!)];
}
