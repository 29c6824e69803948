using System.Text.Json.Nodes;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests;

public class TuckPlanTests
{
    [Fact]
    public void Tucks_towards_the_start_are_the_mirror_image_of_the_reversed_run()
    {
        var plan = Plan("""
            {"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"},{"tucks":1,"width":"1/4 in"}],
             "between":["1 in"],"lead":"2 in","trail":"3 in","lies":"towards-start"}
            """);
        Assert.Equal(["2 1/4 in", "2 7/8 in", "4 1/2 in"], plan.Texts("lines", "fold"));
        Assert.Equal(["2 1/8 in", "2 3/4 in", "4 1/4 in"], plan.Texts("lines", "firstStitch"));
        Assert.Equal(["2 3/8 in", "3 in", "4 3/4 in"], plan.Texts("lines", "secondStitch"));
        Assert.Equal(["2 1/8 in", "2 1/2 in", "3 3/4 in"], plan.Texts("lines", "finishedStitch"));
        Assert.Equal(["2 in", "2 3/8 in", "3 1/2 in"], plan.Texts("lines", "finishedFold"));
        Assert.Equal(["3/8 in", "1 1/4 in"], plan.Texts("spacings", "stitchToStitch"));
        Assert.Equal(["5/8 in", "1 5/8 in"], plan.Texts("spacings", "foldToFold"));
        Assert.Equal(("7 3/4 in", "6 3/4 in", "1 in"), (plan.Text("cloth"), plan.Text("finished"), plan.Text("takeUp")));
    }

    [Fact]
    public void A_test_strip_enters_after_each_second_stitching_line()
    {
        var plan = Plan("""
            {"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"},{"tucks":3,"width":"1/4 in","space":"1/4 in"}],
             "between":["1 in"], "lead":"2 in","trail":"2 in","lies":"towards-end",
             "testStrip":{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"}}
            """);
        Assert.Equal(0.15875m, (decimal)plan["correctionPerTuck"]!["mm"]!);
        Assert.Equal(200.025m, (decimal)plan["finished"]!["mm"]!);
        Assert.Equal(271.145m, (decimal)plan["cloth"]!["mm"]!);
        Assert.Equal(["2 in", "≈ 2 5/8 in", "≈ 3 17/64 in"], plan.Texts("lines", "firstStitch")[..3]);
        Assert.Equal([16.03375m, 38.25875m, 25.55875m], new[] { 0, 4, 5 }.Select(i => (decimal)plan["spacings"]![i]!["foldToFold"]!["mm"]!));
        Assert.Equal(["strip-other-width"], Codes(plan));
        Assert.Equal((8, 2, null), ((int)plan["lines"]![7]!["tuck"]!, (int)plan["lines"]![7]!["group"]!, plan["lines"]![7]!["half"]));
    }

    [Fact]
    public void The_answer_has_the_fields_of_the_contract_in_order()
    {
        var plan = Plan("""{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]}""");
        Assert.Equal(["finished", "cloth", "takeUp", "correctionPerTuck", "lines", "spacings", "cautions"], plan.Select(p => p.Key));
        Assert.Equal(
            ["tuck", "group", "half", "width", "firstStitch", "fold", "secondStitch", "finishedStitch", "finishedFold"],
            plan["lines"]![0]!.AsObject().Select(p => p.Key));
        Assert.Equal(["space", "stitchToStitch", "foldToFold"], plan["spacings"]![0]!.AsObject().Select(p => p.Key));
        Assert.Null(plan["correctionPerTuck"]);
    }

    [Theory]
    [InlineData("from-centre", "1 in", new[] { "3/4 in", "1 3/8 in", "2 5/8 in", "3 1/4 in" }, new[] { "5/8 in", "1 1/4 in", "5/8 in" }, "4 in")]
    [InlineData("towards-centre", "1 in", new[] { "5/8 in", "1 1/4 in", "2 3/4 in", "3 3/8 in" }, new[] { "5/8 in", "1 1/2 in", "5/8 in" }, "4 in")]
    [InlineData("towards-centre", "-1/8 in", new[] { "5/8 in", "1 1/4 in", "1 5/8 in", "2 1/4 in" }, new[] { "5/8 in", "3/8 in", "5/8 in" }, "2 7/8 in")]
    public void Centre_lies_show_one_half_and_its_mirror(string lies, string centre, string[] folds, string[] apart, string cloth)
    {
        var plan = Plan($$"""{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}],"centre":"{{centre}}","trail":"1/2 in","lies":"{{lies}}"}""");
        Assert.Equal(folds, plan.Texts("lines", "fold"));
        Assert.Equal(apart, plan.Texts("spacings", "foldToFold"));
        Assert.Equal(cloth, plan.Text("cloth"));
        Assert.Equal(centre, plan["spacings"]![1]!.Text("space"));
        Assert.Equal(["start", "start", "end", "end"], plan["lines"]!.AsArray().Select(l => (string)l!["half"]!));
    }

    [Fact]
    public void A_spacing_may_be_given_in_three_ways_and_means_the_same()
    {
        string Run(string spacing, string between) =>
            Plan($$"""{"groups":[{"tucks":3,"width":"1/8 in",{{spacing}}},{"tucks":2,"width":"1/4 in","space":"0 in"}],"between":[{{between}}]}""").ToJsonString();

        var plan = Run("\"space\":\"1/4 in\"", "\"1 in\"");
        Assert.Equal(plan, Run("\"stitchToStitch\":\"3/8 in\"", "{\"stitchToStitch\":\"1 1/8 in\"}"));
        Assert.Equal(plan, Run("\"foldToFold\":\"5/8 in\"", "{\"foldToFold\":\"1 1/2 in\"}"));
        Assert.Equal(plan, Run("\"space\":\"1/4 in\",\"foldToFold\":\"5/8 in\"", "{\"space\":{\"mm\":25.4},\"stitchToStitch\":\"1 1/8 in\"}"));
    }

    [Theory]
    [InlineData("{\"mm\":3.175}", "3.175 mm")]
    [InlineData("\"1/8 in\"", "1/8 in")]
    [InlineData("{\"mm\":3.175,\"text\":\"1/8 in\"}", "1/8 in")]
    public void Computed_lengths_are_shown_in_the_unit_of_the_first_length(string width, string shown)
    {
        var plan = Plan($$"""{"groups":[{"tucks":2,"width":{{width}},"space":"6 mm"}],"trail":"1 in"}""");
        Assert.Equal(shown, plan["lines"]![0]!.Text("width"));
        var turned = Plan($$"""{"trail":"1 in","groups":[{"tucks":2,"width":{{width}},"space":"6 mm"}]}""");
        Assert.Equal("1/8 in", turned["lines"]![0]!.Text("width"));
    }

    [Theory]
    [InlineData("towards-end", "-1/16 in", new[] { "hidden-stitching" })]
    [InlineData("towards-start", "-1/16 in", new[] { "hidden-stitching" })]
    [InlineData("from-centre", "-1/16 in", new[] { "hidden-stitching" })]
    [InlineData("towards-centre", "-1/16 in", new[] { "hidden-stitching" })]
    [InlineData("towards-end", "0 in", new string[0])]
    [InlineData("towards-centre", "0 in", new string[0])]
    public void Overlapping_tucks_hide_stitching(string lies, string space, string[] codes) =>
        Assert.Equal(codes, Codes(Plan($$"""{"groups":[{"tucks":3,"width":"1/8 in","space":"{{space}}"}],"lies":"{{lies}}"}""")));

    [Fact]
    public void A_tuck_of_which_nothing_is_seen_is_warned_of_by_its_number()
    {
        var plan = Plan("""{"groups":[{"tucks":1,"width":"1 in"},{"tucks":2,"width":"1/4 in","space":"1/8 in"}],"between":["-7/8 in"]}""");
        Assert.Equal(["hidden-tuck"], Codes(plan));
        Assert.Contains("tucks 2 to 3", (string)plan["cautions"]![0]!["text"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Folds_that_overlap_in_the_middle_are_warned_of()
    {
        var plan = Plan("""{"groups":[{"tucks":2,"width":"1/4 in","space":"1/4 in"}],"centre":"-1/8 in","lies":"towards-centre"}""");
        Assert.Equal(["folds-overlap"], Codes(plan));
    }

    [Theory]
    [InlineData("9 1/2 in", "", new string[0])]
    [InlineData("9 1/2 in", ",\"sewnWidth\":\"1/8 in\"", new string[0])]
    [InlineData("9 1/2 in", ",\"sewnWidth\":\"5/32 in\"", new[] { "strip-sewn-width" })]
    [InlineData("8 7/8 in", "", new string[0])]
    [InlineData("8 13/16 in", "", new[] { "strip-correction" })]
    [InlineData("10 3/16 in", "", new[] { "strip-correction" })]
    public void A_strip_that_looks_odd_is_warned_of(string finished, string more, string[] codes) =>
        Assert.Equal(codes, Codes(Plan($$$"""
            {"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}],"trail":"1 in","testStrip":{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"{{{finished}}}"{{{more}}}}}
            """)));

    private static IEnumerable<string> Codes(JsonNode plan) => plan["cautions"]!.AsArray().Select(c => (string)c!["code"]!);
}
