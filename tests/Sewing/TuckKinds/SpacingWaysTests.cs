using CsCheck;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

public class SpacingWaysTests
{
    [Theory]
    [InlineData("space", "1/4 in", "1/4 in", "3/8 in", "5/8 in")]
    [InlineData("stitch-to-stitch", "1/4 in", "1/8 in", "1/4 in", "1/2 in")]
    [InlineData("fold-to-fold", "1/2 in", "1/8 in", "1/4 in", "1/2 in")]
    [InlineData("stitch-to-stitch", "1/8 in", "0 in", "1/8 in", "3/8 in")]
    public void One_meaning_answers_all_three(string way, string apart, string space, string stitch, string fold)
    {
        var answer = Ask("spacing", $$"""{"apart":"{{apart}}","way":"{{way}}","width":"1/8 in"}""");
        Assert.Equal([space, stitch, fold], new[] { "space", "stitchToStitch", "foldToFold" }.Select(answer.Figure));
    }

    [Theory]
    [InlineData("towards-end", "3/8 in", "3/4 in")]
    [InlineData("towards-start", "1/2 in", "7/8 in")]
    public void Unequal_neighbours_count_by_the_way_they_lie(string lies, string stitch, string fold)
    {
        var answer = Ask("spacing", $$"""{"apart":"1/4 in","width":"1/8 in","nextWidth":"1/4 in","lies":"{{lies}}"}""");
        Assert.Equal((stitch, fold), (answer.Figure("stitchToStitch"), answer.Figure("foldToFold")));
    }

    [Fact]
    public void In_the_middle_the_centre_is_the_plain_cloth()
    {
        Assert.Equal("1 1/4 in", Ask("spacing", """{"apart":"1 in","width":"1/8 in","lies":"from-centre"}""").Figure("foldToFold"));
        Assert.Equal("1 1/2 in", Ask("spacing", """{"apart":"1 in","width":"1/8 in","lies":"towards-centre"}""").Figure("foldToFold"));
    }

    [Fact]
    public void A_strip_moves_only_the_folds()
    {
        var answer = Ask("spacing", """{"apart":"1/4 in","width":"1/8 in","testStrip":{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 3/8 in"}}""");
        Assert.Equal(("3/8 in", "≈ 41/64 in"), (answer.Figure("stitchToStitch"), answer.Figure("foldToFold")));
        Assert.Equal(In("1/80"), answer.LengthOf("correctionPerTuck"));
    }

    [Fact]
    public void Overlapping_tucks_are_shown_and_warned_of()
    {
        var answer = Ask("spacing", """{"apart":"-1/16 in","width":"1/4 in"}""");
        Assert.True(answer.Warns("hidden-stitching"));
        Assert.Equal("3/16 in", answer.Figure("stitchToStitch"));
    }

    [Fact]
    public void Too_near_says_what_would_be_possible() =>
        IsRefused("spacing", """{"apart":"1/4 in","way":"fold-to-fold","width":"1/8 in"}""", "apart", "1/4 in is too near", "must be above 1/4 in");

    [Fact]
    public void Too_near_in_the_middle_is_refused_too() =>
        IsRefused("spacing", """{"apart":"-1/4 in","width":"1/8 in","lies":"towards-centre"}""", "apart", "The centre must be above -1/4 in");

    [Fact]
    public void In_the_middle_both_are_alike() =>
        IsRefused("spacing", """{"apart":"1/4 in","width":"1/8 in","nextWidth":"1/4 in","lies":"from-centre"}""", "nextWidth", "1/4 in", "1/8 in");

    [Fact]
    public void Its_drawing_has_a_line_of_measure_for_each_meaning()
    {
        var words = Ask("spacing", """{"apart":"1/4 in","width":"1/8 in"}""").Panels.SelectMany(p => p.Shapes).OfType<Drawing.Label>().Select(l => l.Text).ToList();
        Assert.All(new[] { "plain cloth 1/4 in", "stitching to stitching 3/8 in", "fold to fold 5/8 in" }, w => Assert.Contains(w, words));
    }

    [Fact]
    public void What_the_other_meanings_have_beyond_the_space_is_what_a_plan_makes_of_it() =>
        Gen.Select(Gen.Int[1, 64], Gen.Int[1, 64], Gen.Int[0, 128], Gen.Int[-300_000, 3_000_000], Gen.Enum<Lies>()).Sample((w, other, apart, beyond, lies) =>
        {
            var middle = lies is Lies.FromCentre or Lies.TowardsCentre;
            var (width, space, correction) = (In($"{w}/64"), In($"{apart}/64"), Length.FromNanometres(beyond));
            var next = middle ? width : In($"{other}/64");
            var spacing = TuckPlan.Make(new()
            {
                Groups = middle ? [new(1, width, default)] : [new(1, width, default), new(1, next, default)],
                Between = middle ? [] : [new(space)],
                Centre = middle ? space : null,
                Lies = lies,
                TestStrip = new(1, width, (22 * width) + correction, 20 * width),
            }).Spacings[0];
            Assert.Equal((spacing.StitchToStitch - space, spacing.FoldToFold - space), SpacingWays.Beyond(width, next, lies, correction));
        });

    [Fact]
    public void In_the_middle_a_strip_counts_for_both_halves() =>
        Assert.Equal("1 in", Ask("spacing", """
            {"apart":"1 17/32 in","way":"fold-to-fold","width":"1/8 in","lies":"towards-centre","testStrip":{"tucks":2,"width":"1/8 in","flat":"4 in","finished":"3 15/32 in"}}
            """).Figure("space"));

    [Fact]
    public void Whatever_is_given_in_one_way_and_sent_back_in_another_is_the_same() =>
        Gen.Select(Gen.Int[1, 64], Gen.Int[1, 64], Gen.Int[0, 128], Gen.Int[0, 1]).Sample((w, next, space, way) =>
        {
            var lies = way == 0 ? "towards-end" : "towards-start";
            string Of(int apart, string meaning) => $$"""{"apart":"{{apart}}/64 in","way":"{{meaning}}","width":"{{w}}/64 in","nextWidth":"{{next}}/64 in","lies":"{{lies}}"}""";
            var (stitch, fold) = SpacingWays.Beyond(In($"{w}/64"), In($"{next}/64"), way == 0 ? Lies.TowardsEnd : Lies.TowardsStart, Length.Zero);
            var asSpace = Ask("spacing", Of(space, "space"));
            Assert.Equal(In($"{space}/64") + stitch, asSpace.LengthOf("stitchToStitch"));
            Assert.Equal(In($"{space}/64") + fold, asSpace.LengthOf("foldToFold"));
            var back = Ask("spacing", Of((int)(asSpace.LengthOf("foldToFold").Nanometres / 396_875), "fold-to-fold"));
            Assert.Equal(In($"{space}/64"), back.LengthOf("space"));
        }, iter: 300);
}
