using CsCheck;
using HeirloomArchive.Sewing.Cloth;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Cloth;

public class CuttingTests
{
    private const string Tucked = """
        {"loom":"36 in","seam":"1/4 in","length":"40 in","tucksRun":"along",
         "run":{"groups":[{"tucks":1,"width":"1 in"},{"tucks":1,"width":"1 in"},{"tucks":1,"width":"1 in"}],"between":["18 in","18 in"],"lead":"20 in","trail":"20 in"}}
        """;

    [Fact]
    public void Two_breadths_make_a_width_that_one_does_not()
    {
        var answer = Of("breadths", """{"loom":"36 in","selvage":"1/4 in","seam":"1/4 in","wanted":"60 in","length":"40 in"}""");
        Assert.Equal((2, 1, "80 in"), ((int)answer["breadths"]!, (int)answer["joins"]!, answer.Text("cloth")));
        Assert.Equal(["35 1/2 in", "25 in"], answer.Texts("pieces", "cut"));
        Assert.Equal("11 1/2 in", answer.Text("wasteAcross"));
    }

    [Fact]
    public void Joins_are_brought_under_a_tuck_that_runs_along_them()
    {
        var answer = Of("breadths", Tucked);
        Assert.Equal((0, 4, 3), ((int)answer["showing"]!, (int)answer["breadths"]!, (int)answer["fewest"]!));
        Assert.Equal(["22 in", "43 in", "64 in", null], answer["pieces"]!.AsArray().Select(p => (string?)p!["joinAt"]?["text"]));
        Assert.Equal([1, 2, 3, null], answer["pieces"]!.AsArray().Select(p => (int?)p!["underTuck"]));
    }

    [Fact]
    public void Tucks_lying_the_other_way_hide_a_join_at_their_first_stitching()
    {
        var answer = Of("breadths", Tucked.Replace("\"lead\"", "\"lies\":\"towards-start\",\"lead\"", StringComparison.Ordinal));
        var plan = Json.Plan("""{"groups":[{"tucks":1,"width":"1 in"},{"tucks":1,"width":"1 in"},{"tucks":1,"width":"1 in"}],"between":["18 in","18 in"],"lead":"20 in","trail":"20 in","lies":"towards-start"}""");
        Assert.Equal(plan.Texts("lines", "firstStitch")[0], (string)answer["pieces"]![0]!["joinAt"]!["text"]!);
    }

    [Fact]
    public void Tucks_from_the_centre_hide_joins_beneath_both_halves()
    {
        var answer = Of("breadths", """{"loom":"36 in","seam":"1/4 in","length":"40 in","run":{"groups":[{"tucks":1,"width":"1 in"}],"centre":"20 in","trail":"22 in","lies":"from-centre"}}""");
        Assert.Equal(["23 in", "47 in", null], answer["pieces"]!.AsArray().Select(p => (string?)p!["joinAt"]?["text"]));
        Assert.Equal(0, (int)answer["showing"]!);
    }

    [Fact]
    public void Tucks_across_the_cloth_hide_no_join_and_lengthen_each_breadth()
    {
        var answer = Of("breadths", Tucked.Replace("\"along\"", "\"across\",\"wanted\":\"100 in\"", StringComparison.Ordinal));
        Assert.Equal((2, "46 in"), ((int)answer["showing"]!, answer.Text("cutLength")));
        Assert.Contains("along the weft", answer["notes"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_join_out_of_every_tucks_reach_shows_and_is_warned_of()
    {
        var answer = Of("breadths", Tucked.Replace("36 in", "21 in", StringComparison.Ordinal));
        Assert.True((int)answer["showing"]! > 0);
        Assert.Contains("join-shows", answer["cautions"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_seam_wider_than_the_tuck_over_it_is_warned_of()
    {
        Assert.DoesNotContain("seam-wider-than-tuck", Of("breadths", Tucked)["cautions"]!.ToJsonString(), StringComparison.Ordinal);
        Assert.Contains("seam-wider-than-tuck", Of("breadths", Tucked.Replace("\"seam\":\"1/4 in\"", "\"seam\":\"1 1/4 in\"", StringComparison.Ordinal))["cautions"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_tucks_it_says_which_could_hide_a_join() =>
        Assert.Contains("Only tucks folded along the warp", Of("breadths", """{"loom":"36 in","wanted":"60 in","length":"40 in"}""")["notes"]!.ToJsonString(), StringComparison.Ordinal);

    [Fact]
    public void A_width_that_is_not_the_tucks_is_refused() =>
        Refuses("breadths", Tucked.Replace("\"length\"", "\"wanted\":\"70 in\",\"length\"", StringComparison.Ordinal), "wanted", "85 in");

    [Fact]
    public void Cloth_used_up_by_seams_is_refused() =>
        Refuses("breadths", """{"loom":"1 in","selvage":"1/4 in","seam":"1/4 in","wanted":"60 in","length":"40 in"}""", "loom", "more than 1 in");

    [Fact]
    public void Groups_may_overlap_as_in_a_plan_of_their_own() =>
        Refuses("breadths", Tucked.Replace("[\"18 in\",\"18 in\"]", "[\"18 in\",\"-1/2 in\"]", StringComparison.Ordinal).Replace("\"length\"", "\"wanted\":\"70 in\",\"length\"", StringComparison.Ordinal), "wanted", "66 1/2 in of flat cloth");

    [Fact]
    public void A_run_that_can_not_be_laid_out_is_named_by_its_path() =>
        Refuses("breadths", Tucked.Replace("[\"18 in\",\"18 in\"]", "[\"18 in\"]", StringComparison.Ordinal), "run.between", "");

    [Fact]
    public void Breadths_fit_the_cloth_and_add_up_to_the_width() =>
        Gen.Select(Gen.Int[1, 5000], Gen.Int[100, 600], Gen.Int[0, 20], Gen.Bool).Sample((wanted, loom, seam, round) =>
        {
            var breadths = new Breadths { Wanted = Sixty(wanted), Loom = Sixty(loom), Seam = Sixty(seam), Round = round };
            var joins = breadths.Joins!;
            var cut = breadths.CutWidths(joins);
            var seams = 2 * (joins.Count + (round ? 1 : 0)) * breadths.Seam;
            return cut.All(c => c <= breadths.Usable) && cut.Aggregate(Length.Zero, (a, b) => a + b) == breadths.Wanted + seams
                && ((joins.Count * breadths.Usable) - (2 * (joins.Count - (round ? 0 : 1)) * breadths.Seam) < breadths.Wanted || joins.Count == 0);
        });

    [Fact]
    public void Pieces_lie_on_the_cloth_and_none_on_another() =>
        Gen.Select(Gen.Int[1, 60], Gen.Int[1, 36], Gen.Int[1, 4]).Array[1, 12].Sample(pieces =>
        {
            var order = CuttingOrder.Lay(Sixty(36), pieces.Select((p, i) => new CutPiece($"{i}", Sixty(p.Item1), Sixty(p.Item2), p.Item3)));
            var laid = order.Laid;
            return laid.All(l => l.FromEdge + l.Piece.Width <= order.Usable && l.FromEnd + l.Piece.Length <= order.Cloth)
                && !laid.SelectMany((a, i) => laid.Skip(i + 1).Select(b => (a, b))).Any(pair => Overlap(pair.a, pair.b))
                && order.Cloth >= order.Least && laid.Count == pieces.Sum(p => p.Item3);
        });

    [Fact]
    public void The_longest_piece_is_cut_first_and_small_ones_fill_its_row()
    {
        var answer = Of("cutting-order", """{"loom":"36 in","pieces":[{"name":"cuff","length":"4 in","width":"6 in","count":2},{"name":"front","length":"20 in","width":"24 in"}]}""");
        Assert.Equal("20 in", answer.Text("cloth"));
        Assert.Equal(["front", "cuff", "cuff"], answer["order"]!.AsArray().Select(o => (string)o!["name"]!));
        Assert.Equal(["0 in", "24 in", "30 in"], answer.Texts("order", "fromEdge"));
    }

    [Fact]
    public void A_piece_wider_than_the_cloth_is_named() =>
        Refuses("cutting-order", """{"loom":"36 in","selvage":"1/2 in","pieces":[{"name":"skirt","length":"20 in","width":"36 in"}]}""", "pieces[0].width", "35 in between the selvages");

    [Fact]
    public void Strips_across_the_cloth_are_enough_and_one_fewer_is_not() =>
        Gen.Select(Gen.Int[1, 20000], Gen.Int[500, 4000], Gen.Int[0, 60]).Sample((length, loom, seam) =>
        {
            var strip = new BiasStrip(Sixty(80), Sixty(length));
            var strips = strip.StripsAcross(Sixty(loom), Sixty(seam));
            double Gives(long n) => Math.Sqrt(2) * ((n * loom) - (2 * (n - 1) * seam));
            return Gives(strips) >= length - 1e-6 && (strips == 1 || Gives(strips - 1) < length);
        });

    [Fact]
    public void The_square_that_just_makes_a_strip_gives_back_its_length() =>
        Gen.Select(Gen.Int[8, 640], Gen.Int[64, 64000]).Sample((width, length) =>
        {
            var strip = new BiasStrip(Sixty(width), Sixty(length));
            return Math.Abs((strip.FromSquare(strip.SquareSide) - strip.Length).Nanometres) <= (strip.SquareSide.Nanometres / strip.Width.Nanometres) + 2;
        });

    [Fact]
    public void A_square_smaller_than_the_strip_is_refused() =>
        Refuses("bias-strip", """{"width":"2 in","length":"100 in","square":"2 in"}""", "square", "no whole strip");

    [Fact]
    public void The_least_is_told_in_the_unit_she_uses() =>
        Refuses("bias-strip", """{"width":"1/128 in","length":"100 in"}""", "width", "at least 1/64 in");

    [Fact]
    public void A_petticoats_breadth_holds_hem_turnings_and_tucks()
    {
        var answer = Of("petticoat-cloth", """{"finished":"30 in","breadths":3,"hem":"2 in","turn":"1/4 in","seam":"3/4 in","takeUp":"3 in"}""");
        Assert.Equal(("36 in", "108 in"), (answer.Text("cutLength"), answer.Text("cloth")));
    }

    [Fact]
    public void A_ruffle_as_deep_as_the_skirt_is_refused() =>
        Refuses("petticoat-cloth", """{"finished":"30 in","ruffle":"30 in"}""", "ruffle", "leaves no skirt");

    private static bool Overlap(LaidPiece a, LaidPiece b) =>
        a.FromEnd < b.FromEnd + b.Piece.Length && b.FromEnd < a.FromEnd + a.Piece.Length
        && a.FromEdge < b.FromEdge + b.Piece.Width && b.FromEdge < a.FromEdge + a.Piece.Width;

    private static Length Sixty(long fourths) => Length.FromSixtyFourthsOfInch(fourths);
}
