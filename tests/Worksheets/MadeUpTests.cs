using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Tests;

public class MadeUpTests
{
    private static readonly DateOnly Today = new(2026, 11, 25);

    /// <summary>
    /// 5 tucks of 1/8 in, 1/4 in between, 2 in before and after: 5 5/8 in planned from 6 7/8 in of cloth. Measured 5 7/16 in,
    /// it lost 1 7/16 in, 0.2875 in a tuck: 0.0375 in (0.9525 mm) more than twice the width.
    /// </summary>
    [Fact] public void The_difference_and_the_correction_come_out_as_by_hand()
    {
        var made = Entered(Examples.Made(Examples.Five()), "5 7/16 in");

        Assert.Equal("5 5/8 in", Text(made["planned"]));
        Assert.Equal("-3/16 in", Text(made["difference"]));
        Assert.Equal(0.9525m, made["correction"]!["mm"]!.GetValue<decimal>());
        Assert.Equal("""{"tucks":5,"width":"1/8 in","flat":"6 7/8 in","finished":"5 7/16 in"}""", Plain(made["testStrip"]!));
        Assert.Contains("3/16 in narrower", made["text"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact] public void The_corrected_worksheet_asks_for_as_much_more_cloth_as_was_lost()
    {
        var worksheet = Examples.Made(Examples.Five("""{"title":"Whitsun"}"""));
        var corrected = Corrected(worksheet, Entered(worksheet, "5 7/16 in")["testStrip"]!);

        Assert.Equal("5 5/8 in", Text(corrected.Result["plan"]!["finished"]));
        Assert.Equal("7 1/16 in", Text(corrected.Result["plan"]!["cloth"]));
        Assert.Equal(worksheet.Id, corrected.CorrectedFrom);
        Assert.NotEqual(worksheet.Id, corrected.Id);
        Assert.Equal("Whitsun", corrected.Title);
    }

    [Fact] public void Sewn_as_planned_it_corrects_nothing()
    {
        var made = Entered(Examples.Made(Examples.Five()), "5 5/8 in");
        Assert.Equal(0, made["correction"]!["mm"]!.GetValue<decimal>());
        Assert.Contains("as planned", made["text"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    /// <summary>1/8, 1/8 and 1/4 in: 7 3/4 in of cloth, 6 3/4 in planned. Measured 6 3/8 in, each tuck lost 1/8 in more: as 3 tucks of 1/8 in from 7 1/2 in.</summary>
    [Fact] public void Tucks_of_several_widths_stand_for_a_strip_of_the_commonest()
    {
        var worksheet = Examples.Made(Examples.TowardsStart);
        var made = Entered(worksheet, "6 3/8 in");

        Assert.Equal("1/8 in", Text(made["correction"]));
        Assert.Equal("""{"tucks":3,"width":"1/8 in","flat":"7 1/2 in","finished":"6 3/8 in"}""", Plain(made["testStrip"]!));
        Assert.Equal("8 1/8 in", Text(Corrected(worksheet, made["testStrip"]!).Result["plan"]!["cloth"]));
    }

    [Fact] public void The_strip_goes_into_every_section_that_has_tucks()
    {
        const string pin = """{"plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}]}}""";
        var request = Examples.Object($$"""{"sections":[{{pin}},{"insertion":{"width":"1 in","laidOn":false} },{{pin}}],"mirrored":true}""");
        var worksheet = Examples.Made(request);

        // By hand: 4 runs of 11/16 in and 2 in let in, 4 3/4 in; 12 tucks lost 1/32 in more each, 3/8 in in all.
        Assert.Equal("4 3/4 in", Text(worksheet.Result["finished"]));
        var made = Entered(worksheet, "4 3/8 in");
        Assert.Equal("1/32 in", Text(made["correction"]));
        var corrected = Corrected(worksheet, made["testStrip"]!);
        Assert.Equal("4 3/4 in", Text(corrected.Result["finished"]));
        Assert.Equal("4 5/8 in", Text(corrected.Result["cloth"])); // 2 3/4 + 12 × (1/8 + 1/32)
        Assert.NotNull(corrected.Request["sections"]![2]!["plan"]!["testStrip"]);
        Assert.Null(corrected.Request["sections"]![1]!["testStrip"]);
        Assert.Null(worksheet.Request["sections"]![0]!["plan"]!["testStrip"]);
    }

    [Fact] public void Twin_needle_tucks_give_a_strip_without_a_correction()
    {
        var worksheet = Examples.Made($$"""{"plan":{{TwinNeedleTests.Three}} }""");
        var made = Entered(worksheet, "36.2 mm"); // 38 mm of cloth: 0.6 mm a tuck instead of 0.5

        Assert.Null(made["correction"]);
        var plan = Corrected(worksheet, made["testStrip"]!).Result["plan"]!;
        Assert.Equal(["38 mm", "36.2 mm"], new[] { Text(plan["cloth"]), Text(plan["finished"]) });
    }

    [Theory]
    [InlineData("""{"finished":"5 in"}""", "date", false)]
    [InlineData("""{"date":"yesterday","finished":"5 in"}""", "date", false)]
    [InlineData("""{"date":"2031-01-01","finished":"5 in"}""", "date", false)]
    [InlineData("""{"date":20261125,"finished":"5 in"}""", "date", true)]
    [InlineData("""{"date":"2026-11-25"}""", "finished", false)]
    [InlineData("""{"date":"2026-11-25","finished":"5"}""", "finished", true)]
    [InlineData("""{"date":"2026-11-25","finished":"0 in"}""", "finished", false)]
    [InlineData("""{"date":"2026-11-25","finished":"7 in"}""", "finished", false)]
    [InlineData("""{"date":"2026-11-25","finished":"5 in","picture":"mine"}""", "picture", true)]
    [InlineData("""{"date":"2026-11-25","finished":"5 in","width":"1 in"}""", "width", true)]
    public void What_cannot_have_come_of_it_is_refused(string body, string path, bool unreadable)
    {
        var e = Assert.Throws<FaultException>(() => MadeUp.Read(Examples.Object(body), Examples.Made(Examples.Five()), Today));
        Assert.Equal(path, Assert.Single(e.Faults).Path);
        Assert.Equal(unreadable, e.Unreadable);
    }

    [Theory]
    [InlineData("{}", "testStrip")]
    [InlineData("""{"testStrip":7}""", "testStrip")]
    [InlineData("""{"testStrip":{"tucks":0,"width":"1/8 in","flat":"12 in","finished":"9 in"}}""", "testStrip.tucks")]
    [InlineData("""{"testStrip":{"tucks":5,"width":"1/8","flat":"12 in","finished":"9 in"}}""", "testStrip.width")]
    [InlineData("""{"testStrip":{"tucks":5,"width":"1/8 in","flat":"12 in","finished":"9 in"},"plan":{}}""", "plan")]
    public void A_strip_that_cannot_be_used_is_named_as_it_was_sent(string body, string path)
    {
        const string two = """{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]}}""";
        foreach (var worksheet in new[] { Examples.Made(Examples.Five()), Examples.Made($$"""{"sections":[{{two}},{{two}}]}""") })
        {
            var e = Assert.Throws<FaultException>(() => Correction.Make(worksheet, Examples.Object(body), null, Examples.Noon));
            Assert.Equal(path, Assert.Single(e.Faults).Path);
        }
    }

    private static JsonObject Entered(Worksheet worksheet, string finished) =>
        MadeUp.Read(Examples.Object($$"""{"date":"2026-11-25","cloth":"lawn","finished":"{{finished}}","note":"pressed"}"""), worksheet, Today).ToJson(worksheet);

    private static Worksheet Corrected(Worksheet worksheet, JsonNode strip) =>
        Correction.Make(worksheet, new JsonObject { ["testStrip"] = strip.DeepClone() }, null, Examples.Noon);

    private static string Plain(JsonNode strip) =>
        $$"""{"tucks":{{strip["tucks"]}},"width":"{{Text(strip["width"])}}","flat":"{{Text(strip["flat"])}}","finished":"{{Text(strip["finished"])}}"}""";

    private static string Text(JsonNode? length) => length!["text"]!.GetValue<string>();
}
