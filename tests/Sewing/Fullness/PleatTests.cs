using CsCheck;
using HeirloomArchive.Sewing.Fullness;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests.Fullness;

public class PleatTests
{
    private static readonly Gen<(int Count, long Width, long Depth)> Knife =
        Gen.Select(Gen.Int[1, 40], Gen.Long[2, 100_000_000], Gen.Long[1, 100_000_000], (n, w, d) => (n, w, d));

    [Fact]
    public void Knife_pleats_fall_where_tucks_of_the_same_depth_do() => Knife.Where(k => k.Depth <= k.Width).Sample((n, w, d) =>
    {
        var (width, depth) = (Length.FromNanometres(w), Length.FromNanometres(d));
        var pleats = new Pleats(Pleats.Classify(depth, width), n, n * width, depth, Length.Zero);
        var tucks = TuckPlan.Make(new TuckRun { Groups = [new(n, depth, new(width - depth))], Trail = width - depth });
        Assert.Equal(tucks.Cloth, pleats.Cloth);
        Assert.Equal(tucks.Finished, pleats.Finished);
        Assert.Equal(tucks.Lines.SelectMany(l => new[] { l.FirstStitch, l.Fold, l.SecondStitch }), pleats.Lines().Select(l => l.Flat));
        Assert.Equal(tucks.Lines.SelectMany(l => new[] { l.FinishedStitch, l.FinishedFold, l.FinishedStitch }), pleats.Lines().Select(l => l.Finished));
    });

    [Fact]
    public void Lines_never_fall_on_the_flat_cloth_and_stay_within_it() =>
        Gen.Select(Gen.Enum<PleatKind>(), Gen.Int[1, 40], Gen.Long[1_000, 1_000_000_000], Gen.Long[1, 50_000_000]).Sample((kind, n, section, d) =>
        {
            var face = Length.FromNanometres(section / n / 2);
            var pleats = new Pleats(kind, n, Length.FromNanometres(section), Length.FromNanometres(d), kind == PleatKind.Box ? face : Length.Zero);
            var flat = pleats.Lines().Select(l => l.Flat).ToList();
            return flat.Zip(flat.Skip(1)).All(p => p.First <= p.Second) && flat[0] >= Length.Zero && flat[^1] <= pleats.Cloth;
        });

    [Fact]
    public void Each_stretch_of_cloth_between_lines_is_as_long_flat_as_laid() =>
        Gen.Select(Gen.Enum<PleatKind>(), Gen.Int[1, 20], Gen.Long[1_000, 1_000_000_000], Gen.Long[1, 50_000_000]).Sample((kind, n, section, d) =>
        {
            var lines = new Pleats(kind, n, Length.FromNanometres(section), Length.FromNanometres(d), kind == PleatKind.Box ? Length.FromNanometres(section / n / 3) : Length.Zero).Lines();
            return lines.Zip(lines.Skip(1)).All(p => p.Second.Flat - p.First.Flat == (p.Second.Finished >= p.First.Finished ? p.Second.Finished - p.First.Finished : p.First.Finished - p.Second.Finished));
        });

    [Fact]
    public void What_does_not_come_out_whole_is_offered_both_ways()
    {
        var answer = Of("pleats", """{"kind":"shallow","finished":"92 cm","width":"5 cm","depth":"4 cm"}""");
        Assert.False((bool)answer["comesOutWhole"]!);
        Assert.Null(answer["count"]);
        Assert.Equal([18, 19], answer["ways"]!.AsArray().Select(w => (int)w!["count"]!));
        Assert.Equal(["≈ 51.111 mm", "≈ 48.421 mm"], answer.Texts("ways", "width"));
        Assert.Equal(["2360 mm", "2440 mm"], answer.Texts("ways", "flat"));
        Assert.Contains(answer["cautions"]!.AsArray(), c => (string)c!["code"]! == "not-whole");
    }

    [Fact]
    public void From_the_cloth_the_section_comes_back() => Knife.Sample((n, w, d) =>
    {
        var (width, depth) = (Length.FromNanometres(w), Length.FromNanometres(d));
        var kind = Pleats.Classify(depth, width).ToString().ToLowerInvariant();
        string L(Length length) => $$"""{"mm":{{length.Millimetres.ToString(System.Globalization.CultureInfo.InvariantCulture)}}}""";
        var answer = Of("pleats", $$"""{"kind":"{{kind}}","flat":{{L(n * (width + (2 * depth)))}},"width":{{L(width)}},"depth":{{L(depth)}}}""");
        return (bool)answer["comesOutWhole"]! && (int)answer["count"]! == n && (decimal)answer["finished"]!["mm"]! == (n * width).Millimetres;
    }, iter: 200);

    [Theory]
    [InlineData("""{"finished":"500 in","width":"1 in"}""")]
    [InlineData("""{"flat":"1500 mm","width":"1 mm"}""")]
    [InlineData("""{"kind":"box","flat":"3000 mm","width":"2 mm","depth":"1 mm"}""")]
    public void The_least_width_that_is_told_is_taken(string sent) => Assert.Equal(500, (int)Of("pleats", sent)["count"]!);

    [Fact]
    public void Box_pleats_of_another_depth_are_box_pleats() =>
        Assert.All(Of("pleats", """{"kind":"box","finished":"30 in","width":"2 in","count":5,"depth":"1 in"}""")["bothWays"]!.AsArray(), d => Assert.Equal("box", (string?)d!["lies"]));

    [Fact]
    public void Box_pleats_may_stand_apart()
    {
        var answer = Of("pleats", """{"kind":"box","finished":"30 in","width":"2 in","count":5,"depth":"1 in"}""");
        Assert.Equal("50 in", answer.Text("flat"));
        Assert.Equal(["2 in", "3 in", "2 in", "4 in", "3 in", "4 in"], answer.Texts("lines", "finished").Take(6));
        Assert.Equal(["2 in", "3 in", "4 in", "6 in", "7 in", "8 in", "12 in"], answer.Texts("lines", "flat").Take(7));
    }

    [Fact]
    public void An_inverted_pleat_meets_in_the_middle_of_its_share() =>
        Assert.Equal(["6 in", "4 in", "6 in", "8 in", "6 in"], Of("pleats", """{"kind":"inverted","finished":"12 in","count":1,"depth":"2 in"}""").Texts("lines", "finished"));

    [Fact]
    public void Overlapping_pleats_say_how_far_the_last_goes_beyond()
    {
        var answer = Of("pleats", """{"kind":"overlapping","finished":"10 in","width":"1 in","depth":"1 1/2 in"}""");
        Assert.Equal("40 in", answer.Text("flat"));
        Assert.Contains(answer["cautions"]!.AsArray(), c => ((string)c!["text"]!).Contains("each fold lies 1/2 in over the next", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"kind":"shallow","finished":"10 in","width":"1 in","depth":"2 in"}""", "depth", "must be below 1 in")]
    [InlineData("""{"kind":"overlapping","finished":"10 in","width":"1 in","depth":"1 in"}""", "depth", "must be above 1 in")]
    [InlineData("""{"finished":"10 in","width":"1 in","depth":"2 in"}""", "depth", "must be equal to 1 in")]
    [InlineData("""{"kind":"box","finished":"10 in","width":"1 in"}""", "depth", "The depth is missing")]
    [InlineData("""{"kind":"box","finished":"10 in","width":"3 in","count":4,"depth":"1 in"}""", "width", "the face may be at most 2 1/2 in")]
    [InlineData("""{"finished":"10 in","width":"3 in","count":4}""", "width", "each must be 2 1/2 in")]
    [InlineData("""{"finished":"10 in"}""", "width", "Give the width of a pleat or how many")]
    [InlineData("""{"finished":"10 in","flat":"30 in","width":"1 in"}""", "flat", "one of them")]
    [InlineData("""{"kind":"shallow","flat":"10 in","count":5,"depth":"1 in"}""", "count", "the depth must stay below 1 in")]
    [InlineData("""{"finished":"10 in","width":"1/64 in"}""", "width", "more than 500 pleats")]
    [InlineData("""{"flat":"1500 mm","width":"0.5 mm"}""", "width", "must be at least 1 mm")]
    [InlineData("""{"kind":"box","flat":"3000 mm","width":"1 mm","depth":"1 mm"}""", "width", "must be at least 2 mm")]
    [InlineData("""{"finished":"0.000001 mm","count":18}""", "count", "18 pleats do not go into")]
    public void What_can_not_be_says_what_could(string sent, string field, string words) => Refuses("pleats", sent, field, words);

    [Fact]
    public void Smocking_has_a_dot_more_than_spaces()
    {
        var answer = Of("smocking", """{"finished":"5 in","dot":"1/4 in","row":"3/8 in","rows":9,"side":"1/2 in"}""");
        Assert.Equal(("15 in", "16 in"), (answer.Text("flat"), answer.Text("withSides")));
        Assert.Equal(61, (int)answer["across"]![0]!["dots"]!);
        Assert.Equal(["3 in"], answer.Texts("down", "height"));
    }

    [Fact]
    public void Dots_and_rows_that_do_not_come_out_are_offered_both_ways()
    {
        var answer = Of("smocking", """{"finished":"5 in","fullness":3,"dot":"2/7 in","row":"1 in","height":"2 1/2 in"}""");
        Assert.False((bool)answer["dotsComeOutWhole"]!);
        Assert.Equal([53, 54], answer["across"]!.AsArray().Select(w => (int)w!["dots"]!));
        Assert.Equal([3, 4], answer["down"]!.AsArray().Select(w => (int)w!["rows"]!));
        Assert.Equal("1 1/4 in", answer.Texts("down", "rowSpace")[0]);
        Assert.Contains(answer["cautions"]!.AsArray(), c => (string)c!["code"]! == "not-whole");
    }

    [Theory]
    [InlineData("""{"finished":"5 in","dot":"1/4 in","row":"1/4 in"}""", "rows")]
    [InlineData("""{"finished":"5 in","dot":"1/4 in","row":"1/4 in","rows":3,"height":"1 in"}""", "height")]
    public void Rows_or_height_one_of_them_is_wanted(string sent, string field) => Refuses("smocking", sent, field, "one of them");
}
