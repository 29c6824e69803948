using CsCheck;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

public class GraduatedTucksTests
{
    private static readonly Length Sixteenth = In("1/16");

    [Theory]
    [InlineData("\"step\":\"-1/4 in\"")]
    [InlineData("\"last\":\"1/4 in\"")]
    public void Four_tucks_fall_evenly_from_an_inch_to_a_quarter(string how)
    {
        var answer = Ask("graduated", $$"""{"tucks":4,"first":"1 in",{{how}},"space":"1/4 in","lead":"2 in","trail":"3 in"}""");
        Assert.Equal(["1 in", "3/4 in", "1/2 in", "1/4 in"], answer.Column("lines", "width"));
        Assert.Equal(("5 in", "8 1/4 in", "13 1/4 in"), (answer.Figure("takeUp"), answer.Figure("finished"), answer.Figure("cloth")));
        Assert.Equal(["4 in", "6 3/4 in", "8 3/4 in", "10 in"], answer.Column("lines", "fold"));
    }

    [Fact]
    public void By_a_ratio_each_width_is_drawn_to_the_marking_from_its_exact_value() =>
        // 1, 3/4, 9/16, 27/64 (to 7/16), 81/256 (to 5/16): from the rounded 7/16 it would be 21/64, 5/16 too, then 15/64 against 243/1024.
        Assert.Equal(["1 in", "3/4 in", "9/16 in", "7/16 in", "5/16 in", "1/4 in"],
            GraduatedTucks.ByRatio(6, In("1"), 0.75m, Sixteenth).Select(w => w.ToText(LengthUnit.Inches)));

    [Fact]
    public void Every_width_is_within_half_a_marking_of_its_exact_value() =>
        Gen.Select(Gen.Int[2, 50], Gen.Int[1, 200], Gen.Int[1, 200]).Sample((n, first, last) =>
        {
            var widths = GraduatedTucks.Between(n, In($"{first}/64"), In($"{last}/64"), Sixteenth);
            for (var i = 0; i < n; i++)
            {
                var exact = ((first * (decimal)(n - 1 - i)) + (last * (decimal)i)) / (n - 1) * 396_875m;
                Assert.Equal(0, widths[i].Nanometres % Sixteenth.Nanometres);
                Assert.InRange(Math.Abs(widths[i].Nanometres - exact), 0, (Sixteenth.Nanometres / 2m) + 0.001m);
            }
        }, iter: 300);

    [Fact]
    public void The_next_crease_lies_twice_the_next_tuck_and_the_space_on() =>
        Gen.Select(Gen.Int[2, 20], Gen.Int[20, 40], Gen.Int[-1, 3], Gen.Int[0, 16]).Sample((n, first, step, space) =>
        {
            var answer = Ask("graduated", $$"""{"tucks":{{n}},"first":"{{first}}/16 in","step":"{{step}}/16 in","space":"{{space}}/16 in"}""");
            var width = answer.ColumnOf<Length>("lines", "width").ToList();
            var fold = answer.ColumnOf<Length>("lines", "fold").ToList();
            var second = answer.ColumnOf<Length>("lines", "secondStitch").ToList();
            Assert.Equal(answer.LengthOf("takeUp"), width.Aggregate(Length.Zero, (sum, w) => sum + (2 * w)));
            for (var i = 0; i + 1 < n; i++)
            {
                Assert.Equal(In($"{step}/16"), width[i + 1] - width[i]);
                Assert.Equal((2 * width[i + 1]) + In($"{space}/16"), fold[i + 1] - second[i]);
            }
        }, iter: 200);

    [Fact]
    public void A_step_too_great_says_how_many_tucks_there_can_be() =>
        IsRefused("graduated", """{"tucks":6,"first":"1 in","step":"-1/4 in","space":"0 in"}""", "step", "step of -1/4 in", "at most 4");

    [Fact]
    public void Two_ways_or_none_to_grow_are_refused()
    {
        IsRefused("graduated", """{"tucks":6,"first":"1 in","space":"0 in"}""", "step", "Give step, ratio or last");
        IsRefused("graduated", """{"tucks":6,"first":"1 in","space":"0 in","ratio":0.9,"last":"1/2 in"}""", "last", "ratio and last");
    }

    [Fact]
    public void A_marking_nobody_has_is_refused() =>
        IsRefused("graduated", """{"tucks":3,"first":"1 in","step":"-1/4 in","space":"0 in","finest":"1/7 in"}""", "finest", "1/64 in");

    [Fact]
    public void A_ratio_beyond_measure_is_refused_and_not_overflown() =>
        IsRefused("graduated", """{"tucks":50,"first":"1 in","ratio":10,"space":"0 in"}""", "ratio", "wider than 1 km");

    [Fact]
    public void Neighbours_that_come_out_alike_are_said() =>
        Assert.True(Ask("graduated", """{"tucks":9,"first":"1/2 in","last":"3/8 in","space":"1/8 in"}""").Warns("alike-on-marking"));

    [Fact]
    public void A_strip_of_another_width_is_warned_of() =>
        Assert.True(Ask("graduated", """{"tucks":3,"first":"1 in","step":"-1/4 in","space":"1/4 in","testStrip":{"tucks":10,"width":"1/4 in","flat":"12 in","finished":"6 15/16 in"}}""").Warns("strip-other-width"));

    [Fact]
    public void From_the_centre_both_halves_are_laid_out()
    {
        var answer = Ask("graduated", """{"tucks":3,"first":"1/2 in","step":"-1/8 in","space":"1/4 in","lies":"from-centre","centre":"1 in"}""");
        Assert.Equal(["1/4 in", "3/8 in", "1/2 in", "1/2 in", "3/8 in", "1/4 in"], answer.Column("lines", "width"));
    }

    [Fact]
    public void Fifty_tucks_are_planned() =>
        Assert.Equal(50, Ask("graduated", """{"tucks":50,"first":"1/8 in","step":"1/16 in","space":"1/8 in"}""").Tables[0].Rows.Count);
}
