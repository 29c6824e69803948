using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Sizes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sizes;

public class MeasuredRunTests
{
    private static readonly Length Sixteenth = Length.FromSixtyFourthsOfInch(4);

    private static JsonObject Of(string request) => AllSums.Find("measured-run")!.Of(JsonNode.Parse(request)).ToJson();

    private static RunReadings Readings(Length width, Length space, Length tape, params int[] tucks) => new(
        [.. tucks.Select(n => new RunReading((n * width) + ((n - 1) * space), n, null, null))], [], [width], [], tape);

    [Fact]
    public void What_was_measured_without_fault_is_found_again() => Gen.Select(Gen.Int[1, 40], Gen.Int[0, 60], Gen.Int[2, 60], Gen.Int[2, 60]).Sample((w, s, n, m) =>
    {
        var (width, space) = (Length.FromMillimetres(w / 4m), Length.FromMillimetres(s / 4m));
        var run = MeasuredRun.Of(Readings(width, space, Length.FromMillimetres(1), n, m));
        Assert.InRange((run.Width!.Value - width).Nanometres, -2, 2);
        Assert.InRange((run.Space!.Value - space).Nanometres, -2, 2);
        Assert.InRange(run.Disagreement!.Value, 0, 1e-6);
        Assert.InRange(run.Markings.Sum(x => x.Share), 1 - 1e-9, 1 + 1e-9);
    });

    [Fact]
    public void The_error_of_a_repeat_is_that_of_the_tape_shared_among_the_tucks() => Gen.Int[1, 100].Sample(n =>
    {
        var run = MeasuredRun.Of(new([], [new(n * Length.FromMillimetres(9), n)], [], [], Length.FromMillimetres(1)));
        Assert.Null(run.Width);
        Assert.Equal(Length.FromMillimetres(9), run.Repeat.Value);
        Assert.InRange((double)run.Repeat.Error.Millimetres - (1 / Math.Sqrt(6) / n), -1e-6, 1e-6);
    });

    /// <summary>Readings rounded to the tape, thousands of times: the error told is the error made.</summary>
    [Fact]
    public void In_two_cases_of_three_the_truth_lies_within_the_error()
    {
        var random = new Random(1908);
        var within = 0;
        const int times = 3000;
        for (var i = 0; i < times; i++)
        {
            var (width, space) = (2 + (3 * random.NextDouble()), 3 + (5 * random.NextDouble()));
            var run = MeasuredRun.Of(new(
                [new(Read((9 * (width + space)) + width), 10, null, null), new(Read((14 * (width + space)) + width), 15, null, null)],
                [], [Read(width), Read(width), Read(width), Read(width)], [], Length.FromMillimetres(1)));
            within += Math.Abs((double)run.Space!.Value.Millimetres - space) <= (double)run.Space.Error.Millimetres ? 1 : 0;
        }

        Assert.InRange(within / (double)times, 0.62, 0.85);

        Length Read(double length)
        {
            var start = random.NextDouble();
            return Length.FromMillimetres(Math.Max(1, Math.Round((decimal)(length + start)) - Math.Round((decimal)start)));
        }
    }

    [Fact]
    public void A_finer_tape_and_more_tucks_tell_more()
    {
        var coarse = MeasuredRun.Of(Readings(2 * Sixteenth, 4 * Sixteenth, Sixteenth, 5));
        var fine = MeasuredRun.Of(Readings(2 * Sixteenth, 4 * Sixteenth, Length.FromSixtyFourthsOfInch(1), 5));
        var longer = MeasuredRun.Of(Readings(2 * Sixteenth, 4 * Sixteenth, Sixteenth, 50));
        Assert.True(fine.Space!.Error < coarse.Space!.Error && longer.Repeat.Error < coarse.Repeat.Error);
        Assert.Equal("1/8 in", fine.Markings[0].Name);
        Assert.True(fine.Markings[0].Share > coarse.Markings[0].Share);
    }

    [Theory]
    [InlineData("1/8 in", "1/4 in", "1/8 in")]
    [InlineData("1/16 in", "3/16 in", "1/16 in")]
    [InlineData("3/32 in", "5/32 in", "1/32 in")]
    [InlineData("3 mm", "7 mm", "1 mm")]
    [InlineData("5 mm", "10 mm", "5 mm")]
    [InlineData("2.717 mm", "4.351 mm", "by eye")]
    public void The_coarsest_marking_that_agrees_is_the_likeliest(string width, string space, string marking)
    {
        Assert.True(Length.TryParse(width, out var w, out _) & Length.TryParse(space, out var s, out _));
        var run = MeasuredRun.Of(new([new((20 * w) + (19 * s), 20, w, w)], [new(30 * (w + s), 30)], [w, w, w, w], [s, s, s, s], Length.FromMillimetres(0.1m)));
        Assert.Equal(marking, run.Markings[0].Name);
        if (marking != "by eye")
        {
            Assert.Equal((w, s), (run.Markings[0].Width, run.Markings[0].Space));
        }
    }

    [Fact]
    public void The_records_over_and_a_count_are_weighed_together()
    {
        var answer = Of(AllSums.Find("measured-run")!.Example);
        Assert.Equal("by 1/8 in", (string?)answer["marking"]);
        Assert.Equal(("1/8 in", "1/4 in"), (answer.Text("markedWidth"), answer.Text("markedSpace")));
        Assert.Equal(9, answer["markings"]!.AsArray().Count);
        Assert.Empty(answer["cautions"]!.AsArray());
    }

    [Fact]
    public void Measurements_that_disagree_are_warned_of_and_widen_the_error()
    {
        var answer = Of("""{"counts":[{"over":"3 in","tucks":8},{"over":"4 in","tucks":8}]}""");
        Assert.Equal("measures-disagree", (string?)Assert.Single(answer["cautions"]!.AsArray())!["code"]);
        Assert.Null(answer["width"]);
        Assert.True((decimal)answer["stitchToStitchError"]!["mm"]! > 1);
    }

    [Fact]
    public void An_overlap_is_said_to_be_one()
    {
        var answer = Of("""{"over":[{"run":"2 in","tucks":8,"widthLeast":"1/2 in","widthMost":"1/2 in"}]}""");
        Assert.Equal("overlap", (string?)Assert.Single(answer["cautions"]!.AsArray())!["code"]);
    }

    [Theory]
    [InlineData("{}", "over")]
    [InlineData("""{"over":[{"run":"2 in","tucks":8}]}""", "over")]
    [InlineData("""{"over":[{"run":"2 in","tucks":8,"widthLeast":"1/4 in","widthMost":"1/8 in"}]}""", "over[0].widthLeast")]
    [InlineData("""{"over":[{"run":"2 in","tucks":3}],"counts":[{"over":"4 in","tucks":3}]}""", "over")]
    [InlineData("""{"over":[{"run":"2 in","tucks":8,"widthLeast":"3 in"}]}""", "over[0].widthLeast")]
    [InlineData("""{"over":[{"run":"2 in","tucks":8}],"widths":["3 in"]}""", "over")]
    public void What_can_not_tell_is_refused_with_what_would_help(string request, string path)
    {
        var refused = Assert.Throws<FaultException>(() => Of(request));
        Assert.False(refused.Unreadable);
        Assert.Equal(path, Assert.Single(refused.Faults).Path);
    }
}
