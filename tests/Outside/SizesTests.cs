using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sizes;
using static HeirloomArchive.Outside.Tests.Asking;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Fits, groups, sizes and measured runs against worked examples and rules that others have printed.</summary>
public class SizesTests
{
    private static readonly Length Millimetre = Length.FromMillimetres(1);

    private static FitAnswer Fitted(string finished, int from, int to, string width, string space, LengthRange ends, Length finest, bool uneven = false) => Fit.Find(new()
    {
        Finished = Read(finished),
        Tucks = new(from, to),
        Width = new(Read(width), Read(width)),
        Space = new(Read(space), Read(space)),
        Ends = ends,
        Finest = finest,
        UnevenEnds = uneven,
    });

    /// <summary>
    /// A block of tucks from the lowest fold to the top stitching, with the depths and spaces of McGlauflin, Patton, Krolik, Woolman, the New Zealand Herald,
    /// Butterick 1921 and a tucking attachment's sheet. Depth and space are read there; the width of the block is worked out.
    /// </summary>
    [Theory]
    [Trait("sure", "derived")]
    [InlineData(3, "1/8 in", "1/8 in", "5/8 in")] // McGlauflin, exercise 41
    [InlineData(5, "1/4 in", "1/8 in", "1 3/4 in")] // Patton: half the tuck, an odd number
    [InlineData(7, "1/8 in", "1/16 in", "1 1/4 in")] // Patton
    [InlineData(3, "1/2 in", "0 in", "1 1/2 in")] // Krolik, model 6
    [InlineData(5, "1/16 in", "1/16 in", "9/16 in")] // Woolman: very narrow, as far apart as wide
    [InlineData(9, "1/16 in", "0 in", "9/16 in")] // Woolman: the fold reaches the sewing below
    [InlineData(3, "1 in", "1/2 in", "4 in")] // Woolman: wide, one half
    [InlineData(4, "3/8 in", "3/8 in", "2 5/8 in")] // New Zealand Herald, 1924
    [InlineData(5, "1/16 in", "1 in", "4 5/16 in")] // Butterick 1921: pin tucks an inch apart
    [InlineData(2, "2 in", "1 in", "5 in")] // Butterick 1921: nun's tucks
    [InlineData(6, "1/4 in", "0 in", "1 1/2 in")] // tucking attachment set at 2 and 2
    public void A_block_of_printed_tucks_is_filled_by_its_count_and_no_other(int tucks, string width, string space, string block)
    {
        var only = Assert.Single(Fitted(block, 1, 400, width, space, new(Length.Zero, Length.Zero), Read("1/16 in")).Arrangements);
        Assert.Equal(tucks, only.Tucks);
        Assert.Equal(Read(block) + (2 * tucks * Read(width)), only.Cloth);
    }

    // How many fit is the whole part of (U + s) / (d + s): 1 3/4 in hold five tucks of 1/4 in with 1/8 in between, a sixteenth less only four.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("1 3/4 in", 5)]
    [InlineData("1 11/16 in", 4)]
    public void As_many_tucks_fit_as_the_whole_part_says(string finished, int most)
    {
        Assert.True(Fits(most, most));
        Assert.False(Fits(most + 1, 400));

        bool Fits(int from, int to) => Fitted(finished, from, to, "1/4 in", "1/8 in", new(Length.Zero, Read("2 in")), Read("1/16 in"), uneven: true).Fits;
    }

    // NIMI, Dress Making, p. 209, example 1: 39 cm, lines 1.2 cm apart, the outer ones 1.5 cm from the edges: 30 gaps, 31 tucks. Of 2 mm, as in example 2.
    [Fact]
    [Trait("sure", "read")]
    public void Nimis_thirty_nine_centimetres_hold_thirty_one_tucks() =>
        Assert.Equal(31, Assert.Single(Fitted("39 cm", 1, 100, "2 mm", "10 mm", new(13 * Millimetre, 15 * Millimetre), Millimetre, uneven: true).Arrangements, a => (a.Lead, a.Trail) == (15 * Millimetre, 13 * Millimetre)).Tucks);

    // NIMI, p. 209, example 2: 28 cm, 2 mm tucks, 2 cm margins, corrected distance 1.6 cm: 16 tucks from 34.4 cm of cloth.
    [Fact]
    [Trait("sure", "read")]
    public void Nimis_twenty_eight_centimetres_hold_sixteen_tucks_from_thirty_four_point_four()
    {
        var found = Assert.Single(Fitted("28 cm", 1, 100, "2 mm", "14 mm", new(18 * Millimetre, 20 * Millimetre), Millimetre, uneven: true).Arrangements, a => (a.Lead, a.Trail) == (20 * Millimetre, 18 * Millimetre));
        Assert.Equal((16, Read("34.4 cm")), (found.Tucks, found.Cloth));
    }

    // The same example the other way: the asked gap of 1.5 cm is corrected to 1.4 cm of plain cloth (1.6 cm less the tuck) when sixteen tucks are to fill 28 cm.
    [Fact]
    [Trait("sure", "derived")]
    public void Nimis_corrected_gap_is_what_keeping_the_count_gives()
    {
        var run = Scaling.Make(ScalingWay.KeepCount, new(16, 2 * Millimetre, 15 * Millimetre, 19 * Millimetre), Read("28 cm"), Millimetre)!;
        Assert.Equal((16, 14 * Millimetre, Read("28 cm"), Read("34.4 cm")), (run.Tucks, run.Space, run.Finished, run.Cloth));
    }

    // The same rounded down, 15 tucks: 24/14 cm is no whole number of millimetres, and the fit says so instead of rounding.
    [Fact]
    [Trait("sure", "derived")]
    public void Nimis_fifteen_tucks_do_not_come_out_on_whole_millimetres()
    {
        var answer = Fitted("28 cm", 15, 15, "2 mm", "15 mm", new(19 * Millimetre, 19 * Millimetre), Millimetre);
        Assert.False(answer.Fits);
        Assert.Contains(answer.Nearest, n => n.Change == FitChange.Finished && n.Arrangement.Finished == Read("27.8 cm"));
    }

    // Patton, Home and School Sewing, ch. XXI: odd counts, a gap as wide as the group. Three groups of three 1/8 in tucks with 1/8 in between: 3 1/8 in.
    [Fact]
    [Trait("sure", "derived")]
    public void Pattons_groups_as_far_apart_as_they_are_wide_fill_five_group_widths()
    {
        var group = Read("5/8 in");
        var found = FitGroups.Find(new()
        {
            Finished = 5 * group,
            Groups = new(3, 3),
            Tucks = new(3, 3),
            Width = new(Read("1/8 in"), Read("1/8 in")),
            Space = new(Read("1/8 in"), Read("1/8 in")),
            Gap = new(Length.Zero, Read("2 in")),
            Ends = new(Length.Zero, Length.Zero),
            Finest = Read("1/16 in"),
        });
        Assert.Equal(group, Assert.Single(found.Arrangements).Gap);
    }

    // Nine tucks of 5/32 in take 2 13/16 in; depths rounded to eighths or three-sixteenths first would take 2 1/4 or 3 3/8.
    [Fact]
    [Trait("sure", "derived")]
    public void A_new_size_rounds_no_depth_before_the_take_up()
    {
        var run = Scaling.Make(ScalingWay.KeepCount, new(9, Read("5/32 in"), Read("1/8 in"), Read("1 in")), Read("10 in"), Read("1/32 in"))!;
        Assert.Equal(Read("2 13/16 in"), run.Cloth - run.Finished);
    }

    // A treadle machine's tucking attachment: 1/4 in tucks, 1/4 in apart (its sheet, width 2 and space 3); measured, such a run points at quarters.
    [Fact]
    [Trait("sure", "read")]
    public void Tucks_of_an_attachment_point_at_its_scale()
    {
        var run = MeasuredRun.Of(new([new(Read("4 3/4 in"), 10, Read("1/4 in"), Read("1/4 in"))], [new(Read("4 in"), 8)], [], [], Read("1/32 in")));
        Assert.Equal(("1/4 in", Read("1/4 in"), Read("1/4 in")), (run.Markings[0].Name, run.Markings[0].Width, run.Markings[0].Space));
    }

    // Krolik, Hand Sewing Lessons, model 6: 1/2 in tucks, 1/2 in between stitchings: the fold of each meets the stitching of the next.
    [Fact]
    [Trait("sure", "read")]
    public void Kroliks_half_inch_tucks_measure_as_meeting()
    {
        var run = MeasuredRun.Of(new([], [new(Read("1 1/2 in"), 3)], [Read("1/2 in"), Read("1/2 in")], [], Read("1/16 in")));
        Assert.Equal((Read("1/2 in"), Length.Zero), (run.Repeat.Value, run.Space!.Value));
        Assert.Equal(Length.Zero, run.Markings[0].Space);
    }
}
