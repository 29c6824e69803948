using CsCheck;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

public class GaugeCardTests
{
    [Fact]
    public void A_card_has_three_notches_and_a_fourth_with_a_strip()
    {
        Assert.Equal(["3/8 in", "1 in", "5/8 in"], Ask("gauge-card", """{"width":"3/8 in","space":"1/4 in"}""").Column("notches", "at"));
        var card = Ask("gauge-card", """{"width":"3/8 in","space":"1/4 in","testStrip":{"tucks":4,"width":"3/8 in","flat":"12 in","finished":"8 15/16 in"}}""");
        Assert.Equal("1 1/64 in", card.Column("notches", "at")[3]);
    }

    [Fact]
    public void The_notches_agree_with_the_lines_of_a_plan() =>
        Gen.Select(Gen.Int[1, 128], Gen.Int[0, 128]).Sample((w, s) =>
        {
            var (width, space) = (In($"{w}/64"), In($"{s}/64"));
            var card = GaugeCard.Of(width, space);
            var plan = TuckPlan.Make(new() { Groups = [new(2, width, new(space))], Lies = Lies.TowardsStart });
            Assert.Equal(card.Stitching, plan.Lines[0].Fold - plan.Lines[0].FirstStitch);
            Assert.Equal(card.NextCrease, plan.Lines[1].Fold - plan.Lines[0].SecondStitch);
            Assert.Equal(card.FinishedCheck, plan.Lines[1].FinishedStitch - plan.Lines[0].FinishedStitch);
        }, iter: 300);

    [Fact]
    public void Tucks_that_would_cross_get_no_card() =>
        IsRefused("gauge-card", """{"width":"1/8 in","space":"-1/4 in"}""", "space", "must be above -1/8 in");

    [Theory]
    [InlineData("1/4 in", "1/4 in", "2", "3", "yes")]
    [InlineData("1/4 in", "0 in", "2", "2", "yes")]
    [InlineData("3/16 in", "1/8 in", "2", "3", "no")]
    [InlineData("1/32 in", "0 in", "1", "1", "no")]
    public void An_attachment_is_set_to_whole_marks_or_the_nearest(string width, string space, string widthMark, string spaceMark, string whole)
    {
        var answer = Ask("gauge-card", $$"""{"width":"{{width}}","space":"{{space}}"}""");
        Assert.Equal([widthMark, spaceMark, whole], new[] { "widthMark", "spaceMark", "whole" }.Select(c => answer.Column("attachment", c)[0]));
    }

    [Fact]
    public void Marks_to_tucks_and_back_are_the_same_marks() =>
        Gen.Select(Gen.Int[1, 16], Gen.Int[0, 16]).Sample((width, more) =>
        {
            var marks = new TuckerMarks(width, width + more);
            Assert.Equal(marks, TuckerMarks.For(marks.Width, marks.Space));
        });

    [Fact]
    public void A_space_mark_too_low_says_from_which_on_it_works() =>
        IsRefused("tucker-marks", """{"widthMark":4,"spaceMark":2}""", "spaceMark", "at least 3");
}
