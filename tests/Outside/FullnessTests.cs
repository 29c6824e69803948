using static HeirloomArchive.Outside.Tests.Asking;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Ruffles, gathers, puffing and smocking against printed figures.</summary>
public class FullnessTests
{
    // Baldt, Clothing for Women (1916): straight 1 1/3 to 1 1/2, bias and dust ruffle 1 1/4 to 1 1/3; the lengths are derived.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("60 in", "Straight ruffle", "80 in", "90 in")]
    [InlineData("60 in", "Ruffle cut on the bias", "75 in", "80 in")]
    [InlineData("72 in", "Dust ruffle", "90 in", "96 in")]
    public void Baldts_ruffles_lie_between_her_two_figures(string edge, string kind, string least, string most)
    {
        var row = Of("ruffle", $$"""{"finished":"{{edge}}"}""")["usual"]!.AsArray().Single(r => (string)r!["kind"]! == kind)!;
        Assert.Equal((least, most), ((string)row["least"]!["text"]!, (string)row["most"]!["text"]!));
    }

    // Baldt: 90 in of ruffle from cloth 36 in wide is 2.5 strips, rounded up to 3; 6 in deep they take 18 in.
    [Fact]
    [Trait("sure", "read")]
    public void Baldts_strips_are_rounded_up()
    {
        var answer = Of("ruffle", """{"finished":"60 in","flat":"90 in","depth":"5 in","hem":"3/4 in","seam":"1/4 in","loom":"36 in"}""");
        Assert.Equal((3, "18 in"), ((int)answer["strips"]!, Text(answer, "cloth")));
    }

    // Baldt, drawers: leg edge times the fullness, twice for two legs.
    [Fact]
    [Trait("sure", "read")]
    public void Drawers_need_the_ruffle_twice()
    {
        var answer = Of("ruffle", """{"finished":"18 in","fullness":"1 1/2","pieces":2}""");
        Assert.Equal(("27 in", "54 in"), (Text(answer, "flat"), Text(answer, "allPieces")));
    }

    // Kinne and Cooley, Clothing and Health (c. 1916), lesson 12: a petticoat ruffle is 1 1/2 times the skirt.
    [Fact]
    [Trait("sure", "read")]
    public void A_petticoat_of_eighty_inches_has_a_ruffle_of_a_hundred_and_twenty() =>
        Assert.Equal("120 in", Text(Of("ruffle", """{"finished":"80 in","kind":"petticoat"}"""), "flat"));

    // A petticoat pattern sheet of 1907: 1 1/3 times the skirt line, and 1 1/2 times that for the lower flounce.
    [Fact]
    [Trait("sure", "read")]
    public void Two_flounces_of_1907_are_twice_the_skirt_together()
    {
        var answer = Of("ruffle", """{"finished":"90 in","fullness":"1 1/3","lowerFullness":"1 1/2"}""");
        Assert.Equal(("120 in", "180 in"), (Text(answer, "flat"), Text(answer, "lowerFlat")));
        Assert.Equal(2m, (decimal)answer["bothFullness"]!, 20);
    }

    // Hapgood, School Needlework, whipping: 12 in of ruffle on 6 in.
    [Fact]
    [Trait("sure", "read")]
    public void Hapgoods_whipped_sample_is_twice_as_full() =>
        Assert.Equal(2m, (decimal)Of("ruffle", """{"finished":"6 in","flat":"12 in"}""")["fullness"]!);

    // The New Dressmaker (1921), pp. 137 and 142: chiffon three times, taffeta about twice.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("chiffon-ruche", "30 in")]
    [InlineData("quilling", "30 in")]
    [InlineData("taffeta-ruche", "20 in")]
    public void Ruches_of_1921_depend_on_the_silk(string kind, string flat) =>
        Assert.Equal(flat, Text(Of("ruffle", $$"""{"finished":"10 in","kind":"{{kind}}"}"""), "flat"));

    // The New Dressmaker (1921), p. 142: a puff ruffle takes twice its width and 2 in of heading.
    [Fact]
    [Trait("sure", "read")]
    public void A_puff_ruffle_of_three_inches_is_cut_eight() =>
        Assert.Equal("8 in", Text(Of("puffing", """{"finished":"20 in","kind":"puff-ruffle","width":"3 in"}"""), "cutDepth"));

    // Dress Making, NIMI, p. 212: a frill of 1.80 m three times as full, from cloth 1.10 m wide, cut 12 + 3 cm: 5 strips, 75 cm.
    [Fact]
    [Trait("sure", "read")]
    public void The_solved_frill_takes_five_strips()
    {
        var answer = Of("ruffle", """{"finished":"1.80 m","fullness":3,"depth":"12 cm","hem":"3 cm","loom":"1.10 m"}""");
        Assert.Equal((5400m, 5, 750m), (Millimetres(answer, "flat"), (int)answer["strips"]!, Millimetres(answer, "cloth")));
    }

    // Hapgood: first row of gathering 1/4 in from the edge, second 1/4 in lower.
    [Fact]
    [Trait("sure", "read")]
    public void Hapgoods_rows_of_gathering_stand_a_quarter_inch_apart() =>
        Assert.Equal([6.35m, 12.7m], Of("gathers", """{"finished":"10 in","fullness":2}""")["gatheringRows"]!.AsArray().Select(r => (decimal)r!["fromEdge"]!["mm"]!));

    // The Workwoman's Guide (1838), of running stitch: take 3 threads, leave 3; on 72 threads to the inch that is 12 stitches (derived).
    [Fact]
    [Trait("sure", "derived")]
    public void Three_threads_and_three_are_twelve_stitches_to_the_inch() =>
        Assert.Equal(12, (int)Of("gathers", """{"flat":"1 in","fullness":2,"taken":3,"left":3,"threads":72,"threadsOver":"1 in"}""")["stitches"]![0]!["gathers"]!);

    // The Workwoman's Guide: about ten threads are rolled; on 40 threads to the centimetre 2.5 mm (derived).
    [Fact]
    [Trait("sure", "derived")]
    public void Ten_threads_of_fine_lawn_make_the_roll() =>
        Assert.Equal(2.5m, Millimetres(Of("gathers", """{"finished":"10 cm","edge":"whipped","threads":40,"threadsOver":"1 cm"}"""), "roll"));

    // Goodwin, Course in Sewing, Book III: a flounce cut 3 yards wide; on a skirt of 72 in it is 1 1/2 times as full (derived).
    [Fact]
    [Trait("sure", "derived")]
    public void Goodwins_flounce_of_three_yards_is_half_as_long_again() =>
        Assert.Equal(1.5m, (decimal)Of("ruffle", """{"finished":"72 in","flat":"3 yd"}""")["fullness"]!);

    // Marked in halves and quarters, as all the handbooks read have it; the figures are plain division.
    [Fact]
    [Trait("sure", "derived")]
    public void Both_edges_are_marked_in_quarters()
    {
        var marks = Of("ruffle", """{"finished":"80 in","flat":"120 in"}""")["quarterMarks"]!.AsArray();
        Assert.Equal(["30 in", "60 in", "90 in"], marks.Select(m => Text(m!, "flat")));
        Assert.Equal(["20 in", "40 in", "60 in"], marks.Select(m => Text(m!, "finished")));
    }
}
