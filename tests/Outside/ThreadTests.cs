using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Threads;
using UnitsNet;
using static HeirloomArchive.Outside.Tests.Asking;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Thread counts, needles and stitches against definitions, an independent library and printed tables.</summary>
public class ThreadTests
{
    // UnitsNet (MIT), an independent implementation of linear density: tex, decitex and denier from kilograms to the metre.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(7)]
    [InlineData(14.8)]
    [InlineData(29.5)]
    [InlineData(180)]
    public void Tex_and_denier_are_those_of_an_independent_library(double tex)
    {
        var (theirs, ours) = (LinearDensity.FromMilligramsPerMeter(tex), ThreadSize.FromTex((decimal)tex));
        Assert.Equal(theirs.KilogramsPerMeter * 1e6, (double)ours.Tex, tex * 1e-9);
        Assert.Equal(Mass.FromKilograms(theirs.KilogramsPerMeter * 9_000).Grams, (double)ours.Denier, tex * 1e-8);
        Assert.Equal(Mass.FromKilograms(theirs.KilogramsPerMeter * 10_000).Grams, (double)ours.Dtex, tex * 1e-8);
    }

    // UnitsNet: a pound in grams and 840 yards in metres; a cotton count is so many hanks of 840 yd to the pound (textile notes).
    [Theory]
    [Trait("sure", "read")]
    [InlineData(1, 840)]
    [InlineData(30, 840)]
    [InlineData(80, 840)]
    [InlineData(120, 840)]
    public void Hanks_to_the_pound_are_those_of_an_independent_library(int count, int yards)
    {
        var tex = Mass.FromPounds(1).Grams / (UnitsNet.Length.FromYards(yards * count).Meters / 1_000);
        Assert.Equal(tex, (double)ThreadSize.FromNe(count).Tex, tex * 1e-9);
    }

    // UnitsNet, as above; that a lea of linen is 300 yd is written from memory.
    [Fact]
    [Trait("sure", "memory")]
    public void Leas_to_the_pound_are_of_three_hundred_yards()
    {
        var tex = Mass.FromPounds(1).Grams / (UnitsNet.Length.FromYards(300 * 40).Meters / 1_000);
        Assert.Equal(tex, (double)ThreadSize.FromLea(40).Tex, tex * 1e-9);
    }

    // Three textile notes: 20 tex is 180 denier, metric count 50, 200 dtex.
    [Fact]
    [Trait("sure", "read")]
    public void Twenty_tex_in_the_other_systems()
    {
        var thread = ThreadSize.FromTex(20);
        Assert.Equal((180m, 50m, 200m), (thread.Denier, thread.Nm, thread.Dtex));
    }

    // The same notes print 590.5, 1.69 and 5315 for tex × Ne, Nm / Ne and denier × Ne.
    [Fact]
    [Trait("sure", "read")]
    public void The_printed_factors_of_cotton_count_come_out()
    {
        var thread = ThreadSize.FromNe(1);
        Assert.Equal(590.5m, thread.Tex, 1);
        Assert.Equal(1.69m, thread.Nm, 2);
        Assert.Equal(5315m, thread.Denier, 0);
    }

    // Ne 30 is 19.7 tex (read), Ne 40 14.7635 (derived from the definitions of yard and pound).
    [Theory]
    [Trait("sure", "read")]
    [InlineData(30, 19.7, 1)]
    [InlineData(40, 14.7635, 4)]
    public void Cotton_counts_in_tex(int count, double tex, int places) => Assert.Equal((decimal)tex, ThreadSize.FromNe(count).Tex, places);

    // Two plies of 80 are as heavy as one of 40, by definition: 14.8 tex.
    [Fact]
    [Trait("sure", "derived")]
    public void Two_plies_of_eighty_are_one_of_forty()
    {
        Assert.Equal(ThreadSize.FromNe(40), ThreadSize.FromNe(80).Plied(2));
        Assert.Equal(14.8m, (decimal)Of("thread-count", """{"written":"80/2"}""")["tex"]!, 1);
    }

    // Metric count 120/2 is 2 × 1000 / 120 = 16.7 tex, by definition.
    [Fact]
    [Trait("sure", "derived")]
    public void Metric_hundred_and_twenty_two_is_sixty_in_all() =>
        Assert.Equal((16.666667m, 60m), ((decimal)Of("thread-count", """{"system":"nm","written":"120/2"}""")["tex"]!, (decimal)Of("thread-count", """{"system":"nm","written":"120/2"}""")["nm"]!));

    // A needle maker's note (DIN 5325 of 1953): the size is 100 times the diameter of the blade in mm.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("0.75 mm", 75)]
    [InlineData("0.80 mm", 80)]
    public void A_needles_size_is_a_hundred_times_its_blade(string blade, int size)
    {
        Assert.Equal(size, MachineNeedle.SizeOf(Read(blade)));
        Assert.Equal(Read(blade), new MachineNeedle(size).Blade);
    }

    // The same note: (number − 8) × 5 + 60 below 19.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(8, 60)]
    [InlineData(9, 65)]
    [InlineData(10, 70)]
    [InlineData(11, 75)]
    [InlineData(12, 80)]
    [InlineData(14, 90)]
    [InlineData(16, 100)]
    [InlineData(18, 110)]
    public void American_numbers_of_needles(int number, int size) => Assert.Equal(size, MachineNeedle.OfAmerican(number)!.Size);

    // From memory: American 19 is 120, where the rule would give 115.
    [Fact]
    [Trait("sure", "memory")]
    public void American_nineteen_breaks_the_rule() => Assert.Equal(120, MachineNeedle.OfAmerican(19)!.Size);

    // A needle maker's note: the metric count of a thread is not the size of a needle; a thread's 40 is refused where a needle is asked.
    [Fact]
    [Trait("sure", "read")]
    public void A_threads_number_is_never_taken_for_a_needles() =>
        Assert.Throws<FaultException>(() => Of("needle-for-thread", """{"cloth":"light","system":"nm","written":"120/2","needle":40}"""));

    // Krolik, Hand Sewing Lessons: 30-40 no. 7, 40-50 no. 8, 60-70 no. 9, 80-90 no. 10, 90-100 no. 11, 100 and finer no. 12.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(30, "7")]
    [InlineData(40, "7 or 8")]
    [InlineData(50, "8")]
    [InlineData(65, "9")]
    [InlineData(80, "10")]
    [InlineData(90, "10 or 11")]
    [InlineData(110, "12")]
    public void Kroliks_needles_for_cotton(int cotton, string needles) => Assert.Equal(needles, (string?)Of("hand-needles", $$"""{"thread":{{cotton}}}""")["needle"]);

    // Text-Book on Domestic Art: the larger the number the finer; finer cotton never takes a coarser needle.
    [Fact]
    [Trait("sure", "read")]
    public void Finer_cotton_takes_a_finer_needle() =>
        Assert.Equal(HandNeedles.Sharps.OrderBy(s => s.From).Select(s => s.Needle), HandNeedles.Sharps.Select(s => s.Needle).Order());

    // Woolman: tucks by hand with thread 80 to 100 and needles 9 to 11; Krolik's table for those threads stays within (derived).
    [Theory]
    [Trait("sure", "derived")]
    [InlineData(80)]
    [InlineData(90)]
    public void Woolmans_needles_for_tucks_agree_with_Kroliks(int cotton) => Assert.All(HandNeedles.For(cotton), needle => Assert.InRange(needle, 9, 11));

    // Published notes on thread consumption, solved: stitch 301, thickness 0.01 in, 10 to the inch: 2.2; stitch 101, 0.005 in, 9: 3.09.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("lockstitch", "0.01 in", 10, 2.2)]
    [InlineData("chainstitch", "0.005 in", 9, 3.09)]
    public void Thread_for_an_inch_of_machine_stitching(string stitch, string thickness, int perInch, double inches) =>
        Assert.Equal(inches * 25.4, (double)Millimetres(Of("stitch-count", $$"""{"length":"1 in","stitch":"{{stitch}}","perInch":{{perInch}},"thickness":"{{thickness}}"}"""), "thread"), 4);

    // The same notes, solved: 220 cm of lockstitch at the trade's 2.5 take 550 cm.
    [Fact]
    [Trait("sure", "read")]
    public void Two_hundred_and_twenty_centimetres_of_lockstitch_take_five_hundred_and_fifty() =>
        Assert.Equal(5500m, Millimetres(Of("stitch-count", """{"length":"220 cm","stitch":"lockstitch","perInch":12}"""), "thread"));

    // Cooper, The Invention of the Sewing Machine (1968), from Wheeler & Wilson, 1861: 23 by hand against 640, 27.8 times (derived).
    [Fact]
    [Trait("sure", "read")]
    public void The_machine_of_1861_sewed_twenty_eight_times_as_fast()
    {
        var answer = Of("stitch-count", """{"length":"640 in","stitch":"running","perInch":60}""");
        Assert.Equal(27.8m, (decimal)answer["handHours"]! / (decimal)answer["machineHours"]!, 1);
        Assert.Equal(1m, (decimal)answer["machineHours"]!);
    }

    // Stitch lengths in plain arithmetic: 2.5 mm is 10.16 to the inch, 12 are 2.1167 mm, 20 are 1.27 mm.
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("\"stitchLength\":\"2.5 mm\"", 10.16, 2.5)]
    [InlineData("\"perInch\":12", 12, 2.1167)]
    [InlineData("\"perInch\":20", 20, 1.27)]
    public void Stitches_to_the_inch_and_their_length(string sent, double perInch, double millimetres)
    {
        var answer = Of("stitch-count", $$"""{"length":"10 in","stitch":"lockstitch",{{sent}}}""");
        Assert.Equal(((decimal)perInch, (decimal)millimetres), (decimal.Round((decimal)answer["perInch"]!, 4), decimal.Round(Millimetres(answer, "stitchLength"), 4)));
    }

    // Dillmont, Encyclopedia of Needlework (1886): a thread of 40 to 50 cm at most; a longer needleful is warned of.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("50 cm", false)]
    [InlineData("60 cm", true)]
    public void A_needleful_over_fifty_centimetres_is_warned_of(string needleful, bool warned) =>
        Assert.Equal(warned, Of("stitch-count", $$"""{"length":"10 in","stitch":"running","perInch":12,"needleful":"{{needleful}}"}""")["cautions"]!.AsArray().Any(c => (string)c!["code"]! == "needleful-long"));
}
