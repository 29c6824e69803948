using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests;

public class TwinNeedleTests
{
    private const string Strip = """ "testStrip":{"tucks":10,"width":"2 mm","flat":"100 mm","finished":"95 mm"} """;

    [Fact]
    public void Lines_are_spaced_on_the_flat_cloth_and_the_strip_says_what_is_taken_up()
    {
        var plan = Plan($$"""
            {"groups":[{"tucks":2,"width":"2 mm","foldToFold":"8 mm"},{"tucks":1,"width":"2 mm"}],"between":[{"foldToFold":"20 mm"}],
             "lead":"10 mm","trail":"5 mm","twinNeedle":true,{{Strip}}}
            """);
        Assert.Equal(["10 mm", "18 mm", "38 mm"], plan.Texts("lines", "firstStitch"));
        Assert.Equal(["11 mm", "19 mm", "39 mm"], plan.Texts("lines", "fold"));
        Assert.Equal(["12 mm", "20 mm", "40 mm"], plan.Texts("lines", "secondStitch"));
        Assert.Equal(["10 mm", "17.5 mm", "37 mm"], plan.Texts("lines", "finishedStitch"));
        Assert.Equal(["10.75 mm", "18.25 mm", "37.75 mm"], plan.Texts("lines", "finishedFold"));
        Assert.Equal(("45 mm", "1.5 mm", "43.5 mm"), (plan.Text("cloth"), plan.Text("takeUp"), plan.Text("finished")));
        Assert.Equal(["6 mm", "18 mm"], plan.Texts("spacings", "space"));
        Assert.Equal(["7.5 mm", "19.5 mm"], plan.Texts("spacings", "stitchToStitch"));
        Assert.Equal(["8 mm", "20 mm"], plan.Texts("spacings", "foldToFold"));
        Assert.Null(plan["correctionPerTuck"]);
        Assert.Empty(plan["cautions"]!.AsArray());
    }

    [Fact]
    public void Halves_are_rounded_down_to_the_nanometre()
    {
        var plan = Plan("""
            {"groups":[{"tucks":1,"width":{"mm":2.000001}}],"twinNeedle":true,
             "testStrip":{"tucks":1,"width":{"mm":2.000001},"flat":"3.000001 mm","finished":"2 mm"}}
            """);
        Assert.Equal(1.000000m, (decimal)plan["lines"]![0]!["fold"]!["mm"]!);
        Assert.Equal(0.500000m, (decimal)plan["lines"]![0]!["finishedFold"]!["mm"]!);
    }

    [Fact]
    public void Of_the_strips_warnings_only_another_width_applies()
    {
        var plan = Plan("""
            {"groups":[{"tucks":2,"width":"2 mm","foldToFold":"8 mm"}],"twinNeedle":true,
             "testStrip":{"tucks":10,"width":"1.6 mm","sewnWidth":"2 mm","flat":"100 mm","finished":"95 mm"}}
            """);
        Assert.Equal("strip-other-width", (string)Assert.Single(plan["cautions"]!.AsArray())!["code"]!);
    }

    [Theory]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm","foldToFold":"8 mm"}],"twinNeedle":true}""", "testStrip")]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm","foldToFold":"8 mm"}],"twinNeedle":true,"lies":"towards-end",STRIP}""", "lies")]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm","space":"8 mm"}],"twinNeedle":true,STRIP}""", "groups[0].space")]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm","stitchToStitch":"8 mm"}],"twinNeedle":true,STRIP}""", "groups[0].stitchToStitch")]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm"}],"twinNeedle":true,STRIP}""", "groups[0].foldToFold")]
    [InlineData("""{"groups":[{"tucks":2,"width":"2 mm","foldToFold":"1.9 mm"}],"twinNeedle":true,STRIP}""", "groups[0].foldToFold")]
    [InlineData("""{"groups":[{"tucks":1,"width":"2 mm"},{"tucks":1,"width":"3 mm"}],"between":[{"foldToFold":"8 mm"}],"twinNeedle":true,STRIP}""", "groups[1].width")]
    [InlineData("""{"groups":[{"tucks":1,"width":"2 mm"},{"tucks":1,"width":"2 mm"}],"between":["8 mm"],"twinNeedle":true,STRIP}""", "between[0]")]
    [InlineData("""{"groups":[{"tucks":1,"width":"2 mm"}],"centre":"1 mm","twinNeedle":true,STRIP}""", "centre")]
    [InlineData("""{"groups":[{"tucks":1,"width":"0.5 mm"}],"twinNeedle":true,STRIP}""", "testStrip")]
    public void What_a_twin_needle_can_not_do_is_refused(string request, string path)
    {
        var fault = Assert.Single(Refused(() => Plan(request.Replace("STRIP", Strip, StringComparison.Ordinal))));
        Assert.Equal((path, FaultKind.Senseless), (fault.Path, fault.Kind));
    }
}
