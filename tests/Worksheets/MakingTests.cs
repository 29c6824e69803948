namespace HeirloomArchive.Worksheets.Tests;

public class MakingTests
{
    [Fact] public void Towards_the_start_the_folds_fall_where_the_sum_by_hand_says()
    {
        var worksheet = Examples.Made(Examples.TowardsStart);

        Assert.Equal(["2 1/4 in", "2 7/8 in", "4 1/2 in"], Examples.Positions(worksheet, "fromDatum", 1));
        Assert.Equal(["2 1/8 in", "2 3/4 in", "4 1/4 in"], Examples.Positions(worksheet, "fromDatum", 0));
        Assert.Equal(["2 3/8 in", "3 in", "4 3/4 in"], Examples.Positions(worksheet, "fromDatum", 2));
        Assert.Equal("7 3/4 in", worksheet.Result["plan"]!["cloth"]!["text"]!.GetValue<string>());
    }

    [Fact] public void The_second_column_counts_allowance_and_shaping_from_the_cut_edge()
    {
        var request = Examples.Object(Examples.TowardsStart);
        request["allow"] = Examples.Object("""{"start":"1/2 in","end":"3/8 in","top":"1/4 in","shaping":"1 in"}""");
        var worksheet = Examples.Made(request);

        Assert.Equal(["3 3/4 in", "4 3/8 in", "6 in"], Examples.Positions(worksheet, "fromCutEdge", 1));
        Assert.Contains("1 1/2 in of allowance and shaping included", worksheet.Result["positions"]!["fromCutEdge"]!.GetValue<string>(), StringComparison.Ordinal);

        // 7 3/4 + 1/2 + 3/8 + 2 × 1 along the row; 1/4 + 2 × 1 more along the folds.
        Assert.Equal("10 5/8 in", worksheet.Result["piece"]!["along"]!["text"]!.GetValue<string>());
        Assert.Equal("2 1/4 in", worksheet.Result["piece"]!["acrossAdded"]!["text"]!.GetValue<string>());
        Assert.True(worksheet.Result["piece"]!["tuckFirst"]!.GetValue<bool>());
    }

    [Fact] public void A_centre_lie_is_measured_from_the_centre_alike_on_both_sides()
    {
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}],"centre":"1 in","trail":"1 in","lies":"from-centre"}}""");

        // Half: 1/2 of plain cloth, tuck 1/2 to 3/4, 1/4 seen beyond the covered 1/8: next at 1 1/8.
        Assert.Equal(["1 1/4 in", "5/8 in", "5/8 in", "1 1/4 in"], Examples.Positions(worksheet, "fromDatum", 1));
        Assert.Equal("centre", worksheet.Result["datum"]!["line"]!.GetValue<string>());
        var start = worksheet.Result["positions"]!["rows"]!.AsArray().Select(r => r!["half"]!.GetValue<string>());
        Assert.Equal(["start", "start", "end", "end"], start);
    }

    /// <summary>I. McGlauflin, Handicraft for Girls, "Tucking": the hem-tuck first, then from its stitching up; the tucks lie down, towards the hem they are measured from.</summary>
    [Theory]
    [InlineData("towards-end", "3 2 1")]
    [InlineData("towards-start", "1 2 3")]
    public void Tucks_are_sewn_away_from_the_side_they_cover(string lies, string order)
    {
        var request = Examples.Object(Examples.TowardsStart);
        request["plan"]!["lies"] = lies;
        Assert.Equal(order, string.Join(' ', Sewn(Examples.Made(request))));
    }

    [Theory]
    [InlineData("from-centre", "1 2 4 3")]
    [InlineData("towards-centre", "2 1 3 4")]
    public void Of_a_centre_lie_one_half_is_sewn_after_the_other(string lies, string order) => Assert.Equal(order, string.Join(' ', Sewn(Examples.Made(
        $$$"""{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}],"centre":"1 in","trail":"1 in","lies":"{{{lies}}}"}}"""))));

    [Fact] public void Each_position_is_rounded_by_itself_and_never_added_up()
    {
        // Folds fall 17.3 mm apart; in whole millimetres each is the nearest to its own place.
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":6,"width":"3.1 mm","space":"8 mm"}],"lead":"10 mm","trail":"10 mm"},"unit":"mm"}""");

        Assert.Equal(["≈ 13 mm", "≈ 30 mm", "≈ 48 mm", "65 mm", "≈ 82 mm", "≈ 100 mm"], Examples.Positions(worksheet, "fromDatum", 1));
        Assert.Equal(99.6m, worksheet.Result["positions"]!["rows"]![5]!["lines"]![1]!["fromDatum"]!["mm"]!.GetValue<decimal>());
    }

    [Fact] public void A_half_of_the_smallest_mark_goes_up()
    {
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":1,"width":"1/8 in"}],"lead":"1/32 in","trail":"1 in"}}""");
        Assert.Equal(["≈ 1/16 in"], Examples.Positions(worksheet, "fromDatum", 0));

        var finer = Examples.Made("""{"plan":{"groups":[{"tucks":1,"width":"1/8 in"}],"lead":"1/32 in","trail":"1 in"},"unit":"in32"}""");
        Assert.Equal(["1/32 in"], Examples.Positions(finer, "fromDatum", 0));
    }

    [Fact] public void From_a_technique_the_best_fit_becomes_the_plan_and_the_recorded_line_is_marked_first()
    {
        var worksheet = Examples.Made($$$"""
            {"garment":"{{{Examples.GarmentId}}}","technique":"pin","onto":{"finished":"6 1/16 in","tucks":{"from":4,"to":12},
             "width":{"from":"1/16 in","to":"1/16 in"},"space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"0 in","to":"9 in"},"finest":"1/16 in"}}
            """);

        Assert.Equal(4, worksheet.RecordVersion);
        Assert.Equal("centre-front", worksheet.Result["datum"]!["line"]!.GetValue<string>());
        Assert.Equal("6 1/16 in", worksheet.Result["plan"]!["finished"]!["text"]!.GetValue<string>());

        // Like the antique's first group, which nobody sent: 6 tucks, 3/16 in between.
        Assert.Equal(6, worksheet.Result["fit"]!["chosen"]!["tucks"]!.GetValue<int>());
        Assert.Equal("3/16 in", worksheet.Result["fit"]!["chosen"]!["space"]!["text"]!.GetValue<string>());
        Assert.Contains(worksheet.Result["evidence"]!.AsArray(), e => e!["text"]!.GetValue<string>() == "Sewn: hand."
            && e["is"]!.GetValue<string>().Contains("9 stitches to the inch", StringComparison.Ordinal));
    }

    [Fact] public void A_half_is_doubled_and_its_lie_taken_over()
    {
        var worksheet = Examples.Made($$$"""
            {"garment":"{{{Examples.GarmentId}}}","techniques":["sides"],"onto":{"finished":"10 in","tucks":{"from":2,"to":12},
             "width":{"from":"1/8 in","to":"1/8 in"},"space":{"from":"0 in","to":"1/2 in"},"ends":{"from":"0 in","to":"9 in"},"finest":"1/16 in"}}
            """);

        Assert.Equal("from-centre", worksheet.Result["lies"]!.GetValue<string>());
        Assert.Equal(6, worksheet.Result["plan"]!["lines"]!.AsArray().Count);
        Assert.Equal("1/8 in", worksheet.Result["fit"]!["chosen"]!["space"]!["text"]!.GetValue<string>());
    }

    [Fact] public void What_does_not_fit_says_why_and_what_would()
    {
        var e = Assert.Throws<DoesNotFitException>(() => Examples.Made("""
            {"onto":{"finished":"3 in","tucks":{"from":20,"to":22},"width":{"from":"1/8 in","to":"1/8 in"},
             "space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in"}}
            """));

        Assert.False(e.Unreadable);
        Assert.NotEmpty(e.Answer.Nearest);
        Assert.Contains("3 in", e.Answer.Reason, StringComparison.Ordinal);
    }

    [Fact] public void With_no_garment_it_is_measured_from_the_start_of_the_run()
    {
        var worksheet = Examples.Made(Examples.Five());

        Assert.Null(worksheet.RecordVersion);
        Assert.Equal("the start of the run", worksheet.Result["datum"]!["text"]!.GetValue<string>());
        Assert.Equal("5 tucks", worksheet.Title);
    }

    [Fact] public void The_other_techniques_are_told_beside_the_one_that_is_planned()
    {
        var worksheet = Examples.Made(Examples.Five($$$"""{"garment":"{{{Examples.GarmentId}}}","techniques":["lace","sides","pin"]}"""));

        Assert.Equal(["lace", "pin"], worksheet.Result["also"]!.AsArray().Select(a => a!["technique"]!.GetValue<string>()));
        Assert.Contains("orchon", worksheet.Result["also"]![0]!["text"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal("old mend at the side", worksheet.Result["also"]![0]!["note"]!.GetValue<string>());
    }

    [Fact] public void Folds_along_the_warp_use_up_the_loom_width_and_it_says_so()
    {
        var narrow = Examples.Made(Examples.Five("""{"cloth":{"width":"6 in","foldsAlong":"warp"}}"""));
        var along = Examples.Made(Examples.Five("""{"cloth":{"width":"6 in","foldsAlong":"weft"}}"""));

        Assert.Contains(narrow.Cautions, c => c!["code"]!.GetValue<string>() == "wider-than-cloth");
        Assert.DoesNotContain(along.Cautions, c => c!["code"]!.GetValue<string>() == "wider-than-cloth");
    }

    [Fact] public void A_childs_piece_brings_the_cautions_for_children()
    {
        var codes = Catalogue.Cautions.At("children").Select(c => c.Code).Except(Catalogue.Cautions.At("work").Select(c => c.Code)).ToList();
        var from = Examples.Made(Examples.Five($$$"""{"garment":"{{{Examples.GarmentId}}}"}""")).Cautions.Select(c => c!["code"]!.GetValue<string>()).ToList();
        var without = Examples.Made(Examples.Five()).Cautions.Select(c => c!["code"]!.GetValue<string>()).ToList();

        Assert.NotEmpty(codes);
        Assert.Subset(from.ToHashSet(), codes.ToHashSet());
        Assert.Empty(codes.Intersect(without));
        Assert.All(Catalogue.Cautions.At("marking"), c => Assert.Contains(c.Code, without));
    }

    [Fact] public void Notches_stand_at_width_next_crease_and_check_and_with_a_strip_at_one_more()
    {
        var request = Examples.Five();
        request["plan"]!["testStrip"] = Examples.Object(Examples.Strip);
        var notches = Examples.Made(request).Result["gauges"]![0]!["notches"]!.AsArray().Select(n => n!["at"]!["mm"]!.GetValue<decimal>());

        // w 1/8, s 1/4; the strip: (12 - 9 7/16) / 10 - 2/8 = 1/160 in.
        Assert.Equal([3.175m, 12.7m, 9.525m, 12.85875m], notches);
    }

    [Fact] public void Every_step_names_its_tuck_and_every_fifth_is_checked()
    {
        var steps = Examples.Made(Examples.Five()).Result["steps"]!.AsArray();

        Assert.Equal(Enumerable.Range(1, steps.Count), steps.Select(s => s!["number"]!.GetValue<int>()));
        var third = steps.Single(s => s!["tuck"]?.GetValue<int>() == 3)!;
        Assert.Equal(["3a", "3", "3b"], third["marks"]!.AsArray().Select(m => m!.GetValue<string>()));
        Assert.Contains("fold on line 3 (3 3/8 in from the start of the run)", third["text"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Contains(steps, s => s!["text"]!.GetValue<string>().StartsWith("Check: from the stitching of tuck 5 to that of tuck 1 it is 1 1/2 in", StringComparison.Ordinal));
    }

    [Fact] public void Recorded_tucks_that_are_not_parallel_are_planned_so_and_it_says_what_they_are()
    {
        var garment = Examples.Garment();
        garment["techniques"]![0]!["tuckKind"] = "tapered";
        var worksheet = WorksheetMaker.Make(Examples.Five($$"""{"garment":"{{Examples.GarmentId}}","techniques":["pin"]}"""), garment, Examples.Noon);
        var caution = Assert.Single(worksheet.Cautions, c => c!["code"]!.GetValue<string>() == "planned-parallel");
        Assert.StartsWith("Recorded as tapered tucks; this", caution!["text"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact] public void A_later_change_of_the_record_leaves_the_worksheet_as_it_was()
    {
        var garment = Examples.Garment();
        var request = Examples.Five($$$"""{"garment":"{{{Examples.GarmentId}}}","technique":"pin"}""");
        var worksheet = WorksheetMaker.Make(request, garment, Examples.Noon);
        var before = worksheet.ToJson().ToJsonString();

        garment["techniques"]![0]!["measuredFrom"] = "shoulder";
        garment["name"] = "Another name";
        request["title"] = "Another title";

        Assert.Equal(before, worksheet.ToJson().ToJsonString());
    }

    private static IEnumerable<int> Sewn(Worksheet worksheet) =>
        worksheet.Result["steps"]!.AsArray().Where(s => s!["tuck"] is not null).Select(s => s!["tuck"]!.GetValue<int>());
}
