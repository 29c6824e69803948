using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Sewing.Laces;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Laces;

public class InsertionTests
{
    [Fact]
    public void Laid_on_keeps_the_size_and_let_in_adds_the_width_less_its_seams()
    {
        var set = new InsertionSet(Json.L("20 in"), 1, Json.L("3/4 in"), Length.Zero, Json.L("1/4 in"));
        Assert.Equal((Json.L("20 in"), Json.L("20 1/4 in")), (set.LaidOn, set.LetIn));
        Assert.Equal((Json.L("1/4 in"), Json.L("1/4 in")), (set.CutAway, set.TurnedBack));
    }

    [Fact]
    public void Narrow_insertion_laid_on_is_only_slit_behind()
    {
        var set = new InsertionSet(Json.L("20 in"), 1, Json.L("3/8 in"), Length.Zero, Json.L("1/4 in"));
        Assert.Equal((Length.Zero, Json.L("3/16 in")), (set.CutAway, set.TurnedBack));
        Assert.Equal(Json.L("-1/8 in"), set.ChangeEach);
    }

    [Fact]
    public void Strips_and_bands_joined_add_up() =>
        Assert.Equal("6 1/2 in", Of("insertion", """{"panel":"20 in","strips":3,"width":"1/2 in","length":"10 in","bands":["1 1/4 in","1 1/4 in","1 1/4 in","1 1/4 in"]}""").Text("joined"));

    [Fact]
    public void More_strips_than_lie_on_the_piece_are_refused_unless_let_in()
    {
        const string Sent = """{"panel":"2 in","strips":3,"width":"3/4 in","length":"10 in" """;
        Refuses("insertion", Sent + "}", "strips", "do not lie on 2 in");
        Assert.Equal("4 1/4 in", Of("insertion", Sent + ""","set":"let-in"}""").Text("finished"));
    }

    [Fact]
    public void A_square_on_point_has_square_corners_and_four_equal_mitres() =>
        Gen.Select(Gen.Int[200, 6400], Gen.Int[1, 40]).Sample((width, insertion) =>
        {
            var square = new LaceShape(Sixty(width), Sixty(width), Sixty(insertion), Zigzag: false);
            return Near(square.PointMitre, square.SideMitre) && Near(square.PointMitre, Length.FromNanometres((long)Math.Round(insertion * 396_875 * Math.Sqrt(2))))
                && Near(square.InnerSide, square.Side - (2 * Sixty(insertion)));
        });

    [Fact]
    public void A_diamonds_inner_edges_are_those_of_the_diamond_between_its_mitres() =>
        Gen.Select(Gen.Int[400, 6400], Gen.Int[400, 6400], Gen.Int[1, 40]).Sample((width, height, insertion) =>
        {
            var shape = new LaceShape(Sixty(width), Sixty(height), Sixty(insertion), Zigzag: false);
            var (x, y) = ((shape.Width.Nanometres / 2.0) - shape.SideMitre.Nanometres, (shape.Height.Nanometres / 2.0) - shape.PointMitre.Nanometres);
            return Math.Abs(Math.Sqrt((x * x) + (y * y)) - shape.InnerSide.Nanometres) < 4;
        });

    [Fact]
    public void A_zigzags_legs_end_on_its_height() =>
        Gen.Select(Gen.Int[200, 6400], Gen.Int[200, 6400], Gen.Int[1, 150]).Sample((width, height, insertion) =>
        {
            var shape = new LaceShape(Sixty(width), Sixty(height), Sixty(insertion), Zigzag: true);
            var (leg, run) = ((double)shape.Side.Nanometres, shape.Width.Nanometres / 2.0);
            return Math.Abs(Math.Sqrt((leg * leg) - (run * run)) + shape.PointMitre.Nanometres - shape.Height.Nanometres) < shape.Height.Nanometres * 1e-6;
        });

    [Fact]
    public void Repeats_take_so_many_times_one()
    {
        JsonObject Repeats(int n) => Of("lace-diamonds", $$"""{"shape":"diamond","width":"3 in","height":"4 in","insertion":"1/2 in","repeats":{{n}}}""");
        Assert.Equal(("10 in", "70 in", "2 1/2 in"), (Repeats(1).Text("lace"), Repeats(7).Text("lace"), Repeats(7).Text("side")));
        Assert.Equal(28, (int)Repeats(7)["mitres"]!);
    }

    [Fact]
    public void Insertion_that_fills_the_diamond_is_told_the_widest() =>
        Refuses("lace-diamonds", """{"shape":"diamond","width":"3 in","height":"4 in","insertion":"1 1/4 in"}""", "insertion", "narrower than ≈ 1 13/64 in");

    [Fact]
    public void A_scallop_half_as_deep_as_wide_is_half_a_circle() =>
        Gen.Select(Gen.Int[1, 200], Gen.Int[2, 6400]).Sample((count, half) =>
        {
            var edge = new ScallopedEdge(2 * count * Sixty(half), count, Sixty(half));
            return Near(edge.Radius, Sixty(half)) && Near(edge.Each, Length.FromNanometres((long)Math.Round(Math.PI * Sixty(half).Nanometres)));
        });

    [Fact]
    public void A_shallow_scallop_is_hardly_longer_than_straight_and_a_deeper_one_is_longer() =>
        Gen.Select(Gen.Int[1, 100], Gen.Int[64, 640], Gen.Int[2, 31]).Sample((count, width, depth) =>
        {
            var edge = new ScallopedEdge(count * Sixty(width), count, Sixty(depth));
            var deeper = edge with { Depth = Sixty(depth + 1) };
            return edge.Along > edge.Length && deeper.Along > edge.Along && edge.Along.Nanometres < edge.Length.Nanometres * (Math.PI / 2) + 2;
        });

    [Fact]
    public void Scallops_that_do_not_come_out_whole_are_offered_both_ways()
    {
        var answer = Of("scalloped-edge", """{"length":"20 in","about":"3 in","depth":"1/2 in"}""");
        Assert.Equal(7, (int)answer["scallops"]!);
        Assert.Equal([6, 7], answer["choices"]!.AsArray().Select(c => (int)c!["scallops"]!));
        Assert.Equal("≈ 3 21/64 in", (string)answer["choices"]![0]!["width"]!["text"]!);
    }

    [Theory]
    [InlineData("scalloped-edge", """{"length":"2000 in","about":"1 in","depth":"1/4 in"}""", 2000)]
    [InlineData("scalloped", """{"length":"1000 in","scallop":"1 in","point":"1 in","hollow":"3/4 in"}""", 1000)]
    public void As_many_scallops_as_there_may_be_are_worked_out(string slug, string sent, int scallops) => Assert.Equal($"{scallops}", Of(slug, sent)["scallops"]!.ToJsonString());

    [Fact]
    public void Scallops_deeper_than_half_a_circle_are_refused() =>
        Refuses("scalloped-edge", """{"length":"20 in","scallops":10,"depth":"1 1/8 in"}""", "depth", "at 1 in each is half a circle");

    [Fact]
    public void Holes_are_whole_and_the_next_is_too_long() =>
        Gen.Select(Gen.Int[1, 60], Gen.Int[32, 256], Gen.Int[64, 6400]).Sample((holes, over, length) =>
        {
            var strip = new Entredeux(holes, Sixty(over));
            var whole = strip.HolesIn(Sixty(length));
            return strip.LengthOf(whole) <= Sixty(length) && strip.LengthOf(whole + 1) > Sixty(length) - Length.FromNanometres(1);
        });

    [Fact]
    public void Holes_meet_tucks_nearer_and_nearer()
    {
        var matches = new Entredeux(18, Json.L("2 in")).Match(Json.L("3/8 in"));
        Assert.Equal((27L, 8, Length.Zero), (matches[^1].Holes, matches[^1].Others, matches[^1].Off));
        Assert.All(matches.Zip(matches.Skip(1)), p => Assert.True(Math.Abs(p.Second.Off.Nanometres) < Math.Abs(p.First.Off.Nanometres)));
    }

    [Fact]
    public void A_trim_that_leaves_nothing_is_refused() =>
        Refuses("entredeux", """{"holes":18,"over":"2 in","length":"10 in","width":"1/2 in","trim":"1/4 in"}""", "trim", "less than 1/4 in");

    [Fact]
    public void Both_rolled_edges_come_off_the_piece()
    {
        var answer = Of("roll-and-whip", """{"threads":80,"over":"20 mm","finished":"150 mm","edges":2}""");
        Assert.Equal(("2.5 mm", "155 mm"), (answer.Text("roll"), answer.Text("cut")));
    }

    [Fact]
    public void Each_piece_is_cut_at_whole_repeats_with_its_join_in_it() =>
        Gen.Select(Gen.Int[1, 640], Gen.Int[0, 64], Gen.Int[1, 6400]).Sample((repeat, lap, length) =>
        {
            var pattern = new PatternRepeat(Sixty(repeat), Sixty(lap));
            var cut = pattern.Cut(Sixty(length));
            return cut.Nanometres % pattern.Repeat.Nanometres == 0 && cut >= Sixty(length) + pattern.Lap && cut - pattern.Repeat < Sixty(length) + pattern.Lap;
        });

    [Fact]
    public void A_piece_longer_than_the_lace_is_sold_is_joined_at_whole_repeats()
    {
        var pattern = new PatternRepeat(Json.L("2 1/2 in"), Json.L("1/2 in"));
        Assert.Equal((2L, 1L), pattern.From(Json.L("118 in"), 1, Json.L("108 in")));
        Assert.Equal((1L, 0L), pattern.From(Json.L("9 in"), 10, Json.L("108 in")));
        Assert.Equal((2L, 0L), pattern.From(Json.L("9 in"), 11, Json.L("108 in")));
    }

    private static Length Sixty(long fourths) => Length.FromSixtyFourthsOfInch(fourths);

    private static bool Near(Length a, Length b) => Math.Abs((a - b).Nanometres) <= 2;
}
