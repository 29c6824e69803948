using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// Tuck plans against worked examples that others have printed. Each names its source; the trait says how sure the figure is:
/// <c>read</c> in the text named, or <c>derived</c> from what was read there.
/// </summary>
public class PublishedTucksTests
{
    private static TuckPlan Plan(string request) => TuckPlan.Make(TuckRunJson.Read(JsonNode.Parse(request)));

    private static string[] Inches(IEnumerable<Length> lengths) => [.. lengths.Select(l => l.ToText(LengthUnit.Inches))];

    private static string In(Length length) => length.ToText(LengthUnit.Inches);

    /// <summary>Exercise 41: 8 inches of cloth, a 1 in hem-tuck creased 2 1/4 in from the raw edge, then a cluster of three 1/8 in tucks creased 3/8 in above the last stitching.</summary>
    private const string HemTuckAndCluster = """
        {"groups":[{"tucks":1,"width":"1 in"},{"tucks":3,"width":"1/8 in","space":"1/8 in"}],"between":["1/8 in"],"lead":"1/4 in","trail":"3 1/4 in","lies":"towards-start"}
        """;

    // McGlauflin, Handicraft for Girls (c. 1910), "Tucking", Exercise 41: creases and cloth as printed.
    [Fact]
    [Trait("sure", "read")]
    public void McGlauflins_hem_tuck_and_cluster_is_creased_where_she_says()
    {
        var plan = Plan(HemTuckAndCluster);
        Assert.Equal("8 in", In(plan.Cloth));
        Assert.Equal(["2 1/4 in", "3 5/8 in", "4 1/8 in", "4 5/8 in"], Inches(plan.Lines.Select(l => l.Fold)));
        Assert.All(plan.Lines.Zip(plan.Lines.Skip(1)), pair => Assert.Equal("3/8 in", In(pair.Second.Fold - pair.First.SecondStitch)));
    }

    // McGlauflin, the same exercise: "1/4 in of raw edge shows below the tuck" once it is sewn.
    [Fact]
    [Trait("sure", "read")]
    public void McGlauflins_raw_edge_shows_a_quarter_of_an_inch() =>
        Assert.Equal("1/4 in", In(Plan(HemTuckAndCluster).Lines[0].FinishedFold));

    // McGlauflin, the same exercise, worked out: stitching lines on the flat cloth and finished, 2 3/4 in taken up, 5 1/4 in left.
    [Fact]
    [Trait("sure", "derived")]
    public void McGlauflins_eight_inches_finish_at_five_and_a_quarter()
    {
        var plan = Plan(HemTuckAndCluster);
        Assert.Equal(["1 1/4 in", "3 1/2 in", "4 in", "4 1/2 in"], Inches(plan.Lines.Select(l => l.FirstStitch)));
        Assert.Equal(["3 1/4 in", "3 3/4 in", "4 1/4 in", "4 3/4 in"], Inches(plan.Lines.Select(l => l.SecondStitch)));
        Assert.Equal(["1 1/4 in", "1 1/2 in", "1 3/4 in", "2 in"], Inches(plan.Lines.Select(l => l.FinishedStitch)));
        Assert.Equal(("2 3/4 in", "5 1/4 in"), (In(plan.TakeUp), In(plan.Finished)));
    }

    // McGlauflin, "Putting a ruffle into a hem-tuck": crease at twice the hem and 1/4 in from the bottom, for any hem.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1/2 in", "1 1/4 in")]
    [InlineData("1 in", "2 1/4 in")]
    [InlineData("2 in", "4 1/4 in")]
    public void McGlauflins_hem_tuck_takes_a_ruffle_above_a_quarter_inch_seam(string hem, string crease) =>
        Assert.Equal(crease, In(Plan($$"""{"groups":[{"tucks":1,"width":"{{hem}}"}],"lead":"1/4 in","lies":"towards-start"}""").Lines[0].Fold));

    // Krolik, Hand Sewing Lessons, Model 6: half-inch tucks with half an inch between stitchings, first crease 1 1/2 in from the bottom;
    // the bottom of each tuck then meets the stitching of the tuck below.
    [Fact]
    [Trait("sure", "read")]
    public void Kroliks_half_inch_between_stitchings_leaves_no_space()
    {
        var plan = Plan("""{"groups":[{"tucks":4,"width":"1/2 in","stitchToStitch":"1/2 in"}],"lead":"1/2 in","lies":"towards-start"}""");
        Assert.Equal(["1 1/2 in", "3 in", "4 1/2 in", "6 in"], Inches(plan.Lines.Select(l => l.Fold)));
        Assert.All(plan.Lines.Zip(plan.Lines.Skip(1)), pair => Assert.Equal(pair.First.FinishedStitch, pair.Second.FinishedFold));
        Assert.All(plan.Spacings, s => Assert.Equal(Length.Zero, s.Space));
    }

    // Butterick, The New Dressmaker (1921), ch. 20 p. 98: pin tucks "one inch apart" from the sewing of one to the edge of the next.
    [Fact]
    [Trait("sure", "read")]
    public void Buttericks_inch_apart_is_the_plain_cloth_seen()
    {
        var plan = Plan("""{"groups":[{"tucks":2,"width":"1/16 in","space":"1 in"}],"lies":"towards-start"}""");
        Assert.Equal("1 in", In(plan.Lines[1].FinishedFold - plan.Lines[0].FinishedStitch));
        Assert.Equal(("1 1/16 in", "1 3/16 in"), (In(plan.Spacings[0].StitchToStitch), In(plan.Spacings[0].FoldToFold)));
    }

    // Patton, Home and School Sewing (c. 1901), ch. XXI: a tuck takes twice its depth and needs once that depth to rest on.
    [Fact]
    [Trait("sure", "read")]
    public void Pattons_touching_tucks_cost_three_layers()
    {
        var plan = Plan("""{"groups":[{"tucks":9,"width":"3/16 in","space":"0 in"}]}""");
        Assert.Equal(3 * plan.Finished, plan.Cloth);
    }

    // Patton, the same chapter: a group's spacing is equal to the width of the group; three tucks of 1/8 in, 1/8 in apart, make a group of 5/8 in.
    [Fact]
    [Trait("sure", "derived")]
    public void Pattons_groups_stand_as_far_apart_as_they_are_wide()
    {
        var plan = Plan("""
            {"groups":[{"tucks":3,"width":"1/8 in","space":"1/8 in"},{"tucks":3,"width":"1/8 in","space":"1/8 in"}],"between":["5/8 in"],"lies":"towards-start"}
            """);
        var (first, last, next) = (plan.Lines[0], plan.Lines[2], plan.Lines[3]);
        Assert.Equal(last.FinishedStitch - first.FinishedFold, next.FinishedFold - last.FinishedStitch);
    }

    // Woolman, A Sewing Course for Teachers, no. 34, gauge: first notch = distance from hem sewing to the inner sewing of the tuck + its depth.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1 in", "1/4 in", "3/4 in", "1 1/4 in")]
    [InlineData("1/2 in", "1/8 in", "3/8 in", "5/8 in")]
    public void Woolmans_gauge_finds_the_first_crease(string fromHem, string depth, string lead, string crease)
    {
        var line = Plan($$"""{"groups":[{"tucks":1,"width":"{{depth}}"}],"lead":"{{lead}}","lies":"towards-start"}""").Lines[0];
        Assert.Equal((fromHem, crease), (In(line.FirstStitch), In(line.Fold)));
    }

    // Printed instruction of a treadle machine's tucker: width 2 and space 2 gives 1/4 in tucks with no space, width 2 and space 3 the same 1/4 in apart.
    // Derived: the crease is marked space/4 in from the stitching just sewn.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("0 in", "1/2 in")]
    [InlineData("1/4 in", "3/4 in")]
    public void A_tuckers_scale_marks_the_next_crease(string space, string crease)
    {
        var plan = Plan($$"""{"groups":[{"tucks":2,"width":"1/4 in","space":"{{space}}"}],"lies":"towards-start"}""");
        Assert.Equal(crease, In(plan.Lines[1].Fold - plan.Lines[0].SecondStitch));
    }

    // NIMI, Dress Making, Trade Practical vol. 2, p. 209 ex. 1: 39 cm tucked, 1.2 cm apart, the outer tucks 1.5 cm from the edges: 31 tucks.
    [Fact]
    [Trait("sure", "read")]
    public void Nimis_thirty_nine_centimetres_take_thirty_one_tucks()
    {
        var plan = Plan("""{"groups":[{"tucks":31,"width":"2 mm","stitchToStitch":"1.2 cm"}],"lead":"1.5 cm","trail":"1.3 cm"}""");
        Assert.Equal(390m, plan.Finished.Millimetres);
        Assert.Equal(15m, plan.Lines[0].FinishedStitch.Millimetres);
        Assert.Equal(15m, (plan.Finished - plan.Lines[^1].FinishedStitch).Millimetres);
    }

    // NIMI, p. 209 ex. 2: 28 cm tucked, 16 tucks of 2 mm, margins 2 cm, corrected gap 1.6 cm: 6.4 cm taken up, pattern 34.4 cm.
    [Fact]
    [Trait("sure", "read")]
    public void Nimis_twenty_eight_centimetres_need_thirty_four_point_four()
    {
        var plan = Plan("""{"groups":[{"tucks":16,"width":"2 mm","stitchToStitch":"16 mm"}],"lead":"20 mm","trail":"18 mm"}""");
        Assert.Equal((280m, 64m, 344m), (plan.Finished.Millimetres, plan.TakeUp.Millimetres, plan.Cloth.Millimetres));
    }

    // NIMI, p. 209 ex. 2 again, asked the other way: of 14 to 17 tucks of 2 mm in 28 cm, the one with spaces of 14 mm is the printed one.
    [Fact]
    [Trait("sure", "derived")]
    public void A_fit_finds_Nimis_sixteen_tucks()
    {
        var answer = Fit.Find(FitRequestJson.Read(JsonNode.Parse("""
            {"finished":"28 cm","tucks":{"from":14,"to":17},"width":{"from":"2 mm","to":"2 mm"},"space":{"from":"14 mm","to":"14 mm"},
             "ends":{"from":"18 mm","to":"20 mm"},"finest":"1 mm"}
            """)));
        var only = Assert.Single(answer.Arrangements);
        Assert.Equal((16, 19m, 344m), (only.Tucks, only.Lead.Millimetres, only.Cloth.Millimetres));
    }

    // NIMI, p. 209: rounding the count down instead is as good, and the spacing is made again: 14 gaps of 24/14 cm, 15 tucks, 34.0 cm of cloth.
    [Fact]
    [Trait("sure", "derived")]
    public void Nimis_count_rounded_down_needs_thirty_four()
    {
        var plan = Plan("""{"groups":[{"tucks":15,"width":"2 mm","stitchToStitch":"17 1/7 mm"}],"lead":"20 mm","trail":"18 mm"}""");
        Assert.InRange((plan.Cloth.Millimetres - 340m) * 1_000_000m, -14, 14);
    }

    // The Workwoman's Guide (1838), girl's trowsers: deep tucks add about 2 nails to the breadth; three of 3/4 in do so exactly.
    [Fact]
    [Trait("sure", "derived")]
    public void Three_deep_tucks_take_the_workwomans_two_nails() =>
        Assert.Equal(Asking.Read("2 nails"), Plan("""{"groups":[{"tucks":3,"width":"3/4 in","space":"0 in"}]}""").TakeUp);

    // Geometry of graduated tucks (no authority on practice): the next depth counts twice to its crease, and take-up is twice the sum.
    [Fact]
    [Trait("sure", "derived")]
    public void Graduated_tucks_are_creased_by_the_next_depth()
    {
        var plan = Plan("""
            {"groups":[{"tucks":1,"width":"1 in"},{"tucks":1,"width":"3/4 in"},{"tucks":1,"width":"1/2 in"},{"tucks":1,"width":"1/4 in"}],
             "between":["1/4 in","1/4 in","1/4 in"],"lies":"towards-start"}
            """);
        Assert.Equal("5 in", In(plan.TakeUp));
        Assert.Equal(["1 3/4 in", "1 1/4 in", "3/4 in"], Inches(plan.Lines.Zip(plan.Lines.Skip(1), (a, b) => b.Fold - a.SecondStitch)));
    }

    // Old printed tables round: nine tucks of 5/32 in take 2 13/16 in, not the 2 1/4 or 3 3/8 of depths rounded to eighths or sixteenths first.
    [Fact]
    [Trait("sure", "derived")]
    public void Take_up_is_computed_before_anything_is_rounded() =>
        Assert.Equal("2 13/16 in", In(Plan("""{"groups":[{"tucks":9,"width":"5/32 in","space":"1/8 in"}]}""").TakeUp));
}
