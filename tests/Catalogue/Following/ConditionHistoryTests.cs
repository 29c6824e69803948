using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>Findings followed over time, read from the record.</summary>
public class ConditionHistoryTests
{
    private static readonly string[] None = [];

    private static readonly string[] Three =
        ["""{"id":"e3","date":"2026-03-01"}""", """{"id":"e1","date":"2024-05-10"}""", """{"id":"e2","date":"2025-04"}"""];

    [Fact]
    public void Nothing_recorded_is_nothing_followed()
    {
        var history = ConditionHistory.Of([]);
        Assert.Empty(history.Examinations);
        Assert.Empty(history.Findings);
        Assert.Empty(history.Sightings);
    }

    [Fact]
    public void Examinations_stand_by_their_first_day_and_those_without_one_before_all()
    {
        var history = Recorded.History([.. Three, """{"id":"e0"}""", """{"id":"e4","date":"2025"}"""]);
        Assert.Equal(["e0", "e1", "e4", "e2", "e3"], history.Examinations.Select(e => e.Id));
        Assert.Equal([1, 3, 5, 7, 9], history.Examinations.Select(e => e.Place));
    }

    [Fact]
    public void A_finding_belongs_to_the_examination_it_names_before_that_of_its_date()
    {
        var history = Recorded.History(Three, """{"id":"a","date":"2026-03-01","examination":"e1"}""", """{"id":"b","date":"2026-03-01"}""", """{"id":"c","date":"2025-04-20"}""", """{"id":"d","examination":"e2"}""");
        Assert.Equal("e1", Of("a").Examined!.Id);
        Assert.Equal("e3", Of("b").Examined!.Id);
        Assert.Null(Of("c").Examined);
        Assert.Equal(new DateOnly(2025, 4, 1), Of("d").Date);
        Assert.Empty(history.At(history.Examinations[0]).Select(s => s.Id).Except(["a"]));

        Sighting Of(string id) => history.Sightings.Single(s => s.Id == id);
    }

    [Fact]
    public void Of_two_examinations_on_one_day_a_finding_is_of_the_one_entered_last()
    {
        var history = Recorded.History(["""{"id":"e2","date":"2026-01-01"}""", """{"id":"e1","date":"2026-01-01"}"""], """{"id":"a","date":"2026-01-01"}""");
        Assert.Equal("e2", history.Sightings[0].Examined!.Id);
    }

    [Fact]
    public void An_examination_without_findings_is_looked_over_and_nothing_new()
    {
        var history = Recorded.History(Three, """{"id":"a","date":"2024-05-10"}""");
        Assert.Equal([1, 0, 0], history.Examinations.Select(e => history.At(e).Count()));
    }

    [Theory]
    [InlineData("2024-05-09", 0)]
    [InlineData("2024-05-10", 1)]
    [InlineData("2024-05-11", 2)]
    [InlineData("2025-03-31", 2)]
    [InlineData("2025-04-02", 4)]
    [InlineData("2026-12-24", 6)]
    public void What_was_seen_between_examinations_stands_between_them(string date, int place) =>
        Assert.Equal(place, Recorded.History(Three, $$"""{"id":"a","date":"{{date}}"}""").Sightings[0].Place);

    [Fact]
    public void What_continues_another_is_one_thing_followed_first_seen_first()
    {
        var history = Recorded.History(Three,
            """{"id":"a","date":"2024-05-10","severity":"slight"}""", """{"id":"x","date":"2024-05-10"}""",
            """{"id":"b","date":"2025-04","severity":"moderate","continues":"a"}""", """{"id":"c","date":"2026-03-01","severity":"severe","continues":"b"}""");
        Assert.Equal([["a", "b", "c"], ["x"]], history.Findings.Select(f => f.Sightings.Select(s => s.Id)));
        var followed = history.Findings[0];
        Assert.Equal("c", followed.Latest.Id);
        Assert.Equal(3, followed.Severity);
        Assert.True(followed.Change > 0);
        Assert.False(followed.IsOver);
    }

    [Fact]
    public void Two_that_continue_one_share_its_beginning()
    {
        var history = Recorded.History(None, """{"id":"a"}""", """{"id":"b","continues":"a"}""", """{"id":"c","continues":"a"}""");
        Assert.Equal([["a", "b"], ["a", "c"]], history.Findings.Select(f => f.Sightings.Select(s => s.Id)).OrderBy(c => c.Last()));
    }

    [Fact]
    public void A_ring_of_findings_is_opened_and_none_is_lost()
    {
        var ring = Recorded.History(None, """{"id":"a","continues":"c"}""", """{"id":"b","continues":"a"}""", """{"id":"c","continues":"b"}""", """{"id":"d"}""");
        Assert.Equal(["a", "b", "c", "d"], ring.Findings.SelectMany(f => f.Sightings).Select(s => s.Id).Order());
        Assert.Equal(["a", "b", "c"], ring.Findings.Single(f => f.Sightings.Count == 3).Sightings.Select(s => s.Id));
        // One that leads into a ring ends the walk as well.
        Assert.Equal(2, Recorded.History(None, """{"id":"a","continues":"b"}""", """{"id":"b","continues":"a"}""", """{"id":"c","continues":"b"}""").Findings.Single(f => f.Latest.Id == "c").Sightings.Count - 1);
    }

    [Fact]
    public void What_continues_something_no_longer_there_begins_with_itself() =>
        Assert.Equal(["b"], Recorded.History(None, """{"id":"b","continues":"gone"}""").Findings.Single().Sightings.Select(s => s.Id));

    [Fact]
    public void What_is_ended_is_over_and_what_was_seen_again_came_back()
    {
        var over = Recorded.History(None, """{"id":"a"}""", """{"id":"b","continues":"a","attention":"before-handling","ended":{"date":"2026-05"}}""").Findings.Single();
        Assert.True(over.IsOver);
        Assert.False(over.CameBack);
        Assert.Equal(0, over.Urgency);
        Assert.Equal(new DateOnly(2026, 5, 1), over.Latest.EndedOn);

        var back = Recorded.History(None, """{"id":"a","ended":{}}""", """{"id":"b","continues":"a","attention":"soon"}""").Findings.Single();
        Assert.False(back.IsOver);
        Assert.True(back.CameBack);
        Assert.Equal(2, back.Urgency);
    }

    [Fact]
    public void What_needs_care_first_stands_first()
    {
        var history = Recorded.History(None,
            """{"id":"none","attention":"none","severity":"severe"}""", """{"id":"untold","severity":"moderate"}""", """{"id":"over","attention":"before-handling","ended":{"date":"2026"}}""",
            """{"id":"watch","attention":"watch","severity":"slight"}""", """{"id":"before","attention":"before-handling","severity":"slight"}""",
            """{"id":"soon","attention":"soon","severity":"moderate","date":"2025"}""", """{"id":"soon-severe","attention":"soon","severity":"severe"}""", """{"id":"soon-later","attention":"soon","severity":"moderate","date":"2026"}""");
        Assert.Equal(["before", "soon-severe", "soon-later", "soon", "watch", "none", "untold", "over"], history.Findings.Select(f => f.Latest.Id));
    }

    [Fact]
    public void What_a_later_look_leaves_out_stands_as_it_was_told_before()
    {
        var finding = Recorded.History(None, """{"id":"a","attention":"soon","severity":"severe"}""", """{"id":"b","continues":"a"}""").Findings.Single();
        Assert.Equal((2, 3), (finding.Urgency, finding.Severity));
        Assert.Equal(0, Recorded.History(None, """{"id":"a","attention":"soon"}""", """{"id":"b","continues":"a","attention":"none"}""").Findings.Single().Urgency);
    }

    [Fact]
    public void A_repair_belongs_to_what_it_answers_or_ended()
    {
        var garment = Recorded.Garment(None,
            ["""{"id":"a"}""", """{"id":"b","continues":"a","ended":{"repair":"r2"}}""", """{"id":"x"}"""],
            """{"id":"r1","answers":"a"}""", """{"id":"r2"}""", """{"id":"r3","answers":"x"}""", """{"id":"r4"}""");
        var findings = ConditionHistory.Of(garment).Findings;
        Assert.Equal(["r1", "r2"], findings.Single(f => f.Latest.Id == "b").Repairs.Select(r => r["id"]!.ToString()));
        Assert.Equal(["r3"], findings.Single(f => f.Latest.Id == "x").Repairs.Select(r => r["id"]!.ToString()));
    }

    [Fact]
    public void Reading_changes_nothing_of_what_is_read()
    {
        var garment = Recorded.Garment(Three, ["""{"id":"a","date":"2024"}""", """{"id":"b","continues":"a"}"""], """{"id":"r","answers":"a"}""");
        var before = garment.DeepClone();
        _ = ConditionHistory.Of(garment);
        Assert.True(JsonNode.DeepEquals(before, garment));
    }

    [Theory]
    [InlineData("""{"severity":"slight"}""", """{"severity":"moderate"}""", 1)]
    [InlineData("""{"severity":"severe"}""", """{"severity":"moderate"}""", -1)]
    [InlineData("""{"severity":"slight"}""", """{"severity":"slight"}""", 0)]
    [InlineData("""{"severity":"slight","extent":"1 in"}""", """{"severity":"slight","extent":"2 in"}""", 1)]
    [InlineData("""{"extent":"a third of the hem"}""", """{"extent":"a quarter"}""", -1)]
    [InlineData("""{"severity":"severe","extent":"1 in"}""", """{"severity":"moderate","extent":"2 in"}""", -1)]
    [InlineData("""{"extent":"1 in"}""", """{"extent":"half"}""", 0)]
    [InlineData("""{"extent":"1 in"}""", """{"extent":"half","trend":"getting-worse"}""", 1)]
    [InlineData("""{}""", """{"trend":"stable"}""", 0)]
    [InlineData("""{"severity":"slight"}""", """{}""", 0)]
    public void What_was_judged_counts_before_what_was_measured_and_that_before_what_was_said(string earlier, string later, int against)
    {
        var (one, two) = (JsonNode.Parse(earlier)!.AsObject(), JsonNode.Parse(later)!.AsObject());
        (one["id"], two["id"], two["continues"]) = ("a", "b", "a");
        Assert.Equal(against, ConditionHistory.Of(new() { ["condition"] = new JsonArray(one, two) }).Findings.Single().Change);
    }
}
