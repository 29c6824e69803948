using CsCheck;
using HeirloomArchive.Sewing.Fullness;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

/// <summary>What is special to each kind of tuck.</summary>
public class KindsTests
{
    [Fact]
    public void Growth_tucks_of_their_own_widths_are_let_out_in_their_order()
    {
        var answer = Ask("growth", """{"widths":["1 in","3/4 in","1/2 in"],"length":"20 in","letOut":2}""");
        Assert.Equal(["0 in", "2 in", "3 1/2 in", "4 1/2 in"], answer.Column("letOut", "gain"));
        Assert.Equal(("3 1/2 in", "23 1/2 in", "4 1/2 in"), (answer.Figure("gainLetOut"), answer.Figure("lengthLetOut"), answer.Figure("gainAll")));
    }

    [Fact]
    public void A_length_wanted_says_how_many_to_let_out()
    {
        var answer = Ask("growth", """{"widths":["1 in","3/4 in","1/2 in"],"length":"20 in","wanted":"23 in"}""");
        Assert.Equal(("2", "1/2 in"), (answer.Figure("tucksForWanted"), answer.Figure("over")));
        Assert.Equal("0", Ask("growth", """{"tucks":2,"width":"1 in","length":"20 in","wanted":"19 in"}""").Figure("tucksForWanted"));
    }

    [Theory]
    [InlineData("""{"length":"20 in"}""", "tucks", "Give tucks and width, or widths")]
    [InlineData("""{"widths":["1 in"],"width":"1 in"}""", "width", "one or the other")]
    [InlineData("""{"widths":["1 in"],"tucks":2}""", "tucks", "do not agree")]
    [InlineData("""{"tucks":2,"width":"1 in","letOut":3}""", "letOut", "at most 2")]
    [InlineData("""{"tucks":2,"width":"1 in","length":"20 in","wanted":"25 in"}""", "wanted", "with all tucks let out it is 24 in")]
    [InlineData("""{"tucks":2,"width":"1 in","wanted":"25 in"}""", "length", "How long")]
    public void Growth_that_can_not_be_says_what_could(string request, string path, string words) => IsRefused("growth", request, path, words);

    [Fact]
    public void Release_tucks_set_free_twice_their_widths()
    {
        var answer = Ask("release", """{"tucks":7,"width":"1/8 in","space":"1/4 in","sewn":"4 in","lead":"1 in","trail":"1 1/8 in"}""");
        Assert.Equal(("1 3/4 in", "4 1/2 in", "6 1/4 in", "1.3889"), (answer.Figure("setFree"), answer.Figure("widthAbove"), answer.Figure("widthBelow"), answer.Figure("fullness")));
    }

    [Fact]
    public void Touching_release_tucks_are_three_times_as_full_below() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 64]).Sample((n, w) =>
            Assert.Equal("3", Ask("release", $$"""{"tucks":{{n}},"width":"{{w}}/64 in","space":"0 in","sewn":"4 in"}""").Figure("fullness")), iter: 50);

    [Fact]
    public void Stitching_longer_than_the_piece_is_refused() =>
        IsRefused("release", """{"tucks":2,"width":"1/8 in","space":"0 in","sewn":"5 in","length":"4 in"}""", "sewn", "at most that");

    [Fact]
    public void A_receiving_tuck_hides_the_seam_as_deep_as_wanted()
    {
        var answer = Ask("receiving", """{"width":"1 in","set":"lace","setWidth":"2 in","under":"1/2 in"}""");
        Assert.Equal(("1 3/4 in", "3/4 in", "2 3/4 in"), (answer.Figure("crease"), answer.Figure("firstStitch"), answer.Figure("secondStitch")));
        Assert.Equal(("-1/4 in", "1 1/2 in", "2 1/4 in"), (answer.Figure("rawEdgeShows"), answer.Figure("seen"), answer.Figure("setCut")));
    }

    [Fact]
    public void A_receiving_tuck_falls_where_a_plan_puts_it() =>
        Gen.Select(Gen.Int[1, 128], Gen.Int[0, 64], Gen.Int[0, 64]).Sample((w, seam, under) =>
        {
            if (under > seam)
            {
                return;
            }

            var tuck = ReceivingTuck.Of(In($"{w}/64"), In($"{seam}/64"), In($"{under}/64"));
            var line = TuckPlan.Make(new() { Groups = [new(1, In($"{w}/64"), default)], Lead = In($"{seam - under}/64"), Lies = Lies.TowardsStart }).Lines[0];
            Assert.Equal((line.FirstStitch, line.Fold, line.SecondStitch, line.FinishedFold), (tuck.FirstStitch, tuck.Crease, tuck.SecondStitch, tuck.RawEdgeShows));
        });

    [Theory]
    [InlineData("\"under\":\"2 in\"", "under", "at most 1 in")]
    [InlineData("\"under\":\"1 in\",\"setWidth\":\"1 in\"", "setWidth", "more than the 1 in")]
    [InlineData("\"cloth\":\"3 in\"", "cloth", "3 1/4 in")]
    [InlineData("\"allowed\":\"2 in\"", "allowed", "at most 7/8 in")]
    public void A_receiving_tuck_that_can_not_be_says_what_could(string field, string path, string words) =>
        IsRefused("receiving", $$"""{"width":"1 in","set":"ruffle",{{(field.Contains("setWidth", StringComparison.Ordinal) ? "" : "\"setWidth\":\"3 in\",")}}{{field}}}""", path, words);

    private const string Strip = "\"strip\":{\"shells\":10,\"before\":\"3 3/4 in\",\"after\":\"3 1/8 in\",\"widthBefore\":\"1/4 in\",\"widthAfter\":\"3/16 in\"}";

    [Fact]
    public void A_strip_tells_what_shells_draw_in()
    {
        // 3/8 in marked, 1/16 in drawn in: 5/16 in each, 32 to ten inches, 12 in to cut.
        var answer = Ask("shell", $$"""{"length":"10 in","width":"1/4 in","shell":"3/8 in","tucks":3,{{Strip}}}""");
        Assert.Equal(("1/16 in", "1/16 in", "3/16 in", "1 1/2 in"), (answer.Figure("drawnIn"), answer.Figure("depthLost"), answer.Figure("widthDrawn"), answer.Figure("takeUp")));
        Assert.Equal(["32", "12 in", "3/8 in"], new[] { "shells", "cut", "markedShell" }.Select(c => Assert.Single(answer.Column("ways", c))));
        Assert.Equal("96", answer.Figure("shellsAll"));
    }

    [Fact]
    public void Shells_that_do_not_come_out_whole_are_offered_both_ways() =>
        Assert.Equal(["26", "27"], Ask("shell", """{"length":"10 in","width":"1/4 in","shell":"3/8 in"}""").Column("ways", "shells"));

    [Fact]
    public void Whole_parts_fill_the_length_and_stand_on_both_sides_of_the_part_wanted() =>
        Gen.Select(Gen.Long[1, 1_000_000_000], Gen.Long[1, 10_000_000]).Sample((length, part) =>
        {
            var ways = Rounding.BothWays(Length.FromNanometres(length), Length.FromNanometres(part));
            Assert.All(ways, w => Assert.InRange(Math.Abs((w.Count * w.Each.Nanometres) - length), 0, w.Count));
            Assert.True(ways[^1].Count * part >= length);
            Assert.True(ways.Count == 1 || ways[0].Count * part < length);
        });

    [Fact]
    public void Without_a_strip_no_one_says_what_shells_draw_in()
    {
        var answer = Ask("shell", """{"length":"10 in","width":"1/4 in","shell":"1/2 in"}""");
        Assert.True(answer.Warns("no-strip"));
        Assert.Equal(("–", "20"), (answer.Figure("drawnIn"), answer.Figure("shells")));
    }

    [Fact]
    public void A_shell_strip_that_grew_is_refused() => IsRefused("shell",
        """{"length":"10 in","width":"1/4 in","shell":"3/8 in","strip":{"shells":10,"before":"3 in","after":"4 in","widthBefore":"1/4 in","widthAfter":"3/16 in"}}""", "strip.after", "shells draw in");

    [Fact]
    public void A_cord_adds_most_hard_against_its_stitching_and_least_in_a_wide_tuck() =>
        Gen.Select(Gen.Int[1, 50], Gen.Int[0, 4000]).Sample((cord, wider) =>
        {
            var (thick, width) = (Length.FromMillimetres(cord / 10m), Length.FromMillimetres((cord + wider) / 10m));
            var adds = CordedTucks.Adds(width, thick);
            Assert.True(adds >= CordedTucks.Least(thick) && adds <= CordedTucks.Most(thick) + Length.FromNanometres(1));
            Assert.True(CordedTucks.Adds(width + thick, thick) <= adds);
        });

    [Fact]
    public void A_strip_decides_about_a_cord()
    {
        var without = Ask("corded", """{"tucks":5,"width":"6 mm","cord":"2 mm","space":"10 mm"}""");
        Assert.True(without.Warns("no-strip") && without.Warns("cords"));
        Assert.DoesNotContain(without.Tables, t => t.Name == "lines");
        // Finished 5 × 6 + 4 × 10 = 70 mm, cloth 130 mm and for each tuck from 1.141593 to 2.283185 mm.
        Assert.Equal(("135.708 mm", "141.416 mm"), (without.Figure("clothLeast")[2..], without.Figure("clothMost")[2..]));
        var with = Ask("corded", """{"tucks":5,"width":"6 mm","cord":"2 mm","space":"10 mm","testStrip":{"tucks":5,"width":"6 mm","flat":"136.5 mm","finished":"70 mm"}}""");
        Assert.Equal(("136.5 mm", "1.3 mm"), (with.Figure("cloth"), with.Figure("correctionPerTuck")));
        Assert.False(with.Warns("strip-beyond-cord"));
    }

    [Theory]
    [InlineData("130 mm", true)]
    [InlineData("141 mm", true)]
    [InlineData("142 mm", false)]
    public void Cloth_that_a_cord_may_use_up_is_warned_of(string cloth, bool warned) =>
        Assert.Equal(warned, Ask("corded", $$"""{"tucks":5,"width":"6 mm","cord":"2 mm","space":"10 mm","clothAtMost":"{{cloth}}"}""").Warns("cloth-may-not-reach"));

    [Fact]
    public void A_cord_thicker_than_its_tuck_is_refused() =>
        IsRefused("corded", """{"tucks":5,"width":"1/8 in","cord":"1/4 in","space":"1/4 in"}""", "cord", "1/4 in does not go into a tuck of 1/8 in");

    [Fact]
    public void Crossed_tucks_need_cloth_in_both_directions()
    {
        var answer = Ask("crossed", """{"down":{"tucks":3,"width":"1/8 in","space":"1 in"},"across":{"tucks":5,"width":"1/4 in","space":"1 in","lead":"1 in"}}""");
        Assert.Equal(("3 1/8 in", "8 3/4 in"), (answer.Figure("clothWidth"), answer.Figure("clothLength")));
        Assert.Equal(("8", "yes"), (answer.Figure("squares"), answer.Figure("square")));
        Assert.Equal(4, answer.Column("order", "work").Length);
    }

    [Fact]
    public void Crossed_tucks_of_unlike_spaces_make_no_squares() =>
        Assert.Equal("no", Ask("crossed", """{"down":{"tucks":3,"width":"1/8 in","space":"1 in"},"across":{"tucks":5,"width":"1/4 in","stitchToStitch":"1 in"}}""").Figure("square"));

    [Fact]
    public void A_fault_of_one_direction_is_named_in_it() =>
        IsRefused("crossed", """{"down":{"tucks":3,"width":"1/8 in","space":"-1/4 in"},"across":{"tucks":5,"width":"1/4 in","space":"1 in"}}""", "down.space", "-1/4 in is too near");

    [Fact]
    public void A_scalloped_tuck_takes_up_twice_its_greatest_depth()
    {
        Assert.Equal("2 in", Ask("scalloped", """{"length":"24 in","scallop":"1 1/2 in","point":"1 in","hollow":"5/8 in"}""").Figure("takeUp"));
        Assert.Equal("2 in", Ask("scalloped", """{"length":"24 in","scallop":"1 1/2 in","point":"5/8 in","hollow":"1 in"}""").Figure("takeUp"));
        Assert.Equal(["16"], Ask("scalloped", """{"length":"24 in","scallop":"1 1/2 in","point":"1 in","hollow":"5/8 in"}""").Column("ways", "scallops"));
    }

    [Fact]
    public void A_scallop_deeper_than_a_half_circle_says_the_deepest() =>
        IsRefused("scalloped", """{"length":"24 in","scallop":"1 in","point":"1 in","hollow":"1/4 in"}""", "point", "at most 3/4 in");

    [Fact]
    public void An_arc_is_no_shorter_than_its_width_and_no_longer_than_a_half_circle() =>
        Gen.Select(Gen.Int[2, 200], Gen.Int[0, 100]).Where((width, rise) => 2 * rise <= width).Sample((width, rise) =>
            Assert.InRange((double)ScallopedTucks.Arc(Length.FromMillimetres(width), Length.FromMillimetres(rise)).Millimetres, width, (width * Math.PI / 2) + 0.000_001));

    [Fact]
    public void Twin_needle_tucks_are_planned_by_their_strip_only()
    {
        var answer = Ask("twin-needle", """{"tucks":10,"gap":"2 mm","foldToFold":"6 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"112 mm"}}""");
        Assert.Equal(("56 mm", "8 mm", "0.8 mm"), (answer.Figure("cloth"), answer.Figure("takeUp"), answer.Figure("takenUpEach")));
        IsRefused("twin-needle", """{"tucks":10,"gap":"2 mm","foldToFold":"6 mm"}""", "testStrip", "missing");
        IsRefused("twin-needle", """{"tucks":10,"gap":"2 mm","foldToFold":"1 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"112 mm"}}""", "foldToFold", "at least 2 mm");
        IsRefused("twin-needle", """{"tucks":10,"gap":"2 mm","foldToFold":"6 mm","clothAtMost":"50 mm","testStrip":{"tucks":10,"width":"2 mm","flat":"120 mm","finished":"112 mm"}}""", "clothAtMost", "at most 9");
    }

    [Theory]
    [InlineData("1/16 in", "1/8 in", "pin", "spaced")]
    [InlineData("1/8 in", "0 in", "plain", "blind")]
    [InlineData("1/4 in", "-1/16 in", "plain", "overlapping")]
    [InlineData("2 in", "1 in", "nuns", "spaced")]
    public void A_tuck_has_its_trade_name(string width, string space, string kind, string apart)
    {
        var answer = Ask("tuck-kinds", $$"""{"width":"{{width}}","space":"{{space}}","tucks":3}""");
        Assert.Equal((kind, apart), (answer.Figure("kind"), answer.Figure("apart")));
    }

    [Fact]
    public void Books_that_disagree_stand_side_by_side()
    {
        var answer = Ask("tuck-kinds", """{"width":"1/4 in","space":"1/4 in","tucks":5}""");
        Assert.Equal(["no", "no", "yes"], answer.Column("usualSpaces", "agrees"));
        Assert.All(answer.Column("usualSpaces", "source"), s => Assert.NotEmpty(s));
    }

    [Fact]
    public void Without_a_number_it_says_how_many_fit()
    {
        Assert.Equal("5", Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","finishedAtMost":"1 3/4 in"}""").Figure("mostTucks"));
        Assert.Equal("4", Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","finishedAtMost":"1 47/64 in"}""").Figure("mostTucks"));
        Assert.Equal("4", Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","clothAtMost":"4 in"}""").Figure("mostTucks"));
        IsRefused("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","finishedAtMost":"1/8 in"}""", "finishedAtMost", "Not even one tuck");
    }

    [Fact]
    public void The_most_that_fit_do_and_one_more_does_not() =>
        Gen.Select(Gen.Int[1, 32], Gen.Int[0, 32], Gen.Int[40, 1000]).Sample((w, s, room) =>
        {
            var (width, space, limit) = (In($"{w}/64"), In($"{s}/64"), In($"{room}/64"));
            var most = (int)TuckNames.Most(limit, width, space);
            Assert.True(TuckNames.GroupWidth(most, width, space) <= limit);
            Assert.True(TuckNames.GroupWidth(most + 1, width, space) > limit);
        }, iter: 500);

    [Fact]
    public void Lace_that_covers_the_next_stitching_is_said() =>
        Assert.True(Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","tucks":3,"edge":"lace-edged","laceWidth":"1/4 in"}""").Warns("lace-covers"));

    [Fact]
    public void Every_kind_is_named_and_tapered_ones_are_not_planned()
    {
        var answer = Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","tucks":3}""");
        var kinds = answer.Column("kinds", "kind").Zip(answer.Column("kinds", "workedOut")).ToList();
        Assert.Equal(16, kinds.Count);
        Assert.Equal("tapered", Assert.Single(kinds, k => k.Second == "–").First);
        Assert.All(kinds.Where(k => k.Second != "–"), k => Assert.NotNull(HeirloomArchive.Sewing.Sums.AllSums.Find(k.Second)));
    }
}
