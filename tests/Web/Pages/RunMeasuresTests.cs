using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>What the piece page works out from measures as they were seen.</summary>
public class RunMeasuresTests
{
    [Fact]
    public void A_whole_run_and_the_narrowest_and_widest_tuck_give_the_mean_and_its_error()
    {
        // 10 tucks over 85 mm, 3 to 5 mm wide: width 4, repeat (85 - 4) / 9 = 9, so 5 mm between.
        var said = RunMeasures.Of(Run("""{"run":{"mm":85,"text":"85 mm"},"tucks":10,"widthLeast":{"mm":3,"text":"3 mm"},"widthMost":{"mm":5,"text":"5 mm"}}"""))!;
        Assert.Contains("width 4 mm ± 0.7", said, StringComparison.Ordinal);
        Assert.Contains("plain cloth between 5 mm ±", said, StringComparison.Ordinal);
        Assert.Contains("stitching to stitching 9 mm ±", said, StringComparison.Ordinal);
        Assert.Contains("read to 1 mm", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_alone_says_what_is_still_to_be_measured() =>
        Assert.Contains("measure also the width of a tuck", RunMeasures.Of(Run("""{"run":{"mm":85,"text":"85 mm"},"tucks":10}""")), StringComparison.Ordinal);

    [Fact]
    public void Without_a_count_no_mean_is_made_up() =>
        Assert.Contains("not recorded", RunMeasures.Of(Run("""{"run":{"mm":85,"text":"85 mm"}}""")), StringComparison.Ordinal);

    [Fact]
    public void A_run_that_was_not_measured_over_all_says_nothing() => Assert.Null(RunMeasures.Of(new JsonObject { ["kind"] = "tucks" }));

    [Theory]
    [InlineData("hem", "down", "towards-start", "turned down; so the tucks lie towards the start of the row.")]
    [InlineData("neck", "wearers-left", null, "turned to the wearer's left.")]
    [InlineData("waist", "standing", null, "they stand up.")]
    public void What_was_understood_is_said_in_a_sentence(string from, string turned, string? lies, string ending)
    {
        var run = new JsonObject { ["kind"] = "tucks", ["measuredFrom"] = from, ["turned"] = turned };
        if (lies is not null)
        {
            run["lies"] = lies;
        }

        Assert.EndsWith(ending, RunMeasures.Said(run), StringComparison.Ordinal);
        Assert.Contains($"the row starts at the {from}", RunMeasures.Said(run), StringComparison.Ordinal);
    }

    // 88 / 2.54 = 34.6, 84 / 2.54 = 33.1; 30 × 2.54 = 76.2.
    [Theory]
    [InlineData("threadsPerInch", """{"warp":88,"weft":84}""", "88 × 84 threads to the inch (34.6 × 33.1 to the cm)")]
    [InlineData("threadsPerCm", """{"warp":30}""", "30 (warp) threads to the cm (76.2 (warp) to the inch)")]
    [InlineData("threadsPerCm", "{}", "")]
    public void Threads_are_shown_as_counted_and_in_the_other_unit(string field, string count, string said) =>
        Assert.Equal(said, ThreadCount.Say(field, JsonNode.Parse(count)!.AsObject()));

    private static JsonObject Run(string over) => new() { ["kind"] = "tucks", ["over"] = JsonNode.Parse(over) };
}
