using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets.Tests;

public class TwinNeedleTests
{
    /// <summary>3 tucks, gap 2 mm, 8 mm from line to line, 10 mm before and after; by the strip (100 - 95)/10 a tuck takes up 0.5 mm.</summary>
    internal const string Three = """
        {"twinNeedle":true,"groups":[{"tucks":3,"width":"2 mm","foldToFold":"8 mm"}],"lead":"10 mm","trail":"10 mm",
         "testStrip":{"tucks":10,"width":"2 mm","flat":"100 mm","finished":"95 mm"}}
        """;

    [Fact] public void The_lines_fall_where_the_sum_by_hand_says()
    {
        var worksheet = Examples.Made($$"""{"plan":{{Three}} }""");

        // First lines at 10, 18, 26; the line to follow 1 mm on; cloth 28 + 10, finished 3 × 0.5 less.
        Assert.Equal(["10 mm", "18 mm", "26 mm"], Examples.Positions(worksheet, "fromDatum", 0));
        Assert.Equal(["11 mm", "19 mm", "27 mm"], Examples.Positions(worksheet, "fromDatum", 1));
        Assert.Equal(["12 mm", "20 mm", "28 mm"], Examples.Positions(worksheet, "fromDatum", 2));
        Assert.Equal("38 mm", worksheet.Result["plan"]!["cloth"]!["text"]!.GetValue<string>());
        Assert.Equal("36.5 mm", worksheet.Result["plan"]!["finished"]!["text"]!.GetValue<string>());
        Assert.All(worksheet.Result["positions"]!["rows"]!.AsArray(), r => Assert.Equal("line to follow", r!["lines"]![1]!["what"]!.GetValue<string>()));
    }

    [Fact] public void It_has_no_notched_gauge_no_fold_and_a_line_to_follow()
    {
        var worksheet = Examples.Made($$"""{"plan":{{Three}} }""");

        Assert.Empty(worksheet.Result["gauges"]!.AsArray());
        Assert.Null(worksheet.Result["lies"]);
        Assert.True(worksheet.Result["rule"]!["inPrint"]!.GetValue<bool>());
        Assert.Contains(worksheet.Result["steps"]!.AsArray(), s => s!["text"]!.GetValue<string>().StartsWith("Tuck 2: keep the middle between the needles on line 2 (19 mm from the start of the run)", StringComparison.Ordinal));
        Assert.DoesNotContain(worksheet.Result["steps"]!.AsArray(), s => s!["text"]!.GetValue<string>().Contains("fold on line", StringComparison.Ordinal));
        var svg = WorksheetDiagram.Svg(worksheet);
        Assert.DoesNotContain("class=\"fold\"", svg, StringComparison.Ordinal);
        Assert.Contains("class=\"foldfine\"", svg, StringComparison.Ordinal);
    }

    [Fact] public void In_a_mirrored_whole_both_lines_are_mirrored_when_sewn_too()
    {
        var result = Examples.Made($$"""{"sections":[{"plan":{{Three}} }],"mirrored":true}""").Result;
        var lines = result["lines"]!.AsArray();

        // The right half when sewn: first line of its first tuck at 36.5 + 10, its second 2 - 0.5 further on.
        Assert.Equal(46.5m, Mm(lines[3]!["finishedStitch"]));
        Assert.Equal(48m, Mm(lines[3]!["finishedSecondStitch"]));
        Assert.Equal(73 - 48m, Mm(lines[2]!["finishedStitch"]));
        Assert.Equal(73 - 46.5m, Mm(lines[2]!["finishedSecondStitch"]));
        Assert.Equal(76 - 50m, Mm(lines[2]!["firstStitch"]));
    }

    private static decimal Mm(JsonNode? length) => length!["mm"]!.GetValue<decimal>();
}
