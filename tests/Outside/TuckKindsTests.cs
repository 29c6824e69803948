using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// The kinds of tucks against the books. Each check names its source; the trait says how sure the figure is: <c>read</c> in the text named, or
/// <c>derived</c> from what was read there.
/// </summary>
public class TuckKindsTests
{
    private static Answer Ask(string slug, string request) => AllSums.Find(slug)!.Of(JsonNode.Parse(request));

    private static string Figure(Answer answer, string name) => answer.Say(answer.Figures.Single(f => f.Name == name).Value);

    private static string[] Column(Answer answer, string table, string column)
    {
        var found = answer.Tables.Single(t => t.Name == table);
        var at = found.Columns.Select(c => c.Name).ToList().IndexOf(column);
        return [.. found.Rows.Select(r => answer.Say(r[at]))];
    }

    private static Length In(string inches) => Asking.Read(inches + " in");

    // Krolik, Hand Sewing Lessons, Model 6: half-inch tucks with half an inch between stitchings meet; folds 1 1/2 in apart on the flat cloth.
    [Fact]
    [Trait("sure", "read")]
    public void Krolik_means_stitching_to_stitching()
    {
        var answer = Ask("spacing", """{"apart":"1/2 in","way":"stitch-to-stitch","width":"1/2 in","lies":"towards-start"}""");
        Assert.Equal(("0 in", "1 1/2 in"), (Figure(answer, "space"), Figure(answer, "foldToFold")));
    }

    // Butterick, The New Dressmaker (1921), ch. 20 p. 98: pin tucks an inch apart "from the sewing of one tuck to the edge of the next"; the depth of 1/16 in is ours.
    [Fact]
    [Trait("sure", "read")]
    public void Butterick_means_the_plain_cloth()
    {
        var answer = Ask("spacing", """{"apart":"1 in","way":"space","width":"1/16 in"}""");
        Assert.Equal(("1 1/16 in", "1 3/16 in"), (Figure(answer, "stitchToStitch"), Figure(answer, "foldToFold")));
    }

    // NIMI, Dress Making, Trade Practical vol. 2, p. 209 ex. 2: the printed corrected "gap" of 1.6 cm is from stitching to stitching; of 2 mm tucks 1.4 cm is seen.
    [Fact]
    [Trait("sure", "derived")]
    public void Nimis_corrected_gap_leaves_fourteen_millimetres_seen() =>
        Assert.Equal("14 mm", Figure(Ask("spacing", """{"apart":"1.6 cm","way":"stitch-to-stitch","width":"2 mm"}"""), "space"));

    // McGlauflin, Handicraft for Girls (c. 1910), exercise 41: the crease 3/8 in above the last stitching of 1/8 in tucks leaves a space of 1/8 in.
    [Fact]
    [Trait("sure", "derived")]
    public void McGlauflins_crease_is_the_second_notch()
    {
        var answer = Ask("gauge-card", """{"width":"1/8 in","space":"1/8 in"}""");
        Assert.Equal(("3/8 in", "1/4 in"), (Figure(answer, "nextCrease"), Figure(answer, "finishedCheck")));
    }

    // Patton (c. 1901), ch. XXI, Butterick (1911, 1921) and The Workwoman's Guide (1838): a card notched at depth, and at depth and space; 3/8 and 1/4 in give 3/8 and 5/8.
    [Fact]
    [Trait("sure", "derived")]
    public void Pattons_card_is_notched_at_three_and_five_eighths()
    {
        var answer = Ask("gauge-card", """{"width":"3/8 in","space":"1/4 in"}""");
        Assert.Equal(("3/8 in", "5/8 in"), (Figure(answer, "stitching"), Figure(answer, "finishedCheck")));
    }

    // New Zealand Herald, 9 April 1924, p. 16: gauge marks at the tuck, twice the tuck and then the space, generally as wide as the tuck: 1/4, 1/2, 3/4 in.
    [Fact]
    [Trait("sure", "derived")]
    public void The_Heralds_card_ends_where_the_next_crease_lies() =>
        Assert.Equal("3/4 in", Figure(Ask("gauge-card", """{"width":"1/4 in","space":"1/4 in"}"""), "nextCrease"));

    // Woolman, A Sewing Course for Teachers, no. 34: first notch = distance from the hem's sewing to the inner sewing of the tuck + its depth.
    [Fact]
    [Trait("sure", "read")]
    public void Woolmans_first_crease_counts_from_the_hem() =>
        Assert.Equal("1 1/4 in", Figure(Ask("gauge-card", """{"width":"1/4 in","space":"1/4 in","fromHem":"1 in"}"""), "firstCrease"));

    // Printed instruction sheet of a treadle machine's tucker: width 2 and space 2, 1/4 in tucks with no space; width 2 and space 3, 1/4 in apart.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(2, 2, "0 in")]
    [InlineData(2, 3, "1/4 in")]
    public void A_tuckers_marks_make_the_tucks_it_says(int widthMark, int spaceMark, string space)
    {
        var answer = Ask("tucker-marks", $$"""{"widthMark":{{widthMark}},"spaceMark":{{spaceMark}}}""");
        Assert.Equal(("1/4 in", space), (Figure(answer, "width"), Figure(answer, "space")));
    }

    // The same sheet, asked the other way.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("0 in", "2")]
    [InlineData("1/4 in", "3")]
    public void Quarter_inch_tucks_are_set_at_width_two(string space, string spaceMark)
    {
        var answer = Ask("gauge-card", $$"""{"width":"1/4 in","space":"{{space}}"}""");
        Assert.Equal(("2", spaceMark), (Column(answer, "attachment", "widthMark")[0], Column(answer, "attachment", "spaceMark")[0]));
    }

    // Patton, ch. XXI: for ordinary muslin the space is half the tuck. Woolman no. 34: one third to one half of wide ones. New Zealand Herald: as wide as the tuck.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1/4 in", "1/8 in", "yes", "yes", "no")]
    [InlineData("1 in", "1/2 in", "yes", "yes", "no")]
    [InlineData("1 in", "3/8 in", "no", "yes", "no")]
    [InlineData("3/8 in", "3/8 in", "no", "no", "yes")]
    [InlineData("1/16 in", "1/16 in", "no", "yes", "yes")]
    [InlineData("1/16 in", "0 in", "no", "yes", "no")]
    public void The_books_disagree_about_the_usual_space(string width, string space, string patton, string woolman, string herald) =>
        Assert.Equal([patton, woolman, herald], Column(Ask("tuck-kinds", $$"""{"width":"{{width}}","space":"{{space}}","tucks":3}"""), "usualSpaces", "agrees"));

    // Butterick (1921), ch. 20 p. 97: nun's tucks are usually 2 in or more wide.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("2 in", "nuns")]
    [InlineData("1 63/64 in", "plain")]
    public void Buttericks_nuns_tucks_begin_at_two_inches(string width, string kind) =>
        Assert.Equal(kind, TuckNames.Of(In(width[..^3])));

    // A modern Indian college note on tucks: pin tucks are usually under 1/8 in.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("7/64", "pin")]
    [InlineData("1/8", "plain")]
    public void Pin_tucks_are_under_an_eighth(string width, string kind) => Assert.Equal(kind, TuckNames.Of(In(width)));

    // Woolman no. 34: tucks from 1/16 in to about 2 in. Outside is unusual, never refused.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1/16 in", false)]
    [InlineData("2 in", false)]
    [InlineData("1/32 in", true)]
    [InlineData("3 in", true)]
    public void Woolmans_depths_are_usual_and_others_are_not_refused(string width, bool unusual) =>
        Assert.Equal(unusual, Ask("tuck-kinds", $$"""{"width":"{{width}}","space":"1/2 in","tucks":3}""").Cautions.Any(c => c.Code == "unusual-width"));

    // Patton, ch. XXI: three, five or seven rather than an even number; a group's spacing equal to its width: three of 1/8 in, 1/8 in apart, then 5/8 in.
    [Fact]
    [Trait("sure", "read")]
    public void Patton_likes_odd_numbers_and_groups_as_far_apart_as_they_are_wide()
    {
        var four = Ask("tuck-kinds", """{"width":"1/8 in","space":"1/8 in","tucks":4}""");
        Assert.Contains(four.Notes, n => n.Text.Contains("take 3 or 5", StringComparison.Ordinal) && n.Source!.StartsWith("Patton", StringComparison.Ordinal));
        var three = Ask("tuck-kinds", """{"width":"1/8 in","space":"1/8 in","tucks":3}""");
        Assert.DoesNotContain(three.Notes, n => n.Text.Contains("even number", StringComparison.Ordinal));
        Assert.Equal("5/8 in", Figure(three, "suggestedGap"));
    }

    // A group of five 1/4 in tucks 1/8 in apart (Patton's space) is 1 3/4 in wide, and so many fit there; worked by hand in fractions.
    [Fact]
    [Trait("sure", "derived")]
    public void Five_of_Pattons_tucks_just_fill_an_inch_and_three_quarters()
    {
        var answer = Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","finishedAtMost":"1 3/4 in"}""");
        Assert.Equal(("5", "1 3/4 in"), (Figure(answer, "mostTucks"), Figure(answer, "groupWidth")));
        Assert.Equal("4", Figure(Ask("tuck-kinds", """{"width":"1/4 in","space":"1/8 in","finishedAtMost":"1 47/64 in"}"""), "mostTucks"));
    }

    // NIMI, p. 209: 28 cm between, outer margins 2 cm, tucks of 2 mm and 15 mm: 14.1 gaps. Rounded down, as the text allows, 15 tucks fit; its own 16 need 14 mm.
    [Fact]
    [Trait("sure", "derived")]
    public void Nimis_count_rounded_down_fits_and_its_sixteen_need_less_space()
    {
        const string nimi = "\"width\":\"2 mm\",\"space\":\"15 mm\",\"lead\":\"18 mm\",\"trail\":\"20 mm\",\"finishedAtMost\":\"280 mm\"";
        Assert.Equal("15", Figure(Ask("tuck-kinds", "{" + nimi + "}"), "mostTucks"));
        var refused = Assert.Throws<FaultException>(() => Ask("tuck-kinds", "{\"tucks\":16," + nimi + "}"));
        Assert.Contains("the space can be at most 14 mm", refused.Message, StringComparison.Ordinal);
    }

    // Graduated by similar triangles, 1 in to 1/4 in over four: 1, 3/4, 1/2, 1/4; take-up 5 in. Plain geometry, no authority on practice.
    [Fact]
    [Trait("sure", "derived")]
    public void Graduated_tucks_fall_by_similar_triangles()
    {
        var answer = Ask("graduated", """{"tucks":4,"first":"1 in","last":"1/4 in","space":"1/4 in"}""");
        Assert.Equal(["1 in", "3/4 in", "1/2 in", "1/4 in"], Column(answer, "lines", "width"));
        Assert.Equal("5 in", Figure(answer, "takeUp"));
    }

    // From the stitching of a 1 in tuck to the crease of the next, 1/2 in wide, 1/4 in apart: 1 1/4 in; the next width counts twice (McGlauflin's rule for the next crease).
    [Fact]
    [Trait("sure", "derived")]
    public void The_crease_of_the_narrower_tuck_counts_its_own_width()
    {
        var plan = Ask("graduated", """{"tucks":2,"first":"1 in","step":"-1/2 in","space":"1/4 in"}""");
        Assert.Equal("1 1/4 in", (In(Column(plan, "lines", "fold")[1][..^3]) - In(Column(plan, "lines", "secondStitch")[0][..^3])).ToText(LengthUnit.Inches));
    }

    // McGlauflin, exercise 39, Hapgood, Baldt, Patton: a growth tuck lengthens when it is let out; one of 1 in by 2 in.
    [Fact]
    [Trait("sure", "derived")]
    public void A_growth_tuck_of_an_inch_gives_two() => Assert.Equal("2 in", Figure(Ask("growth", """{"tucks":1,"width":"1 in"}"""), "gainAll"));

    // The Workwoman's Guide (1838), girl's trowsers: deep tucks add about 2 nails; three of 3/4 in, let out, give them back.
    [Fact]
    [Trait("sure", "derived")]
    public void The_workwomans_two_nails_come_back() => Assert.Equal(Asking.Read("2 nails"), GrowthTucks.Gains([In("3/4"), In("3/4"), In("3/4")])[^1]);

    // McGlauflin, exercise 41: a 1 in hem-tuck creased 2 1/4 in from the raw edge, stitched at 1 1/4 and 3 1/4; 1/4 in of raw edge shows below.
    [Fact]
    [Trait("sure", "read")]
    public void McGlauflins_hem_tuck_is_creased_at_two_and_a_quarter()
    {
        var answer = Ask("receiving", """{"width":"1 in","set":"ruffle","setWidth":"3 in"}""");
        Assert.Equal(("2 1/4 in", "1 1/4 in", "3 1/4 in", "1/4 in"), (Figure(answer, "crease"), Figure(answer, "firstStitch"), Figure(answer, "secondStitch"), Figure(answer, "rawEdgeShows")));
    }

    // McGlauflin, the whole exercise as tucks each of their own: folds 3 5/8, 4 1/8, 4 5/8 in; the first hangs 1/8 in above the hem-tuck's stitching.
    [Fact]
    [Trait("sure", "read")]
    public void McGlauflins_cluster_stands_on_its_hem_tuck()
    {
        var answer = Ask("unequal", """
            {"tucks":[{"width":"1 in","space":"1/8 in"},{"width":"1/8 in","space":"1/8 in"},{"width":"1/8 in","space":"1/8 in"},{"width":"1/8 in"}],"lead":"1/4 in","trail":"3 1/4 in","lies":"towards-start","clothAtMost":"8 in"}
            """);
        Assert.Equal(["2 1/4 in", "3 5/8 in", "4 1/8 in", "4 5/8 in"], Column(answer, "lines", "fold"));
        Assert.Equal(("1 3/8 in", "5 1/4 in"), (Column(answer, "lines", "finishedFold")[1], Figure(answer, "finished")));
    }

    // Kinne and Cooley, Clothing and Health (c. 1916), lesson 13: a receiving tuck of 3/8 in, 1 in allowed: it takes 3/4 in and leaves the 1/4 in seam.
    [Fact]
    [Trait("sure", "read")]
    public void Kinne_and_Cooleys_inch_is_just_enough()
    {
        var answer = Ask("receiving", """{"width":"3/8 in","set":"ruffle","setWidth":"4 in","allowed":"1 in"}""");
        Assert.Equal(("3/4 in", "1 in", "0 in"), (Figure(answer, "takeUp"), Figure(answer, "allow"), Figure(answer, "left")));
    }

    // Cross tucking on a finished 6 x 6 in, five tucks of 1/8 in each way: 7 1/4 x 7 1/4 in of cloth; take-up counts in each direction for itself.
    [Fact]
    [Trait("sure", "derived")]
    public void Crossed_tucks_need_seven_and_a_quarter_both_ways()
    {
        const string way = """{"tucks":5,"width":"1/8 in","space":"1 in","lead":"1/2 in","finished":"6 in"}""";
        var answer = Ask("crossed", $$"""{"down":{{way}},"across":{{way}}}""");
        Assert.Equal(("7 1/4 in", "7 1/4 in", "6 in", "6 in"), (Figure(answer, "clothWidth"), Figure(answer, "clothLength"), Figure(answer, "finishedWidth"), Figure(answer, "finishedLength")));
    }

    // Butterick (1921), ch. 20 p. 98: tucks and cross tucks an inch apart, from sewing to edge, make true squares.
    [Fact]
    [Trait("sure", "read")]
    public void Buttericks_cross_tucks_make_true_squares()
    {
        const string way = """{"tucks":5,"width":"1/16 in","space":"1 in"}""";
        Assert.Equal("yes", Figure(Ask("crossed", $$"""{"down":{{way}},"across":{{way}}}"""), "square"));
    }

    // Baldt, Clothing for Women (1916), p. 401: side plaits, tucks let go, are from 1 1/2 to 2 1/2 times as full; the depths and spaces are ours. Plaits that meet: three times (Hapgood).
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1/2 in", "1 1/2 in", "1.5")]
    [InlineData("3/4 in", "1/4 in", "2.5")]
    [InlineData("1/2 in", "0 in", "3")]
    public void What_is_let_go_is_as_full_as_Baldts_plaits(string width, string space, string fullness) =>
        Assert.Equal(fullness, Figure(Ask("release", $$"""{"tucks":5,"width":"{{width}}","space":"{{space}}","trail":"{{space}}","sewn":"4 in"}"""), "fullness"));

    // Baldt, c. p. 400: allow twice the depth for each tuck; nun's tucks of Butterick's 2 in, two of them: 8 in longer.
    [Fact]
    [Trait("sure", "derived")]
    public void Two_nuns_tucks_are_cut_eight_inches_longer() =>
        Assert.Equal("8 in", Figure(Ask("nuns", """{"tucks":2,"width":"2 in","space":"1 in"}"""), "longerBy"));

    // The circumference of a circle, and of the half circle that goes round a cord lying between two parallel layers: textbook geometry, π to six places.
    [Fact]
    [Trait("sure", "derived")]
    public void A_cord_hard_against_its_stitching_is_gone_round_once()
    {
        var cord = Length.FromMillimetres(10);
        Assert.Equal(31.415927m, (2 * cord + CordedTucks.Adds(cord, cord)).Millimetres);
        Assert.Equal(15.707963m, (cord + CordedTucks.Least(cord)).Millimetres);
    }
}
