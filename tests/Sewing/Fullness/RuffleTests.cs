using CsCheck;
using HeirloomArchive.Sewing.Fullness;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Fullness;

public class RuffleTests
{
    [Theory]
    [InlineData("""{"finished":"60 in","flat":"90 in"}""")]
    [InlineData("""{"finished":"60 in","fullness":1.5}""")]
    [InlineData("""{"finished":"60 in","fullness":"1 1/2"}""")]
    [InlineData("""{"flat":"90 in","fullness":"3/2"}""")]
    [InlineData("""{"flat":"90 in","fullness":"1,5"}""")]
    [InlineData("""{"finished":"60 in"}""")]
    public void Any_two_give_the_third_and_the_usual_fullness_serves_where_there_is_one(string sent)
    {
        var answer = Of("ruffle", sent);
        Assert.Equal("90 in", answer.Text("flat"));
        Assert.Equal("60 in", answer.Text("finished"));
        Assert.Equal(1.5m, (decimal)answer["fullness"]!);
        Assert.Equal("30 in", answer.Text("extra"));
    }

    [Fact]
    public void A_fullness_in_thirds_is_exact_to_the_nanometre() =>
        Assert.Equal("80 in", Of("ruffle", """{"finished":"60 in","fullness":"1 1/3"}""").Text("flat"));

    [Fact]
    public void Fullness_either_way_comes_back_to_the_same_length() =>
        Gen.Select(Gen.Long[1, 100_000_000_000], Gen.Int[12, 60]).Sample((nm, twelfths) =>
        {
            var drawn = Gathered.OfFinished(Length.FromNanometres(nm), twelfths / 12m);
            return Math.Abs((Gathered.OfFlat(drawn.Flat, drawn.Fullness).Finished - drawn.Finished).Nanometres) <= 1;
        });

    [Fact]
    public void A_half_nanometre_is_rounded_to_even_whatever_the_fullness() =>
        Assert.Equal(Length.FromNanometres(2), Gathered.OfFlat(Length.FromNanometres(15), 6).Finished);

    [Fact]
    public void Strips_are_enough_and_one_fewer_is_not() =>
        Gen.Select(Gen.Long[1, 50_000_000_000], Gen.Long[200_000_000, 3_000_000_000], Gen.Long[0, 30_000_000]).Sample((total, loom, join) =>
        {
            var strips = Strips.Of(Length.FromNanometres(total), Length.FromNanometres(loom), Length.FromNanometres(join), null, round: false);
            var usable = loom - (2 * join);
            return strips.Count * usable >= total && (strips.Count - 1) * usable < total && strips.LeftOver.Nanometres == (strips.Count * usable) - total;
        });

    [Fact]
    public void A_round_has_as_many_joins_as_strips()
    {
        const string Sent = """{"finished":"80 in","fullness":"1 1/2","loom":"36 in","depth":"5 in","hem":"3/4 in","seam":"1/4 in" """;
        var open = Of("ruffle", Sent + "}");
        var round = Of("ruffle", Sent + ""","round":true}""");
        Assert.Equal((4, 3, 4), ((int)open["strips"]!, (int)open["joins"]!, (int)round["joins"]!));
        Assert.Equal("24 in", open.Text("cloth"));
        Assert.Equal("24 in", open.Text("leftOver"));
    }

    [Fact]
    public void Quarter_marks_stand_on_both_edges()
    {
        var answer = Of("ruffle", """{"finished":"80 in","flat":"120 in"}""");
        Assert.Equal(["30 in", "60 in", "90 in"], answer.Texts("quarterMarks", "flat"));
        Assert.Equal(["20 in", "40 in", "60 in"], answer.Texts("quarterMarks", "finished"));
    }

    [Fact]
    public void A_flat_piece_shorter_than_its_edge_says_what_would_be_right() =>
        Refuses("ruffle", """{"finished":"60 in","flat":"50 in"}""", "flat", "50 in can't be drawn up to 60 in");

    [Fact]
    public void Three_that_disagree_are_refused_with_the_fullness_there_is() =>
        Refuses("ruffle", """{"finished":"60 in","flat":"90 in","fullness":2}""", "fullness", "fullness of 1.5, not 2");

    [Fact]
    public void Without_any_length_it_says_which_is_wanted() =>
        Refuses("ruffle", """{"fullness":2}""", "finished", "Give the finished edge or the flat length");

    [Fact]
    public void Allowances_that_eat_the_cloth_are_refused() =>
        Refuses("ruffle", """{"finished":"60 in","loom":"2 in","join":"1 in"}""", "join", "must be below 1 in");

    [Fact]
    public void A_fullness_in_words_is_unreadable_and_says_how_to_write_it()
    {
        var refused = Assert.Throws<FaultException>(() => Of("ruffle", """{"finished":"60 in","fullness":"plenty"}"""));
        Assert.True(refused.Unreadable);
        Assert.Contains("write for example 1 1/2", refused.Faults[0].Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1/0")]
    [InlineData("")]
    [InlineData("1 2")]
    [InlineData("/3")]
    [InlineData("١/٢")]
    public void What_is_no_fraction_is_unreadable(string fullness) =>
        Assert.True(Assert.Throws<FaultException>(() => Of("ruffle", $$"""{"finished":"60 in","fullness":"{{fullness}}"}""")).Unreadable);

    [Fact]
    public void Gathering_stitches_are_counted_from_the_threads_and_the_books_differ()
    {
        var answer = Of("gathers", """{"finished":"6 in","fullness":2,"threads":84,"threadsOver":"1 in","taken":3,"left":3}""");
        Assert.Equal(1008, (long)answer["threadsAlong"]!);
        Assert.Equal([168, 168, 168, 144], answer["stitches"]!.AsArray().Select(s => (int)s!["gathers"]!));
    }

    [Fact]
    public void Whipped_gathers_take_twice_and_the_roll_ten_threads()
    {
        var answer = Of("gathers", """{"finished":"6 in","edge":"whipped","threads":40,"threadsOver":"1 cm"}""");
        Assert.Equal("12 in", answer.Text("flat"));
        Assert.Equal(2.5m, (decimal)answer["roll"]!["mm"]!);
    }

    [Fact]
    public void Threads_without_the_length_they_were_counted_over_are_refused() =>
        Refuses("gathers", """{"finished":"6 in","threads":40}""", "threadsOver", "belong together");

    [Fact]
    public void A_puffing_strip_has_two_headings_and_two_turnings() =>
        Assert.Equal("2 1/2 in", Of("puffing", """{"finished":"14 in","fullness":2,"width":"1 1/2 in","rise":"1/4 in","heading":"1/4 in","turning":"1/8 in"}""").Text("cutDepth"));

    [Theory]
    [InlineData("strip")]
    [InlineData("puff-ruffle")]
    public void A_fullness_that_was_not_given_is_said_to_be_taken(string kind) =>
        Assert.Contains("No fullness was given", Of("puffing", $$"""{"finished":"14 in","kind":"{{kind}}","width":"3 in"}""")["notes"]!.ToJsonString(), StringComparison.Ordinal);

    [Fact]
    public void A_puffed_ruffle_has_no_rise() =>
        Refuses("puffing", """{"finished":"14 in","kind":"puff-ruffle","width":"3 in","rise":"1/4 in"}""", "rise", "belong to a puffing strip");
}
