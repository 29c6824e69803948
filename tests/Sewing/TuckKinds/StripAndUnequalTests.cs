using CsCheck;
using HeirloomArchive.Sewing.TuckKinds;
using static HeirloomArchive.Sewing.Tests.TuckKinds.Asking;

namespace HeirloomArchive.Sewing.Tests.TuckKinds;

public class StripAndUnequalTests
{
    private static string Strips(string rows, string more = "") => "{\"strips\":[" + rows + "]" + more + "}";

    private static string Row(int tucks, string flat, string finished, string width = "1/8 in") =>
        $$"""{"tucks":{{tucks}},"width":"{{width}}","flat":"{{flat}}","finished":"{{finished}}"}""";

    [Fact]
    public void One_strip_gives_the_correction_of_each_tuck()
    {
        // (12 - 9 7/16) / 10 - 1/4 = 1/160 in.
        var answer = Ask("strip", Strips(Row(10, "12 in", "9 7/16 in")));
        Assert.Equal(In("1/160"), answer.LengthOf("correctionPerTuck"));
        Assert.True(answer.Warns("strip-only-one"));
        Assert.False(answer.Warns("strip-too-few"));
        Assert.Equal("–", answer.Figure("spread"));
    }

    [Fact]
    public void Several_strips_have_a_mean_and_a_spread()
    {
        var answer = Ask("strip", Strips(Row(10, "12 in", "9 7/16 in") + "," + Row(10, "12 in", "9 3/8 in")));
        Assert.Equal(In("3/320"), answer.LengthOf("correctionPerTuck"));
        Assert.Equal(In("1/160"), answer.LengthOf("spread"));
        Assert.False(answer.Warns("strip-too-scattered"));
    }

    [Fact]
    public void Strips_sent_on_as_one_correct_a_plan_by_their_mean() =>
        Gen.Select(Gen.Int[1, 20], Gen.Int[0, 3_000_000]).Array[1, 6].Sample(strips =>
        {
            var width = In("1/8");
            var sewn = strips.Select(s => new TestStrip(s.Item1, width, (20 * width) + (s.Item1 * 2 * width) + Length.FromNanometres(s.Item2), 20 * width)).ToList();
            var mean = StripMean.Of(sewn, width);
            Assert.Equal(mean.Mean, mean.Together!.Correction);
            Assert.True(mean.Mean >= mean.Each.Min() - Length.FromNanometres(1) && mean.Mean <= mean.Each.Max() + Length.FromNanometres(1));
        });

    [Fact]
    public void The_strip_of_an_answer_works_in_a_plan()
    {
        var answer = Ask("strip", Strips(Row(10, "12 in", "9 7/16 in") + "," + Row(6, "8 in", "6 1/2 in")));
        var row = answer.Tables.Single(t => t.Name == "testStrip").Rows[0];
        Assert.Equal(answer.LengthOf("correctionPerTuck"), new TestStrip((int)row[0]!, (Length)row[1]!, (Length)row[2]!, (Length)row[3]!).Correction);
    }

    [Fact]
    public void Too_few_too_scattered_another_width_and_a_sewn_width_are_said()
    {
        Assert.True(Ask("strip", Strips(Row(4, "4 in", "3 in"))).Warns("strip-too-few"));
        Assert.True(Ask("strip", Strips(Row(10, "12 in", "9 1/2 in") + "," + Row(10, "12 in", "9 3/16 in"))).Warns("strip-too-scattered"));
        Assert.True(Ask("strip", Strips(Row(10, "12 in", "9 7/16 in"), ",\"planWidth\":\"1/4 in\"")).Warns("strip-other-width"));
        Assert.True(Ask("strip", Strips("""{"tucks":10,"width":"1/8 in","sewnWidth":"3/16 in","flat":"12 in","finished":"9 7/16 in"}""")).Warns("strip-sewn-width"));
        Assert.True(Ask("strip", Strips(Row(10, "12 in", "9 7/16 in"), ",\"measured\":\"as-sewn\"")).Warns("strip-not-pressed"));
    }

    [Fact]
    public void A_careful_set_of_strips_warns_of_nothing() =>
        Assert.Empty(Ask("strip", Strips(Row(10, "12 in", "9 7/16 in") + "," + Row(10, "12 in", "9 15/32 in"), ",\"planWidth\":\"1/8 in\",\"measured\":\"washed\"")).Cautions);

    [Fact]
    public void A_strip_that_took_up_nothing_is_refused_in_its_row() =>
        IsRefused("strip", Strips(Row(10, "12 in", "9 7/16 in") + "," + Row(10, "9 in", "9 in")), "strips[1].finished", "9 in after is not less than the 9 in before");

    [Fact]
    public void Tucks_each_of_their_own_stand_where_a_plan_of_groups_puts_them()
    {
        var answer = Ask("unequal", """{"tucks":[{"width":"1/8 in","space":"1/4 in"},{"width":"1/8 in","space":"1 in"},{"width":"1/4 in"}],"lead":"2 in","trail":"3 in","lies":"towards-start"}""");
        Assert.Equal(["2 1/4 in", "2 7/8 in", "4 1/2 in"], answer.Column("lines", "fold"));
        Assert.Equal("7 3/4 in", answer.Figure("cloth"));
        Assert.Equal(["1/4 in", "1 in"], answer.Column("spacings", "space"));
    }

    [Fact]
    public void Fifty_unequal_tucks_take_up_twice_their_sum() =>
        Gen.Int[1, 64].Array[50].Sample(widths =>
        {
            var answer = Ask("unequal", "{\"tucks\":[" + string.Join(",", widths.Select((w, i) => $"{{\"width\":\"{w}/64 in\"{(i < 49 ? $",\"space\":\"{w}/32 in\"" : "")}}}")) + "]}");
            Assert.Equal(In($"{2 * widths.Sum()}/64"), answer.LengthOf("takeUp"));
            Assert.Equal(50, answer.Column("lines", "tuck").Length);
        }, iter: 20);

    [Theory]
    [InlineData("""{"tucks":[{"width":"1/8 in"},{"width":"1/4 in"}]}""", "tucks[0].space", "How far apart")]
    [InlineData("""{"tucks":[{"width":"1/8 in","space":"-1/4 in"},{"width":"1/4 in"}]}""", "tucks[0].space", "too near")]
    [InlineData("""{"tucks":[{"width":"1/8 in","foldToFold":"1/4 in"},{"width":"1/4 in"}]}""", "tucks[0].foldToFold", "must be above 3/8 in")]
    [InlineData("""{"tucks":[{"width":"1/8 in","space":"1/4 in"}]}""", "tucks[0].space", "leave it out")]
    [InlineData("""{"tucks":[{"width":"1/8 in","space":"1/4 in"},{"width":"1/4 in"}],"finishedAtMost":"1/2 in"}""", "finishedAtMost", "can be at most 1/8 in")]
    [InlineData("""{"tucks":[{"width":"1/8 in","space":"1/4 in"},{"width":"1/4 in"}],"clothAtMost":"1 in"}""", "clothAtMost", "Even meeting they need 1 1/8 in")]
    public void Unequal_tucks_that_can_not_be_say_where_and_what_could(string request, string path, string words) => IsRefused("unequal", request, path, words);
}
