namespace HeirloomArchive.Worksheets.Tests;

/// <summary>Lace round an edge against I. McGlauflin, Handicraft for Girls (Peoria, c. 1910), and O. C. Hapgood, School Needlework (1890s).</summary>
public class LaceTests
{
    [Theory]
    [InlineData("1 in", 1, 1, "3 in")] // McGlauflin: an edge as long as the lace is wide takes twice the width at a corner.
    [InlineData("48 in", 1, 4, "56 in")] // A 12 in square, plain.
    [InlineData("48 in", 1.5, 4, "80 in")] // The same, half as much again for fullness.
    public void Lace_of_one_inch(string edge, double fullness, int corners, string needed) => Assert.Equal(needed, Length(
        $$"""{"edge":"{{edge}}","width":"1 in","fullness":{{fullness.ToString(System.Globalization.CultureInfo.InvariantCulture)}},"corners":{{corners}}}"""));

    [Fact] public void A_mitred_frame_of_ten_by_fourteen_takes_eight_widths_more() =>
        Assert.Equal("64 in", Length("""{"edge":"48 in","width":"2 in","corners":4}"""));

    [Fact] public void Lace_recorded_as_gathered_takes_once_and_a_half() =>
        Assert.Equal("78 in", Length("""{"technique":"lace","edge":"48 in","corners":4}"""));

    [Fact] public void Several_pieces_alike_take_several_times_as_much()
    {
        var lace = Examples.Made(Examples.Five("""{"alike":3,"trims":[{"edge":"10 in"}]}""")).Result["lace"]![0]!;
        Assert.Equal("30 in", lace["lengthForAll"]!["text"]!.GetValue<string>());
    }

    [Fact] public void Where_corners_take_lace_the_source_is_named()
    {
        var lace = Examples.Made(Examples.Five("""{"trims":[{"edge":"10 in","width":"1 in","corners":1}]}""")).Result["lace"]![0]!;
        Assert.Contains("McGlauflin", lace["working"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    private static string Length(string trim) =>
        Examples.Made(Examples.Five($$"""{"garment":"{{Examples.GarmentId}}","trims":[{{trim}}]}""")).Result["lace"]![0]!["length"]!["text"]!.GetValue<string>();
}
