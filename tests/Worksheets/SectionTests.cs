using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Tests;

public class SectionTests
{
    /// <summary>
    /// One half of a bodice front from the middle outwards: 3 pin tucks of 1/16 in, 1/4 in between, 1/2 in before and after;
    /// an insertion of 1 in; the same tucks again. By hand a run of tucks is 1/2 + 3 × 1/16 + 2 × 1/4 + 1/2 = 1 11/16 in
    /// finished and 3 × 2/16 more, 2 1/16 in, of cloth. The half: 2 × 1 11/16 + 1 = 4 3/8 in finished, 2 × 2 1/16 + 1 = 5 1/8 in
    /// of cloth, laid on; the whole twice that.
    /// </summary>
    private const string Pin = """{"plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}],"lead":"1/2 in","trail":"1/2 in"}}""";

    private static string Bodice(string insertion = """{"width":"1 in"}""") =>
        $$"""{"sections":[{{Pin}},{"insertion":{{insertion}}},{{Pin}}],"mirrored":true}""";

    [Fact] public void A_mirrored_bodice_front_comes_out_as_the_sum_by_hand()
    {
        var result = Examples.Made(Bodice()).Result;

        Assert.Equal("8 3/4 in", Text(result["finished"]));
        Assert.Equal("10 1/4 in", Text(result["cloth"]));
        Assert.Equal("1 1/2 in", Text(result["takeUp"]));
        Assert.Null(result["plan"]);
        Assert.Equal(["start", "start", "start", "end", "end", "end"], Sections(result).Select(s => s["half"]!.GetValue<string>()));
        Assert.Equal(["0 in", "2 1/16 in", "3 1/16 in", "5 1/8 in", "7 3/16 in", "8 3/16 in"], Sections(result).Select(s => Text(s["flatFrom"])));
        Assert.Equal(["2 1/16 in", "3 1/16 in", "5 1/8 in", "7 3/16 in", "8 3/16 in", "10 1/4 in"], Sections(result).Select(s => Text(s["flatTo"])));
        Assert.Equal(["0 in", "1 11/16 in", "2 11/16 in", "4 3/8 in", "6 1/16 in", "7 1/16 in"], Sections(result).Select(s => Text(s["finishedFrom"])));
        Assert.Equal("8 3/4 in", Text(Sections(result)[^1]["finishedTo"]));
    }

    [Fact] public void The_mirrored_tucks_lie_the_other_way_and_their_lines_are_the_mirror_image()
    {
        var result = Examples.Made(Bodice()).Result;
        var lines = result["lines"]!.AsArray().OfType<JsonObject>().ToList();

        Assert.Equal(12, lines.Count);
        Assert.Equal("towards-start", Sections(result)[0]["lies"]!.GetValue<string>());
        Assert.Equal("towards-end", Sections(result)[3]["lies"]!.GetValue<string>());

        // By hand, the first tuck after the middle: stitching at 5 1/8 + 1/2, fold 1/16 on, second stitching 1/16 on.
        Assert.Equal(["5 5/8 in", "5 11/16 in", "5 3/4 in"], new[] { "firstStitch", "fold", "secondStitch" }.Select(n => Text(lines[6][n])));
        Assert.Equal(["4 1/2 in", "4 9/16 in", "4 5/8 in"], new[] { "firstStitch", "fold", "secondStitch" }.Select(n => Text(lines[5][n])));
        for (var i = 0; i < 12; i++)
        {
            Assert.Equal(Mm(result["cloth"]), Mm(lines[i]["fold"]) + Mm(lines[11 - i]["fold"]));
            Assert.Equal(Mm(result["cloth"]), Mm(lines[i]["firstStitch"]) + Mm(lines[11 - i]["secondStitch"]));
            Assert.Equal(Mm(result["finished"]), Mm(lines[i]["finishedStitch"]) + Mm(lines[11 - i]["finishedStitch"]));
            Assert.Equal(Mm(result["finished"]), Mm(lines[i]["finishedFold"]) + Mm(lines[11 - i]["finishedFold"]));
        }
    }

    [Fact] public void A_section_plan_tells_its_own_lines_from_its_own_start()
    {
        var plan = Sections(Examples.Made(Bodice()).Result)[5]["plan"]!;
        Assert.Equal("2 1/16 in", Text(plan["cloth"]));
        Assert.Equal("9/16 in", Text(plan["lines"]![0]!["fold"]));
    }

    [Fact] public void An_insertion_let_in_adds_to_the_finished_piece_and_nothing_to_the_cloth()
    {
        var result = Examples.Made(Bodice("""{"width":"1 in","laidOn":false}""")).Result;

        Assert.Equal("8 3/4 in", Text(result["finished"]));
        Assert.Equal("8 1/4 in", Text(result["cloth"]));
        Assert.Equal(["L1", "L2"], result["positions"]!["insertions"]!.AsArray().Select(r => Assert.Single(r!["lines"]!.AsArray())!["number"]!.GetValue<string>()));
    }

    [Fact] public void It_is_measured_from_the_centre_and_steps_figures_and_shopping_know_the_insertions()
    {
        var worksheet = Examples.Made(Bodice());
        var result = worksheet.Result;

        Assert.Equal("centre", result["datum"]!["line"]!.GetValue<string>());
        Assert.Equal(["3 1/16 in", "2 1/16 in"], result["positions"]!["insertions"]![0]!["lines"]!.AsArray().Select(l => Text(l!["fromDatum"])));
        Assert.Equal(12, result["steps"]!.AsArray().Count(s => s!["tuck"] is not null));
        Assert.Equal([1, 2], result["steps"]!.AsArray().Where(s => s!["insertion"] is not null).Select(s => s!["insertion"]!.GetValue<int>()));
        Assert.Contains(result["shopping"]!.AsArray(), s => s!.GetValue<string>() == "Insertion, 1 in wide: 2 times the length of the folds with what is added to it, and a little over for each end.");
        Assert.Single(result["gauges"]!.AsArray());
        Assert.Contains("L1a", WorksheetDiagram.Svg(worksheet), StringComparison.Ordinal);
        Assert.Equal("12 tucks with insertion", worksheet.Title);
    }

    [Fact] public void Unmirrored_sections_stand_side_by_side_from_the_start()
    {
        var result = Examples.Made($$"""{"sections":[{{Pin}},{"insertion":{"width":"1 in"} },{"onto":{"finished":"3 in","tucks":{"from":2,"to":2},"width":{"from":"1/4 in","to":"1/4 in"},"space":{"from":"1/2 in","to":"1/2 in"},"ends":{"from":"1 in","to":"1 in"},"finest":"1/16 in"} }]}""").Result;

        Assert.Equal("5 11/16 in", Text(result["finished"])); // 1 11/16 + 1 + 3
        Assert.Equal("7 1/16 in", Text(result["cloth"])); // 2 1/16 + 1 + 4
        Assert.Equal("start", result["datum"]!["line"]!.GetValue<string>());
        Assert.Equal(1, Sections(result)[2]["fit"]!["count"]!.GetValue<int>());
    }

    [Fact] public void Where_there_are_no_tucks_no_strip_is_asked_for()
    {
        var steps = Steps("""{"sections":[{"insertion":{"width":"1 in"}},{"insertion":{"width":"2 in","laidOn":false}}]}""");
        Assert.NotEmpty(steps);
        Assert.DoesNotContain(steps, s => s.Contains("strip", StringComparison.Ordinal));
    }

    [Fact] public void Beside_twin_needle_tucks_which_have_their_strip_the_strip_to_sew_is_of_the_others_and_both_needles_are_told()
    {
        var result = Examples.Made($$"""{"sections":[{"plan":{{TwinNeedleTests.Three}} },{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]} }],"sewn":"hand"}""").Result;

        // 4 tucks of 1/8 in, the fewest to try: 8 × 1/8 in.
        Assert.Equal(["1/8 in", "1 in"], new[] { Inches(result["strip"]!["width"]), Inches(result["strip"]!["planned"]) });
        Assert.False(result["strip"]!["sewn"]!.GetValue<bool>());
        Assert.Contains(result["settings"]!.AsArray(), s => s!["text"]!.GetValue<string>().StartsWith("By hand", StringComparison.Ordinal));
        Assert.Contains(result["settings"]!.AsArray(), s => s!["text"]!.GetValue<string>().StartsWith("Twin needle", StringComparison.Ordinal));

        static string Inches(JsonNode? length) => Length.FromMillimetres(length!["mm"]!.GetValue<decimal>()).ToText(LengthUnit.Inches);
    }

    [Theory]
    [InlineData("""{"sections":[{}]}""", "sections[0]", false)]
    [InlineData("""{"sections":[]}""", "sections", false)]
    [InlineData("""{"sections":{}}""", "sections", true)]
    [InlineData("""{"sections":[7]}""", "sections[0]", true)]
    [InlineData("""{"sections":[{"insertion":{}}]}""", "sections[0].insertion.width", false)]
    [InlineData("""{"sections":[{"insertion":{"width":"0 in"}}]}""", "sections[0].insertion.width", false)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in","laidOn":"yes"}}]}""", "sections[0].insertion.laidOn", true)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"},"plan":{"groups":[{"tucks":1,"width":"1 in"}]}}]}""", "sections[0].insertion", false)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"}},{"plan":{"groups":[{"tucks":1,"width":"0 in"}]}}]}""", "sections[1].plan.groups[0].width", false)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"}},{"plan":{"groups":[{"tucks":1,"width":"5"}]}}]}""", "sections[1].plan.groups[0].width", true)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"},"technique":"pin"}]}""", "sections[0].technique", false)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"},"lace":"torchon"}]}""", "sections[0].lace", true)]
    [InlineData("""{"sections":[{"insertion":{"width":"1 in"}}],"plan":{"groups":[{"tucks":1,"width":"1 in"}]}}""", "plan", false)]
    [InlineData("""{"mirrored":true,"plan":{"groups":[{"tucks":1,"width":"1 in"}]}}""", "mirrored", false)]
    [InlineData("""{"mirrored":true,"sections":[{"plan":{"groups":[{"tucks":1,"width":"1 in"}],"lies":"from-centre"}}]}""", "sections[0].plan.lies", false)]
    [InlineData("""{"sections":[{"plan":{"groups":[{"tucks":1000,"width":"1 mm","space":"1 mm"}]}},{"plan":{"groups":[{"tucks":999,"width":"1 mm","space":"1 mm"},{"tucks":2,"width":"1 mm","space":"1 mm"}],"between":["1 mm"]}}]}""", "sections", false)]
    public void What_is_wrong_with_a_section_is_named_by_its_place(string request, string path, bool unreadable)
    {
        var e = Assert.Throws<FaultException>(() => Examples.Made(request));
        Assert.Equal(path, Assert.Single(e.Faults).Path);
        Assert.Equal(unreadable, e.Unreadable);
    }

    [Fact] public void A_section_that_nothing_fits_says_which()
    {
        var e = Assert.Throws<DoesNotFitException>(() => Examples.Made($$"""{"sections":[{{Pin}},{"onto":{"finished":"1 in","tucks":{"from":9,"to":9},"width":{"from":"1/4 in","to":"1/4 in"},"space":{"from":"1/2 in","to":"1/2 in"},"ends":{"from":"1 in","to":"1 in"},"finest":"1/16 in"} }]}"""));
        Assert.Equal("sections[1].onto", Assert.Single(e.Faults).Path);
    }

    [Fact] public void Recorded_techniques_give_lie_words_and_first_picture()
    {
        var garment = Examples.Garment();
        garment["techniques"]![0]!["pictures"] = new JsonArray("0199a1b2-0000-7000-8000-00000000aaaa");
        var request = Examples.Object($$"""
            {"garment":"{{Examples.GarmentId}}","sections":[{"technique":"pin","plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}]} },
             {"technique":"lace","insertion":{"width":"3/4 in"} }]}
            """);
        var result = WorksheetMaker.Make(request, garment, Examples.Noon).Result;

        Assert.Equal("centre-front", result["datum"]!["line"]!.GetValue<string>());
        Assert.Equal("0199a1b2-0000-7000-8000-00000000aaaa", result["picture"]!["id"]!.GetValue<string>());
        Assert.Contains(result["evidence"]!.AsArray(), e => e!["text"]!.GetValue<string>() == "Insertion 3/4 in wide, laid on."
            && e["is"]!.GetValue<string>().Contains("that of the antique", StringComparison.Ordinal));
        Assert.Contains(result["shopping"]!.AsArray(), s => s!.GetValue<string>().StartsWith("Torchon", StringComparison.OrdinalIgnoreCase));
    }

    private static List<string> Steps(string request) => [.. Examples.Made(request).Result["steps"]!.AsArray().Select(s => s!["text"]!.GetValue<string>())];

    private static IReadOnlyList<JsonObject> Sections(JsonObject result) => [.. result["sections"]!.AsArray().OfType<JsonObject>()];

    private static string Text(JsonNode? length) => length!["text"]!.GetValue<string>();

    private static decimal Mm(JsonNode? length) => length!["mm"]!.GetValue<decimal>();
}
