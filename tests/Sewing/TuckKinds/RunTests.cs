using CsCheck;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

/// <summary>What the sums about a run share: limits that say what is possible, and the drawing.</summary>
public class RunTests
{
    [Fact]
    public void A_run_too_wide_says_the_widest_space() =>
        IsRefused("nuns", """{"tucks":12,"width":"1/4 in","space":"1/4 in","finishedAtMost":"5 1/16 in"}""", "finishedAtMost",
            "5 1/16 in is too little", "11/16 in more", "With 12 tucks of 1/4 in the space can be at most 3/16 in", "at most 10");

    [Fact]
    public void A_run_short_of_cloth_says_the_widest_space() =>
        IsRefused("nuns", """{"tucks":2,"width":"2 in","space":"1 in","clothAtMost":"12 1/2 in"}""", "clothAtMost",
            "With 2 tucks of 2 in the space can be at most 1/2 in");

    [Fact]
    public void Tucks_too_many_even_meeting_say_so() =>
        IsRefused("nuns", """{"tucks":5,"width":"2 in","space":"1/2 in","finishedAtMost":"8 in"}""", "finishedAtMost", "Even meeting they do not fit", "at most 3");

    [Fact]
    public void The_widest_space_fits_and_one_marking_more_does_not() =>
        Gen.Select(Gen.Int[2, 20], Gen.Int[4, 16], Gen.Int[1, 32], Gen.Int[1, 400]).Sample((n, w, s, less) =>
        {
            var (width, space, mark) = (In($"{w}/64"), In($"{s}/64"), In("1/64"));
            Length Finished(Length apart) => TuckPlan.Make(new() { Groups = [new(n, width, new(apart))] }).Finished;
            var limit = Finished(space) - Length.FromNanometres(less * 10_000);
            var most = RunLimits.MostSpace(Finished(space), limit, space, n - 1, mark);
            if (most + width > Length.Zero)
            {
                Assert.True(Finished(most) <= limit);
                Assert.True(Finished(most + mark) > limit);
            }
        }, iter: 500);

    [Theory]
    [InlineData("stitchToStitch", "1/2 in", "7/16 in")]
    [InlineData("foldToFold", "1 in", "15/16 in")]
    public void The_spacing_is_told_in_the_meaning_it_was_given_in(string way, string apart, string most) =>
        IsRefused("nuns", $$"""{"tucks":12,"width":"1/4 in","{{way}}":"{{apart}}","finishedAtMost":"5 1/16 in"}""", "finishedAtMost", $"the {way} can be at most {most}");

    [Fact]
    public void Of_a_centre_lie_the_middle_is_not_counted_as_a_space() =>
        IsRefused("graduated", """{"tucks":3,"first":"1/4 in","step":"0 in","space":"1/4 in","lies":"from-centre","finishedAtMost":"2 in"}""", "finishedAtMost", "the space can be at most 1/8 in");

    /// <summary>Thick cloth: each tuck takes an eighth of an inch more, so tucks may overlap by their whole width and more.</summary>
    private const string Thick = "\"testStrip\":{\"tucks\":1,\"width\":\"1/4 in\",\"flat\":\"3 in\",\"finished\":\"2 3/8 in\"}";

    [Fact]
    public void Tucks_all_on_one_line_are_as_wide_with_fewer() =>
        IsRefused("nuns", $$"""{"tucks":3,"width":"1/4 in","space":"-1/4 in","finishedAtMost":"1/8 in",{{Thick}}}""", "finishedAtMost", "1/8 in is too little");

    [Fact]
    public void Of_tucks_all_on_one_line_any_number_fits() =>
        Assert.Equal("–", Ask("tuck-kinds", $$"""{"width":"1/4 in","space":"-1/4 in","finishedAtMost":"1 in",{{Thick}}}""").Figure("mostTucks"));

    [Theory]
    [InlineData("release", "\"tucks\":10,\"sewn\":\"4 in\",")]
    [InlineData("nuns", "\"tucks\":10,")]
    public void Nothing_left_of_the_width_is_refused(string slug, string more) =>
        IsRefused(slug, $$"""{{{more}}"width":"1/4 in","space":"-5/16 in",{{Thick}}}""", "space", "nothing is left of the width");

    [Fact]
    public void A_card_has_no_notch_for_stitching_that_goes_back() =>
        IsRefused("gauge-card", $$"""{"width":"1/4 in","space":"-5/16 in",{{Thick}}}""", "space", "must be above -1/4 in");

    [Fact]
    public void What_just_fits_is_not_refused() =>
        Assert.Equal("5 1/16 in", Ask("nuns", """{"tucks":12,"width":"1/4 in","space":"3/16 in","finishedAtMost":"5 1/16 in"}""").Figure("finished"));

    [Fact]
    public void Four_hundred_tucks_make_a_small_drawing()
    {
        foreach (var lies in Enum.GetValues<Lies>())
        {
            var centre = lies is Lies.FromCentre or Lies.TowardsCentre;
            var plan = TuckPlan.Make(new()
            {
                Groups = [new(centre ? 200 : 400, In("1/16"), new(In("1/32")))], Lies = lies, Trail = In("1"), Lead = centre ? null : In("1"), Centre = centre ? In("1") : null,
            });
            var svg = Svg.Of([.. RunSketch.Of(plan)], "Tucks", RunSketch.Words(plan));
            Assert.InRange(svg.Length, 100_000, 200_000);
            Assert.Contains(">400</text>", svg, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Every_line_of_a_plan_is_drawn_once_and_every_fold_of_a_short_run_numbered() =>
        Gen.Select(Gen.Int[1, 60], Gen.Int[1, 8], Gen.Int[0, 8], Gen.Int[0, 1]).Sample((n, w, s, lies) =>
        {
            var plan = TuckPlan.Make(new() { Groups = [new(n, In($"{w}/16"), new(In($"{s}/16")))], Lead = In("1/2"), Trail = In("1/2"), Lies = (Lies)lies });
            var panels = RunSketch.Of(plan).ToList();
            var flat = panels.SkipLast(1).SelectMany(p => p.Shapes).ToList();
            Assert.Equal(2 * n, flat.OfType<Stroke>().Count(t => t.Ink == Ink.Stitching));
            Assert.Equal(n, flat.OfType<Stroke>().Count(t => t.Ink == Ink.Fold));
            var numbers = flat.OfType<Label>().Where(l => l.Ink == Ink.Number).Select(l => l.Text).ToHashSet();
            Assert.All(Enumerable.Range(1, n), i => Assert.Contains($"{i}", numbers));
        }, iter: 100);

    [Fact]
    public void The_flat_cloth_is_drawn_to_scale()
    {
        var plan = TuckPlan.Make(new() { Groups = [new(3, In("1/2"), new(In("1")))], Lead = In("1"), Trail = In("1") });
        var folds = RunSketch.Of(plan).First().Shapes.OfType<Stroke>().Where(t => t.Ink == Ink.Fold).Select(t => t.X1).ToList();
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(Sketch.Margin + ((Sketch.PageWidth - (2 * Sketch.Margin)) * (double)(plan.Lines[i].Fold.Millimetres / plan.Cloth.Millimetres)), folds[i], 0.01);
        }
    }
}
