using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Laces;
using HeirloomArchive.Sewing.Sums;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Laces;

public class LaceTests
{
    private const string Rectangle = """{"sides":[{"length":"10 in","turn":90},{"length":"14 in","turn":90},{"length":"10 in","turn":90},{"length":"14 in","turn":90}],"width":"2 in","round":true}""";

    [Fact]
    public void A_square_corner_takes_twice_the_width() =>
        Gen.Int[1, 6400].Sample(w => Mitred(90, w).Gain(90) == 2 * Sixty(w) && Mitred(90, w).Gain(-90) == -2 * Sixty(w));

    [Fact]
    public void An_edge_that_goes_straight_on_adds_nothing() =>
        Gen.Int[1, 6400].Sample(w => Mitred(0, w) is var lace && lace.Lace == lace.Sewn && lace.Free == lace.Sewn && lace.Mitre(0) == lace.Width);

    [Fact]
    public void A_sharper_turn_takes_more_and_twice_the_width_takes_twice_as_much() =>
        Gen.Select(Gen.Int[1, 148], Gen.Int[1, 6400]).Sample((turn, w) =>
            Mitred(turn, w).Gain(turn) < Mitred(turn, w).Gain(turn + 1) && Near(2 * Mitred(turn, w).Gain(turn), Mitred(turn, 2 * w).Gain(turn)));

    [Fact]
    public void Inside_a_corner_the_free_edge_loses_what_it_gains_outside() =>
        Gen.Select(Gen.Int[-150, 150], Gen.Int[1, 6400]).Sample((turn, w) =>
            Mitred(turn, w) is var lace && (lace with { Within = true }).Gain(turn) == -lace.Gain(turn) && (lace with { Within = true }).Mitre(turn) == lace.Mitre(turn));

    [Fact]
    public void A_rectangles_lace_is_as_long_as_its_outer_edge()
    {
        var answer = Of("mitred-lace", Rectangle);
        Assert.Equal(("64 in", "48 in", "64 in"), (answer.Text("lace"), answer.Text("innerEdge"), answer.Text("outerEdge")));
        var within = Of("mitred-lace", Rectangle.Replace("\"round\"", "\"sewn\":\"outer-edge\",\"round\"", StringComparison.Ordinal));
        Assert.Equal(("48 in", "32 in", "48 in"), (within.Text("lace"), within.Text("innerEdge"), within.Text("outerEdge")));
    }

    [Fact]
    public void A_cut_mitre_keeps_its_seam_on_both_sides()
    {
        var answer = Of("mitred-lace", Rectangle.Replace("\"round\"", "\"mitre\":\"cut\",\"seam\":\"1/4 in\",\"round\"", StringComparison.Ordinal));
        Assert.Equal((64 * 25.4) + (4 * 2 * 0.25 * Math.Sqrt(2) * 25.4), (double)(decimal)answer["lace"]!["mm"]!, 5e-6);
    }

    [Fact]
    public void A_side_too_short_for_lace_within_it_is_told_how_long_it_must_be() =>
        Refuses("mitred-lace", Rectangle.Replace("\"14 in\"", "\"4 in\"", StringComparison.Ordinal).Replace("\"round\"", "\"sewn\":\"outer-edge\",\"round\"", StringComparison.Ordinal), "sides[1].length", "more than 4 in");

    [Fact]
    public void A_last_corner_without_a_next_side_is_refused() =>
        Refuses("mitred-lace", """{"sides":[{"length":"10 in","turn":90},{"length":"14 in","turn":60}],"width":"2 in"}""", "sides[1].turn", "60 degrees");

    [Fact]
    public void Turns_that_do_not_close_are_warned_of() =>
        Assert.Contains("does-not-close", Of("mitred-lace", Rectangle.Replace("\"turn\":90},{\"length\":\"14 in\",\"turn\":90}]", "\"turn\":90},{\"length\":\"14 in\",\"turn\":80}]", StringComparison.Ordinal))["cautions"]!.ToJsonString(), StringComparison.Ordinal);

    [Theory]
    [InlineData("51 3/7")]
    [InlineData("51.43")]
    public void Seven_corners_of_a_seventh_of_a_circle_close(string turn)
    {
        var side = $$"""{"length":"10 in","turn":"{{turn}}"}""";
        Assert.DoesNotContain("does-not-close", Of("mitred-lace", $$"""{"sides":[{{string.Join(',', Enumerable.Repeat(side, 7))}}],"width":"1 in","round":true}""")["cautions"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_lace_sum_that_tells_a_length_to_cut_says_to_lay_it_out_first()
    {
        foreach (var sum in AllSums.InOrder.Where(s => s.Shelf == Shelf.Lace && s.Slug != "roll-and-whip"))
        {
            var answer = sum.Of(JsonNode.Parse(sum.Example));
            Assert.Contains(answer.Cautions, c => c.Code == "lay-out-first" && c.Text.Contains("conservator", StringComparison.Ordinal));
            Assert.All(answer.Figures.Where(f => f.Name is "lace" or "stripLength"), f => Assert.NotEmpty(f.Note));
        }
    }

    [Fact]
    public void Corners_of_a_gathered_edge_come_beside_its_fullness()
    {
        var edging = new LaceEdging([Sixty(768), Sixty(768), Sixty(768), Sixty(768)], Sixty(64), 1.5m, Round: true, Length.Zero);
        Assert.Equal(Json.L("80 in"), edging.Lace);
        Assert.Equal(Json.L("20 in"), edging.Marks.Single(m => m.Place == "corner 1").Lace);
        Assert.Equal(Json.L("10 in"), edging.Marks.Single(m => m.Place == "middle of side 1").Lace);
        Assert.Equal(Json.L("80 in"), edging.Marks[^1].Lace);
    }

    [Fact]
    public void Marks_rise_and_end_with_the_edge_and_the_lace() =>
        Gen.Select(Gen.Int[1, 6400].Array[1, 8], Gen.Int[1, 320], Gen.Int[100, 500], Gen.Bool, Gen.Int[0, 64]).Sample((sides, width, ratio, round, ends) =>
        {
            var edging = new LaceEdging([.. sides.Select(s => Sixty(s))], Sixty(width), ratio / 100m, round, Sixty(ends));
            var marks = edging.Marks;
            return marks.Zip(marks.Skip(1)).All(p => p.First.Edge <= p.Second.Edge && p.First.Lace <= p.Second.Lace)
                && marks[^1].Edge == edging.Edge && Near(marks[^1].Lace + edging.Ends, edging.Lace);
        });

    [Fact]
    public void Gathers_are_counted_by_the_centimetre_and_in_all()
    {
        var answer = Of("lace-edging", """{"sides":["20 cm"],"width":"2 cm","ratio":2,"stitch":"4 mm"}""");
        Assert.Equal((5m, 100L), ((decimal)answer["gathersPerCm"]!, (long)answer["gathers"]!));
    }

    [Fact]
    public void A_curve_draws_in_the_width_times_its_angle_whatever_its_radius() =>
        Gen.Select(Gen.Int[65, 6400], Gen.Int[1, 360]).Sample((radius, degrees) =>
        {
            var outside = new ShapedLace(Sixty(radius), degrees, Sixty(64), Inside: false);
            var inside = outside with { Inside = true };
            return Near(outside.Outer - outside.Inner, outside.DrawnUp) && Near(inside.Outer - inside.Inner, outside.DrawnUp) && outside.Inner == inside.Outer
                && outside.Outer.Nanometres * 180.0 / Math.PI / degrees - (Sixty(radius) + Sixty(64)).Nanometres is < 100 and > -100;
        });

    [Fact]
    public void Which_heading_thread_is_drawn_follows_the_inner_side()
    {
        var arcs = Of("shaped-lace", """{"curves":[{"radius":"4 in","degrees":90},{"radius":"4 in","degrees":90,"lies":"inside"}],"width":"1 in"}""")["arcs"]!.AsArray();
        Assert.Equal(["the sewn edge", "the free edge"], arcs.Select(a => (string)a!["thread"]!));
    }

    [Fact]
    public void A_curve_too_tight_for_lace_inside_it_is_refused() =>
        Refuses("shaped-lace", """{"curves":[{"radius":"1 in","degrees":90,"lies":"inside"}],"width":"1 in"}""", "curves[0].radius", "more than that width");

    private static MitredLace Mitred(decimal turn, int width) => new([new(Sixty(64000), turn)], Sixty(width), Within: false, Length.Zero, Length.Zero);

    private static Length Sixty(long fourths) => Length.FromSixtyFourthsOfInch(fourths);

    private static bool Near(Length a, Length b) => Math.Abs((a - b).Nanometres) <= 2;
}
