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
        Assert.Equal(["2 in", "2 3/8 in", "3 1/2 in"], plan.Texts("lines", "finishedFold"));
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
    }
}
