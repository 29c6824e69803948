using System.Globalization;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests;

public class TuckFaultTests
{
    private const string Pin = """ "tucks":3,"width":"1/8 in","space":"1/4 in" """;

    [Theory]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8","space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":3,"width":0.125,"space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":"three","width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":2.5,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":true,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{PIN,"colour":"white"}]}""", "groups[0].colour")]
    [InlineData("""{"groups":[{PIN}],"colour":null}""", "colour")]
    [InlineData("""{"groups":{PIN}}""", "groups")]
    [InlineData("""{"groups":"three"}""", "groups")]
    [InlineData("""{"groups":[17]}""", "groups[0]")]
    [InlineData("""{"groups":[null]}""", "groups[0]")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":"1 in"}""", "between")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[1]}""", "between[0]")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[null]}""", "between[0]")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[{"gap":"1 in"}]}""", "between[0].gap")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[{"space":"1"}]}""", "between[0].space")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[{"mm":25.4,"space":"1 in"}]}""", "between[0].space")]
    [InlineData("""{"groups":[{PIN}],"lies":4}""", "lies")]
    [InlineData("""{"groups":[{PIN}],"twinNeedle":"yes"}""", "twinNeedle")]
    [InlineData("""{"groups":[{PIN}],"testStrip":[]}""", "testStrip")]
    [InlineData("""{"groups":[{PIN}],"testStrip":{"tucks":1,"width":"1/8 in","flat":"2 in","finished":"1 in","c":0}}""", "testStrip.c")]
    [InlineData("[]", "")]
    [InlineData("17", "")]
    [InlineData("null", "")]
    public void What_can_not_be_read_is_named(string request, string path) => IsRefused(request, path, FaultKind.Unreadable);

    [Theory]
    [InlineData("{}", "groups")]
    [InlineData("""{"groups":null}""", "groups")]
    [InlineData("""{"groups":[]}""", "groups")]
    [InlineData("""{"groups":[{"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":3,"space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in"}]}""", "groups[0].space")]
    [InlineData("""{"groups":[{"tucks":0,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":-1,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":1001,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":1e400,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":99999999999999999999,"width":"1/8 in","space":"1/4 in"}]}""", "groups[0].tucks")]
    [InlineData("""{"groups":[{"tucks":3,"width":"0 in","space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":3,"width":"-1/8 in","space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":3,"width":"3000 yd","space":"1/4 in"}]}""", "groups[0].width")]
    [InlineData("""{"groups":[{"tucks":1000,"width":"900 m","space":"1/4 in"}]}""", "groups")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/4 in","stitchToStitch":"1/4 in"}]}""", "groups[0].stitchToStitch")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/4 in","foldToFold":"3/8 in"}]}""", "groups[0].foldToFold")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"-1/8 in"}]}""", "groups[0].space")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","stitchToStitch":"0 in"}]}""", "groups[0].stitchToStitch")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","foldToFold":"1/4 in"}]}""", "groups[0].foldToFold")]
    [InlineData("""{"groups":[{PIN},{"tucks":1,"width":"1/4 in"}],"between":["-1/8 in"]}""", "between[0]")]
    [InlineData("""{"groups":[{PIN},{"tucks":1,"width":"1/4 in"}],"between":["-1/4 in"],"lies":"towards-start"}""", "between[0]")]
    [InlineData("""{"groups":[{PIN},{PIN}],"between":[{}]}""", "between[0]")]
    [InlineData("""{"groups":[{PIN},{PIN}]}""", "between")]
    [InlineData("""{"groups":[{PIN}],"between":["1 in"]}""", "between")]
    [InlineData("""{"groups":[{PIN}],"lead":"-1 in"}""", "lead")]
    [InlineData("""{"groups":[{PIN}],"trail":"-1 in"}""", "trail")]
    [InlineData("""{"groups":[{PIN}],"lies":"upward"}""", "lies")]
    [InlineData("""{"groups":[{PIN}],"lies":"from-centre","lead":"0 in"}""", "lead")]
    [InlineData("""{"groups":[{PIN}],"centre":"0 in"}""", "centre")]
    [InlineData("""{"groups":[{PIN}],"centre":"1 in","lies":"towards-start"}""", "centre")]
    [InlineData("""{"groups":[{PIN}],"centre":"-1/64 in","lies":"from-centre"}""", "centre")]
    [InlineData("""{"groups":[{PIN}],"centre":"-1/4 in","lies":"towards-centre"}""", "centre")]
    [InlineData("""{"groups":[{PIN}],"testStrip":{"tucks":0,"width":"1/8 in","flat":"2 in","finished":"1 in"}}""", "testStrip.tucks")]
    [InlineData("""{"groups":[{PIN}],"testStrip":{"tucks":1,"width":"0 in","flat":"2 in","finished":"1 in"}}""", "testStrip.width")]
    [InlineData("""{"groups":[{PIN}],"testStrip":{"tucks":1,"width":"1/8 in","finished":"1 in"}}""", "testStrip.flat")]
    [InlineData("""{"groups":[{PIN}],"testStrip":{"tucks":4,"width":"1/8 in","flat":"2 in","finished":"2 in"}}""", "testStrip")]
    [InlineData("""{"groups":[{"tucks":20,"width":"1/8 in","space":"-5/32 in"}],"trail":"1/4 in","testStrip":{"tucks":4,"width":"1/8 in","flat":"2 in","finished":"3/4 in"}}""", "groups[0].space")]
    public void What_makes_no_sense_is_named(string request, string path) => IsRefused(request, path, FaultKind.Senseless);

    [Theory]
    [InlineData("towards-end", "trail")]
    [InlineData("towards-start", "lead")]
    [InlineData("from-centre", "trail")]
    public void A_strip_may_leave_no_cloth_outside_the_last_line(string lies, string path) =>
        IsRefused($$$"""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/4 in"}],"lies":"{{{lies}}}","testStrip":{"tucks":16,"width":"1/8 in","flat":"4 in","finished":"2 1/4 in"}}""", path, FaultKind.Senseless);

    [Fact]
    public void A_strip_narrows_how_far_tucks_may_overlap()
    {
        const string strip = """ "testStrip":{"tucks":16,"width":"1/8 in","flat":"4 in","finished":"1 in"} """;
        const string run = """{"groups":[{"tucks":3,"width":"1/8 in","space":"SPACE"}],"trail":"1 in",STRIP}""";
        Assert.NotNull(Plan(run.Replace("SPACE", "-1/32 in", StringComparison.Ordinal).Replace("STRIP", strip, StringComparison.Ordinal)));
        IsRefused(run.Replace("SPACE", "-1/16 in", StringComparison.Ordinal).Replace("STRIP", strip, StringComparison.Ordinal), "groups[0].space", FaultKind.Senseless);
    }

    [Fact]
    public void A_thousand_tucks_a_group_two_thousand_a_run_and_fifty_groups_are_the_most()
    {
        string Run(int groups, int tucks, string lies = "towards-end") =>
            $$"""{"groups":[{{string.Join(',', Enumerable.Repeat(string.Create(CultureInfo.InvariantCulture, $$"""{"tucks":{{tucks}},"width":"1/8 in","space":"0 in"}"""), groups))}}],"between":[{{string.Join(',', Enumerable.Repeat("\"0 in\"", groups - 1))}}],"lies":"{{lies}}"}""";

        Assert.Equal(2000, Plan(Run(2, 1000))["lines"]!.AsArray().Count);
        Assert.Equal(2000, Plan(Run(50, 40))["lines"]!.AsArray().Count);
        Assert.Equal(2000, Plan(Run(1, 1000, "from-centre"))["lines"]!.AsArray().Count);
        IsRefused(Run(3, 667), "groups", FaultKind.Senseless);
        IsRefused(Run(2, 501, "towards-centre"), "groups", FaultKind.Senseless);
        IsRefused(Run(51, 1), "groups", FaultKind.Senseless);
    }

    [Fact]
    public void Every_fault_is_told_at_once_with_whole_paths()
    {
        var faults = Refused(() => TuckPlan.Make(TuckRunJson.Read(System.Text.Json.Nodes.JsonNode.Parse(
            """{"groups":[{"tucks":0,"width":"-1 in","space":"1 in"},{"tucks":2,"width":"0 in","space":"1 in"}],"lead":"-1 in","centre":"1 in"}"""), "plan")));
        Assert.Equal(["plan.groups[0].tucks", "plan.between", "plan.groups[0].width", "plan.groups[1].width", "plan.lead", "plan.centre"], faults.Select(f => f.Path));
        Assert.All(faults, f => Assert.EndsWith(".", f.Message, StringComparison.Ordinal));
    }

    private static void IsRefused(string request, string path, FaultKind kind)
    {
        var faults = Refused(() => Plan(request.Replace("PIN", Pin, StringComparison.Ordinal)));
        Assert.Contains(faults, f => f.Path == path && f.Kind == kind);
        Assert.All(faults, f => Assert.InRange(f.Message.Length, 15, 300));
    }
}
