using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing.Tests;

public class FitTests
{
    private const string Yoke = """
        {"finished":"12 in","cloth":"18 in","tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/8 in"},
         "space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in",
         "like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    private static JsonObject Find(string request, bool onto = false) =>
        FitAnswerJson.Write(Fit.Find(FitRequestJson.Read(JsonNode.Parse(request), onto: onto)));

    [Fact]
    public void A_yoke_of_twelve_inches_can_be_tucked_in_24_ways_and_seventeen_keep_the_antiques_proportion()
    {
        var answer = Find(Yoke);
        Assert.True((bool)answer["fits"]!);
        Assert.Equal(24, (long)answer["count"]!);
        Assert.Equal(24, answer["arrangements"]!.AsArray().Count);
        var first = answer["arrangements"]![0]!;
        Assert.Equal(17, (int)first["tucks"]!);
        Assert.Equal(("1/8 in", "1/4 in", "2 15/16 in", "2 15/16 in", "12 in", "16 1/4 in"), (first.Text("width"), first.Text("space"), first.Text("lead"), first.Text("trail"), first.Text("finished"), first.Text("cloth")));
        Assert.Null(answer["reason"]);
        Assert.Empty(answer["nearest"]!.AsArray());
    }

    [Theory]
    [InlineData("\"cloth\":\"18 in\"", "\"cloth\":\"13 in\"", "Not enough cloth: the least that any arrangement of 12 in needs is 14 3/4 in, and there are 13 in.", "finished,cloth")]
    [InlineData("\"to\":20", "\"to\":8", "Too little: at most 8 of 1/8 in with spaces of 1/2 in and ends of 3 in finish at 10 1/2 in, short of 12 in.", "finished,tucks,space,width,ends")]
    [InlineData("\"finished\":\"12 in\"", "\"finished\":\"3 in\"", "Too much: at least 6 of 1/8 in with spaces of 1/8 in and ends of 1 in finish at 3 3/8 in, beyond 3 in.", "finished,tucks,space,width,ends")]
    [InlineData("\"finished\":\"12 in\"", "\"finished\":\"305 mm\"", "305 mm is not a whole number of 1/16 in, and whatever is made of whole widths, spaces and ends is.", "finished")]
    [InlineData("\"from\":\"1/8 in\",\"to\":\"1/8 in\"", "\"from\":\"9/64 in\",\"to\":\"11/64 in\"", "No whole number of 1/16 in lies between 9/64 in and 11/64 in: there is no width to choose.", "width")]
    public void What_does_not_fit_is_proved_and_the_nearest_given(string part, string instead, string reason, string nearest)
    {
        var answer = Find(Yoke.Replace(part, instead, StringComparison.Ordinal));
        Assert.False((bool)answer["fits"]!);
        Assert.Equal(0, (long)answer["count"]!);
        Assert.Empty(answer["arrangements"]!.AsArray());
        Assert.Equal(reason, (string?)answer["reason"]);
        Assert.Equal(nearest, string.Join(',', answer["nearest"]!.AsArray().Select(n => (string)n!["change"]!)));
    }

    [Fact]
    public void Between_two_widths_that_can_be_made_there_may_be_nothing()
    {
        var answer = Find("""
            {"finished":"2 1/16 in","tucks":{"from":4,"to":4},"width":{"from":"1/8 in","to":"1/8 in"},"space":{"from":"1/4 in","to":"1/4 in"},
             "ends":{"from":"0 in","to":"3 in"},"finest":"1/16 in"}
            """);
        Assert.Equal("Whole numbers of 1/16 in in these ranges add up to 2 in or 2 1/8 in, and to nothing between: 2 1/16 in can't be made.", (string?)answer["reason"]);
        Assert.Equal(["finished", "space"], answer["nearest"]!.AsArray().Select(n => (string)n!["change"]!));
        Assert.Equal("2 in", answer["nearest"]![0]!.Text("finished"));
    }

    [Fact]
    public void A_strip_that_forbids_everything_is_the_reason()
    {
        var answer = Find("""
            {"finished":"2 in","tucks":{"from":4,"to":4},"width":{"from":"1/8 in","to":"1/8 in"},"space":{"from":"0 in","to":"0 in"},
             "ends":{"from":"0 in","to":"3 in"},"finest":"1/16 in","testStrip":{"tucks":4,"width":"1/8 in","flat":"2 in","finished":"1 1/2 in"}}
            """);
        Assert.StartsWith("With the strip's correction of -1/8 in a tuck", (string?)answer["reason"], StringComparison.Ordinal);
    }

    [Fact]
    public void A_strip_that_forbids_everything_leaves_the_sums_to_be_told()
    {
        var answer = Find("""
            {"finished":"6 mm","tucks":{"from":2,"to":2},"width":{"from":"1 mm","to":"1 mm"},"space":{"from":"3 mm","to":"3 mm"},
             "ends":{"from":"0 mm","to":"1 mm"},"finest":"1 mm","testStrip":{"tucks":1,"width":"5 mm","flat":"20 mm","finished":"19 mm"}}
            """);
        Assert.Equal("Whole numbers of 1 mm in these ranges add up to 5 mm or 7 mm, and to nothing between: 6 mm can't be made.", (string?)answer["reason"]);
    }

    [Fact]
    public void A_centre_in_which_the_lines_would_cross_is_the_reason()
    {
        var answer = Find("""
            {"finished":"4 mm","tucks":{"from":4,"to":4},"width":{"from":"1 mm","to":"1 mm"},"space":{"from":"3 mm","to":"8 mm"},
             "ends":{"from":"0 mm","to":"0 mm"},"finest":"1 mm","lies":"towards-centre","centre":"-10 mm"}
            """, onto: true);
        Assert.StartsWith("With a centre of -10 mm the lines in the middle would cross", (string?)answer["reason"], StringComparison.Ordinal);
    }

    [Fact]
    public void More_than_a_kilometre_of_cloth_is_the_reason()
    {
        var answer = Find("""
            {"finished":"900 m","tucks":{"from":1,"to":1},"width":{"from":"60 m","to":"60 m"},"ends":{"from":"420 m","to":"420 m"},"finest":"1 mm"}
            """);
        Assert.Equal("Whatever adds up to 900000 mm needs more than 1 km of cloth: lengths here go up to 1 km.", (string?)answer["reason"]);
    }

    [Fact]
    public void One_tuck_has_no_space_and_counts_once()
    {
        var answer = Find("""
            {"finished":"1 in","tucks":{"from":1,"to":1},"width":{"from":"1/4 in","to":"1/4 in"},"space":{"from":"0 in","to":"1 in"},
             "ends":{"from":"0 in","to":"1 in"},"finest":"1/16 in"}
            """);
        Assert.Equal(1, (long)answer["count"]!);
        Assert.Null(answer["arrangements"]![0]!["space"]);
        Assert.Equal("3/8 in", answer["arrangements"]![0]!.Text("lead"));
    }

    [Theory]
    [InlineData("""{"lies":"from-centre"}""", 4, "1/4 in", "1/8 in")]
    [InlineData("""{"lies":"from-centre","centre":"1/2 in"}""", 4, "1/8 in", "1/8 in")]
    [InlineData("""{"lies":"towards-centre","centre":"-1/8 in","tucks":{"from":2,"to":3}}""", 2, null, "13/16 in")]
    public void A_centre_lie_takes_even_counts_and_its_centre(string more, int tucks, string? space, string ends)
    {
        var request = JsonNode.Parse("""
            {"finished":"2 in","tucks":{"from":3,"to":5},"width":{"from":"1/4 in","to":"1/4 in"},"space":{"from":"1/8 in","to":"1/4 in"},
             "ends":{"from":"1/8 in","to":"1 in"},"finest":"1/16 in","like":{"tucks":4,"width":"1/4 in","space":"1/4 in"}}
            """)!.AsObject();
        foreach (var (name, value) in JsonNode.Parse(more)!.AsObject())
        {
            request[name] = value?.DeepClone();
        }

        var read = FitRequestJson.Read(request, onto: true);
        var best = Fit.Find(read).Arrangements[0];
        Assert.Equal((tucks, space, ends, ends), (best.Tucks, best.Space?.ToText(LengthUnit.Inches), best.Lead.ToText(LengthUnit.Inches), best.Trail.ToText(LengthUnit.Inches)));
        var plan = TuckPlan.Make(read.RunOf(best));
        Assert.Equal((best.Finished, best.Cloth), (plan.Finished, plan.Cloth));
    }

    [Fact]
    public void Wide_ranges_are_counted_not_listed()
    {
        var answer = Find("""
            {"finished":"12 in","tucks":{"from":1,"to":1000},"width":{"from":"1/64 in","to":"12 in"},"space":{"from":"0 in","to":"12 in"},
             "ends":{"from":"0 in","to":"6 in"},"finest":"1/64 in","unevenEnds":true}
            """);
        Assert.Equal(50, answer["arrangements"]!.AsArray().Count);
        Assert.Equal(Everything(768, 384), (long)answer["count"]!);
    }

    /// <summary>The same counted another way: all widths, spaces and leads for each count, the trail being what is left.</summary>
    private static long Everything(int finished, int mostEnd)
    {
        long count = 0;
        for (var tucks = 1; tucks <= 1000; tucks++)
        {
            for (var width = 1; tucks * width <= finished; width++)
            {
                for (var space = 0; (tucks * width) + ((tucks - 1) * space) <= finished && (space == 0 || tucks > 1); space++)
                {
                    var ends = finished - (tucks * width) - ((tucks - 1) * space);
                    for (var lead = 0; lead <= Math.Min(ends, mostEnd); lead++)
                    {
                        count += ends - lead <= mostEnd ? 1 : 0;
                    }
                }
            }
        }

        return count;
    }
}
