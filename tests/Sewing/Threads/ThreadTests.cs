using CsCheck;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Sewing.Threads;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Threads;

public class ThreadTests
{
    [Theory]
    [InlineData("ne", "80/2")]
    [InlineData("ne", "2/80")]
    [InlineData("ne", "80 x 2")]
    [InlineData("ne", "No. 40")]
    public void Eighty_two_is_forty_in_all(string system, string written)
    {
        var answer = Of("thread-count", $$"""{"system":"{{system}}","written":"{{written}}"}""");
        Assert.Equal(14.763531m, (decimal)answer["tex"]!);
        Assert.Equal("6479891/438912", (string?)answer["texExact"]);
        Assert.Equal(40m, (decimal)answer["ne"]!);
    }

    [Fact]
    public void Every_count_comes_back_through_every_other() => Gen.Select(Gen.Int[1, 9_999], Gen.Int[1, 12]).Sample((hundredths, plies) =>
    {
        var count = hundredths / 100m;
        Assert.Equal(count / plies, ThreadSize.FromNe(count).Plied(plies).Ne, 10);
        Assert.Equal(count / plies, ThreadSize.FromNm(count).Plied(plies).Nm, 10);
        Assert.Equal(count / plies, ThreadSize.FromLea(count).Plied(plies).Lea, 10);
        Assert.Equal(count * plies, ThreadSize.FromTex(count).Plied(plies).Tex);
        Assert.Equal(count * plies, ThreadSize.FromDtex(count).Plied(plies).Dtex);
        Assert.Equal(count * plies, ThreadSize.FromDenier(count).Plied(plies).Denier);
        Assert.Equal(ThreadSize.FromTex(count), ThreadSize.FromDtex(count * 10));
        Assert.Equal(ThreadSize.FromTex(count), ThreadSize.FromDenier(count * 9));
    });

    [Fact]
    public void Twice_as_heavy_is_root_two_as_thick()
    {
        var (one, two) = (ThreadSize.FromTex(20).Diameter(1.52, 0.6), ThreadSize.FromTex(40).Diameter(1.52, 0.6));
        Assert.InRange((double)two.Nanometres / one.Nanometres, 1.41420, 1.41423);
        Assert.InRange(one.Millimetres, 0.16m, 0.17m);
    }

    [Theory]
    [InlineData("ticket", "120", 25)]
    [InlineData("weight", "40", 25)]
    [InlineData("six-cord", "40", 44.290594)]
    [InlineData("cotton-ticket", "40", 44.290594)]
    public void Numbers_that_differ_by_maker_are_said_to_be_approximate(string system, string written, double tex)
    {
        var answer = Of("thread-count", $$"""{"system":"{{system}}","written":"{{written}}"}""");
        Assert.Equal((decimal)tex, (decimal)answer["tex"]!);
        Assert.False((bool)answer["exact"]!);
        Assert.Null(answer["texExact"]);
        Assert.InRange((decimal)answer["tex"]!, (decimal)answer["texLeast"]!, (decimal)answer["texMost"]!);
        Assert.Contains(answer["cautions"]!.AsArray(), c => (string)c!["code"]! == "approximate");
    }

    [Theory]
    [InlineData("ne", "fine", "is not a number on a spool")]
    [InlineData("ne", "٨٠", "is not a number on a spool")]
    [InlineData("ne", "80/2.5", "no whole number of plies")]
    [InlineData("ne", "80/0", "no whole number of plies")]
    [InlineData("tex", "30x30", "no whole number of plies")]
    [InlineData("tex", "0", "can't be a thread's number")]
    [InlineData("ticket", "120/3", "leave the plies out")]
    public void What_is_no_spool_number_is_refused(string system, string written, string words) =>
        Refuses("thread-count", $$"""{"system":"{{system}}","written":"{{written}}"}""", "written", words);

    [Fact]
    public void The_blade_is_a_hundredth_of_the_size_and_the_eye_takes_the_thread_with_two_fifths_to_spare() => Assert.All(MachineNeedle.Sizes, size =>
    {
        var needle = new MachineNeedle(size);
        Assert.Equal(size / 100m, needle.Blade.Millimetres);
        Assert.Equal(size, MachineNeedle.SizeOf(needle.Blade));
        Assert.Equal(needle, MachineNeedle.OfAmerican(needle.American));
        Assert.InRange((double)needle.Eye.Nanometres / needle.ThickestThread.Nanometres, 1.3999, 1.4001);
    });

    [Fact]
    public void The_finest_needle_for_a_thread_takes_it_and_the_next_finer_does_not() => Gen.Long[1, 340_000].Sample(nm =>
    {
        var (thread, needle) = (Length.FromNanometres(nm), MachineNeedle.FinestFor(Length.FromNanometres(nm))!);
        return needle.ThickestThread >= thread && MachineNeedle.Sizes.Where(s => s < needle.Size).All(s => new MachineNeedle(s).ThickestThread < thread);
    });

    [Fact]
    public void A_thread_too_thick_for_the_cloth_is_warned_of_with_what_would_do()
    {
        var answer = Of("needle-for-thread", """{"cloth":"sheer","thick":"0.25 mm"}""");
        Assert.Equal(90, (int)answer["needle"]!);
        Assert.Contains("The thread decides", (string)answer["because"]!, StringComparison.Ordinal);
        Assert.Contains(answer["cautions"]!.AsArray(), c => (string)c!["code"]! == "thread-thick" && ((string)c["text"]!).Contains("at most 0.19 mm", StringComparison.Ordinal));
    }

    [Fact]
    public void A_fine_thread_leaves_the_needle_to_the_cloth()
    {
        var answer = Of("needle-for-thread", """{"cloth":"medium","written":"120/2"}""");
        Assert.Equal((75, 11), ((int)answer["needle"]!, (int)answer["american"]!));
        Assert.Contains("The cloth decides", (string)answer["because"]!, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(10, 70, true, true)]
    [InlineData(70, 70, true, true)]
    [InlineData(100, 100, true, false)]
    public void A_needle_she_has_is_judged_by_eye_and_cloth(int needle, int nm, bool takes, bool suits)
    {
        var answer = Of("needle-for-thread", $$"""{"cloth":"light","written":"80/2","needle":{{needle}}}""");
        Assert.Equal((nm, takes, suits), ((int)answer["ownNeedle"]!, (bool)answer["ownTakesThread"]!, (bool)answer["ownSuitsCloth"]!));
    }

    [Fact]
    public void A_narrow_eye_is_said_with_the_needle_that_would_do() =>
        Assert.Contains(Of("needle-for-thread", """{"cloth":"light","thick":"0.22 mm","needle":60}""")["cautions"]!.AsArray(),
            c => (string)c!["code"]! == "eye-narrow" && ((string)c["text"]!).Contains("take NM 80", StringComparison.Ordinal));

    [Theory]
    [InlineData("""{"cloth":"light","written":"80/2","needle":40}""", "needle", "no size of a machine needle")]
    [InlineData("""{"cloth":"light","thick":"1 mm"}""", "thick", "goes through the eye of no machine needle")]
    [InlineData("""{"cloth":"light"}""", "written", "Give the number on the spool")]
    public void What_no_needle_serves_is_refused(string sent, string field, string words) => Refuses("needle-for-thread", sent, field, words);

    [Fact]
    public void A_measured_blade_gives_its_size() =>
        Assert.Equal(70m, (decimal)Of("needle-for-thread", """{"cloth":"light","written":"80/2","blade":"0.7 mm"}""")["sizeOfBlade"]!);

    [Theory]
    [InlineData(35, new[] { 7 })]
    [InlineData(40, new[] { 7, 8 })]
    [InlineData(55, new[] { 8, 9 })]
    [InlineData(90, new[] { 10, 11 })]
    [InlineData(100, new[] { 11, 12 })]
    [InlineData(150, new[] { 12 })]
    [InlineData(20, new[] { 7 })]
    public void Overlaps_and_gaps_of_the_hand_needles_are_shown(int cotton, int[] needles) => Assert.Equal(needles, HandNeedles.For(cotton));

    [Theory]
    [InlineData("""{"hours":5.9}""", "not yet")]
    [InlineData("""{"hours":6}""", "at the next piece")]
    [InlineData("""{"stitches":192000,"perMinute":400}""", "now")]
    public void A_needle_is_due_after_six_to_eight_hours(string sent, string due) => Assert.Equal(due, (string?)Of("needle-change", sent)["due"]);

    [Fact]
    public void Stitches_need_a_pace() => Refuses("needle-change", """{"stitches":1000}""", "perMinute", "your pace is needed");

    [Fact]
    public void Hours_and_stitches_are_two_ways_of_one_thing() => Refuses("needle-change", """{"hours":1,"stitches":1000}""", "stitches", "one of them");

    [Fact]
    public void A_run_of_tucks_is_stitched_once_along_each()
    {
        var answer = Of("stitch-count", """{"tucks":20,"tuckLength":"9 in","stitch":"running","perInch":12,"perMinute":20}""");
        Assert.Equal((2160, "180 in", "198 in"), ((long)answer["stitches"]!, answer.Text("seam"), answer.Text("thread")));
        Assert.Equal(1.8m, (decimal)answer["hours"]!);
        Assert.Equal(13, (long)answer["needlefuls"]!);
    }

    [Fact]
    public void A_begun_stitch_counts_whole_and_stitches_cover_the_seam() => Gen.Select(Gen.Long[1, 1_000_000_000], Gen.Long[100_000, 10_000_000]).Sample((seam, stitch) =>
    {
        var count = StitchCount.Stitches(Length.FromNanometres(seam), Length.FromNanometres(stitch));
        return count * stitch >= seam && (count - 1) * stitch < seam;
    });

    [Fact]
    public void Thicker_layers_take_more_thread_in_every_stitch() =>
        Gen.Select(Gen.Enum<SeamStitch>(), Gen.Long[500_000, 5_000_000], Gen.Long[0, 2_000_000]).Sample((kind, stitch, thick) =>
            StitchCount.Factor(kind, Length.FromNanometres(stitch), Length.FromNanometres(thick + 1_000), Length.FromMillimetres(1))
                > StitchCount.Factor(kind, Length.FromNanometres(stitch), Length.FromNanometres(thick), Length.FromMillimetres(1)));

    /// <summary>Stitches so close that each goes straight round the edge: down one face, through, up the other, and over.</summary>
    [Fact]
    public void Whipping_goes_round_the_edge_with_every_stitch()
    {
        var (stitch, thick, bite) = (Length.FromMillimetres(0.001m), Length.FromMillimetres(0.5m), Length.FromMillimetres(2));
        Assert.Equal(2 * (0.5 + 2), StitchCount.Factor(SeamStitch.Whip, stitch, thick, bite) * 0.001, 5);
    }

    [Fact]
    public void Whipping_without_depth_would_lie_along_the_edge() =>
        Assert.Equal(1, StitchCount.Factor(SeamStitch.Whip, Length.FromMillimetres(2), Length.Zero, Length.Zero));

    [Theory]
    [InlineData("""{"stitch":"running","perInch":12}""", "length", "not both")]
    [InlineData("""{"length":"9 in","tucks":3,"tuckLength":"9 in","stitch":"running","perInch":12}""", "length", "not both")]
    [InlineData("""{"tucks":3,"stitch":"running","perInch":12}""", "tuckLength", "belong together")]
    [InlineData("""{"length":"9 in","stitch":"running"}""", "stitchLength", "one of them")]
    [InlineData("""{"length":"9 in","stitch":"lockstitch","perInch":12,"needleful":"40 cm"}""", "needleful", "A machine sews from the spool")]
    [InlineData("""{"length":"9 in","stitch":"running","perInch":12,"bite":"1 mm"}""", "bite", "Only whipping has a depth")]
    [InlineData("""{"length":"9 in","stitch":"running","perInch":12,"needleful":"10 cm"}""", "needleful", "leaves nothing to sew with")]
    public void What_can_not_be_sewn_says_why(string sent, string field, string words) => Refuses("stitch-count", sent, field, words);

    [Fact]
    public void A_measured_factor_takes_the_place_of_the_printed_one()
    {
        var answer = Of("stitch-count", """{"length":"100 cm","stitch":"lockstitch","stitchLength":"2.5 mm","factor":2.6}""");
        Assert.Equal((400, 2600m), ((long)answer["stitches"]!, (decimal)answer["thread"]!["mm"]!));
        Assert.Null(answer["needlefuls"]);
    }

    [Fact]
    public void What_is_from_memory_or_practice_says_so() => Assert.All(new[] { "needle-for-thread", "thread-count", "needle-change", "stitch-count" }, slug =>
        Assert.Contains(Of(slug, AllSums.Find(slug)!.Example)["notes"]!.AsArray(), n => ((string)n!["text"]!).Contains("common practice", StringComparison.Ordinal) || ((string)n["text"]!).Contains("from memory", StringComparison.Ordinal)));
}
