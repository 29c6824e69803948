using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Sizes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests.Sizes;

public class ScalingTests
{
    private static readonly Length Sixteenth = Length.FromSixtyFourthsOfInch(4);

    private static readonly Gen<(EvenRun Antique, Length Finished)> GenRun = Gen.Select(Gen.Int[1, 30], Gen.Int[1, 16], Gen.Int[0, 24], Gen.Int[0, 40], Gen.Int[1, 900],
        (tucks, width, space, ends, finished) => (new EvenRun(tucks, width * Sixteenth, space * Sixteenth, ends * Sixteenth), finished * Sixteenth));

    private static JsonObject Of(string request) => AllSums.Find("scaling")!.Of(JsonNode.Parse(request)).ToJson();

    [Fact]
    public void Every_way_adds_up_to_the_new_width_on_the_marking() => GenRun.Sample(x =>
    {
        foreach (var way in Enum.GetValues<ScalingWay>())
        {
            if (Scaling.Make(way, x.Antique, x.Finished, Sixteenth) is { } run)
            {
                Assert.Equal(x.Finished, run.Finished);
                Assert.Equal(Length.Zero, run.Off);
                Assert.All([run.Width, run.Space, run.Lead, run.Trail], part => Assert.Equal(0, part.Nanometres % Sixteenth.Nanometres));
                Assert.InRange((run.Trail - run.Lead).Nanometres, 0, Sixteenth.Nanometres);
                var plan = TuckPlan.Make(run.Run);
                Assert.Equal((run.Finished, run.Cloth), (plan.Finished, plan.Cloth));
            }
            else
            {
                Assert.True(way == ScalingWay.ScaleAll || (way == ScalingWay.KeepTuck ? 1 : x.Antique.Tucks) * x.Antique.Width > x.Finished);
            }
        }
    }, iter: 1000);

    [Fact]
    public void The_size_it_has_changes_nothing() => GenRun.Sample(x =>
    {
        foreach (var way in Enum.GetValues<ScalingWay>())
        {
            var run = Scaling.Make(way, x.Antique, x.Antique.Finished, Sixteenth)!;
            Assert.Equal((x.Antique.Tucks, x.Antique.Width, x.Antique.Ends, x.Antique.Ends), (run.Tucks, run.Width, run.Lead, run.Trail));
            Assert.True(run.Tucks == 1 || run.Space == x.Antique.Space);
        }
    }, iter: 1000);

    [Fact]
    public void Twice_the_size_scaled_is_twice_of_everything() => GenRun.Sample(x =>
    {
        var run = Scaling.Make(ScalingWay.ScaleAll, x.Antique, 2 * x.Antique.Finished, Sixteenth)!;
        Assert.Equal((x.Antique.Tucks, 2 * x.Antique.Width, 2 * x.Antique.Ends), (run.Tucks, run.Width, run.Lead));
    }, iter: 500);

    [Fact]
    public void The_kept_tuck_takes_the_count_whose_ends_lie_nearest_to_their_proportion() => GenRun.Sample(x =>
    {
        if (x.Antique.Tucks > 1 && Scaling.Make(ScalingWay.KeepTuck, x.Antique, x.Finished, Sixteenth) is { } run)
        {
            Assert.Equal((x.Antique.Width, run.Tucks > 1 ? x.Antique.Space : Length.Zero), (run.Width, run.Space));
            var aim = 2 * x.Antique.Ends.Millimetres * x.Finished.Millimetres / x.Antique.Finished.Millimetres;
            var off = Math.Abs((run.Lead + run.Trail).Millimetres - aim);
            for (var tucks = 1; tucks < 1000; tucks++)
            {
                var ends = x.Finished - (tucks * x.Antique.Width) - ((tucks - 1) * x.Antique.Space);
                Assert.True(ends < Length.Zero || Math.Abs(ends.Millimetres - aim) >= off - 0.00001m);
            }
        }
    }, iter: 300);

    [Fact]
    public void A_dolls_run_is_made_again_for_a_child_in_three_ways()
    {
        var answer = Of(AllSums.Find("scaling")!.Example);
        Assert.Equal("5 1/8 in", answer.Text("antiqueFinished"));
        Assert.Empty(answer["cautions"]!.AsArray());
        var ways = answer["ways"]!.AsArray().ToDictionary(w => (string)w!["way"]!, w => w!);
        Assert.Equal((14, "1/8 in", "1/4 in"), ((int)ways["keep-tuck"]["tucks"]!, ways["keep-tuck"].Text("width"), ways["keep-tuck"].Text("space")));
        Assert.Equal((9, "1/8 in"), ((int)ways["keep-count"]["tucks"]!, ways["keep-count"].Text("width")));
        Assert.Equal((9, "3/16 in", "3/8 in"), ((int)ways["scale-all"]["tucks"]!, ways["scale-all"].Text("width"), ways["scale-all"].Text("space")));
        Assert.All(ways.Values, w => Assert.True((bool)w["exact"]!));
        Assert.Contains("9 tucks become 14", (string?)ways["keep-tuck"]["changes"], StringComparison.Ordinal);
        Assert.Contains("width 1/8 in", (string?)ways["keep-tuck"]["keeps"], StringComparison.Ordinal);
    }

    [Fact]
    public void A_width_off_the_marking_is_said_to_be_the_nearest()
    {
        var ways = Of("""{"tucks":9,"width":"1/8 in","space":"1/4 in","ends":"1 in","finished":"200 mm","finest":"1/16 in"}""")["ways"]!.AsArray();
        Assert.All(ways, w =>
        {
            Assert.False((bool)w!["exact"]!);
            Assert.StartsWith("Nearest: it finishes ", (string?)w["says"], StringComparison.Ordinal);
            Assert.Equal("7 7/8 in", w.Text("finished"));
        });
    }

    [Fact]
    public void Tucks_too_wide_for_the_new_size_are_said_to_be_so()
    {
        var ways = Of("""{"tucks":12,"width":"1/2 in","space":"1/2 in","ends":"1 in","finished":"4 in"}""")["ways"]!.AsArray();
        Assert.Equal("Not possible: 12 tucks of 1/2 in alone come to 6 in, wider than 4 in.", (string?)ways[1]!["says"]);
        Assert.True((bool)ways[0]!["exact"]! && (bool)ways[2]!["exact"]!);
    }

    [Fact]
    public void Tucks_too_fine_for_the_marking_are_said_to_be_too_wide_as_they_are_drawn_to_it()
    {
        var ways = Of("""{"tucks":10,"width":"1/64 in","finished":"1/2 in","finest":"1/16 in"}""")["ways"]!.AsArray();
        Assert.All(ways.Skip(1), w => Assert.Equal("Not possible: 10 tucks of 1/16 in alone come to 5/8 in, wider than 1/2 in.", (string?)w!["says"]));
    }

    [Fact]
    public void Measures_that_do_not_add_up_and_cloth_that_does_not_reach_are_warned_of()
    {
        var answer = Of("""{"tucks":9,"width":"1/8 in","space":"1/4 in","ends":"1 in","measured":"5 1/4 in","finished":"8 in","cloth":"10 1/2 in"}""");
        Assert.Equal(["does-not-add-up", "not-enough-cloth", "not-enough-cloth"], answer["cautions"]!.AsArray().Select(c => (string)c!["code"]!));
    }
}
