namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>What two examinations of a piece differ in.</summary>
public class ComparisonTests
{
    private static readonly string[] Severities = ["slight", "moderate", "severe"];

    private static readonly string[] Three =
        ["""{"id":"e1","date":"2024-05-10"}""", """{"id":"e2","date":"2025-05-10"}""", """{"id":"e3","date":"2026-05-10"}"""];

    [Fact]
    public void New_worse_better_the_same_ended_and_not_looked_at()
    {
        var history = Recorded.History(Three,
            """{"id":"w1","examination":"e1","severity":"slight"}""", """{"id":"w2","examination":"e2","severity":"severe","continues":"w1"}""",
            """{"id":"b1","examination":"e1","extent":"4 in"}""", """{"id":"b2","examination":"e2","extent":"2 in","continues":"b1"}""",
            """{"id":"s1","examination":"e1","severity":"slight"}""", """{"id":"s2","examination":"e2","severity":"slight","continues":"s1"}""",
            """{"id":"o1","examination":"e1","ended":{"date":"2024-12-01"}}""", """{"id":"u1","examination":"e1"}""", """{"id":"n2","examination":"e2"}""");
        Assert.Equal(
            [(Became.New, "n2"), (Became.Worse, "w2"), (Became.Better, "b2"), (Became.Same, "s2"), (Became.Ended, "o1"), (Became.NotLookedAt, "u1")],
            Of(history, "e1", "e2"));
    }

    [Fact]
    public void The_order_in_which_the_two_are_named_makes_no_difference()
    {
        var history = Recorded.History(Three, """{"id":"a","examination":"e1","severity":"slight"}""", """{"id":"b","examination":"e3","severity":"severe","continues":"a"}""");
        Assert.Equal(Of(history, "e1", "e3"), Of(history, "e3", "e1"));
    }

    [Fact]
    public void A_piece_looked_over_with_nothing_new_is_the_same_throughout()
    {
        var history = Recorded.History(Three, """{"id":"a","examination":"e1"}""", """{"id":"b","examination":"e1"}""");
        Assert.All(Of(history, "e1", "e2"), c => Assert.Equal(Became.Same, c.Became));
        Assert.Equal(2, Of(history, "e1", "e2").Count);
    }

    [Fact]
    public void What_was_seen_before_the_first_counts_as_it_was_then()
    {
        var history = Recorded.History(Three, """{"id":"a","examination":"e1","severity":"slight"}""", """{"id":"b","examination":"e3","severity":"severe","continues":"a"}""", """{"id":"x","examination":"e2"}""");
        Assert.Contains((Became.Worse, "b"), Of(history, "e2", "e3"));
    }

    [Fact]
    public void What_was_found_after_the_second_is_left_out() =>
        Assert.Empty(Of(Recorded.History(Three, """{"id":"a","examination":"e3"}""", """{"id":"later","date":"2026-08-01"}"""), "e1", "e2"));

    [Fact]
    public void What_came_between_the_two_is_new_by_the_second()
    {
        var history = Recorded.History(Three, """{"id":"a","date":"2024-09-01"}""", """{"id":"x","examination":"e2"}""");
        Assert.Equal([(Became.New, "a"), (Became.New, "x")], Of(history, "e1", "e2").OrderBy(c => c.Id));
    }

    [Fact]
    public void What_came_and_went_between_the_two_has_ended() =>
        Assert.Equal([(Became.Ended, "a")], Of(Recorded.History(Three, """{"id":"a","date":"2024-09-01","ended":{"date":"2024-10"}}"""), "e1", "e2"));

    [Fact]
    public void What_was_over_by_the_first_is_left_out_unless_it_came_back()
    {
        Assert.Empty(Of(Recorded.History(Three, """{"id":"a","examination":"e1","ended":{"date":"2024-12"}}"""), "e2", "e3"));
        var back = Recorded.History(Three, """{"id":"a","examination":"e1","ended":{"date":"2024-12"}}""", """{"id":"b","examination":"e3","continues":"a"}""");
        Assert.Equal([(Became.New, "b")], Of(back, "e2", "e3"));
    }

    [Fact]
    public void What_ends_only_after_the_second_was_not_over_then()
    {
        var history = Recorded.History(Three, """{"id":"a","examination":"e1","severity":"slight"}""", """{"id":"b","examination":"e2","severity":"slight","continues":"a","ended":{"date":"2025-12"}}""");
        Assert.Equal([(Became.Same, "b")], Of(history, "e1", "e2"));
        Assert.Equal([(Became.Ended, "b")], Of(history, "e2", "e3"));
    }

    [Fact]
    public void An_end_without_a_day_counts_from_when_it_was_seen() =>
        Assert.Equal([(Became.Ended, "b")], Of(Recorded.History(Three, """{"id":"a","examination":"e1"}""", """{"id":"b","examination":"e2","continues":"a","ended":{"repair":"r"}}"""), "e1", "e2"));

    [Fact]
    public void An_examination_compared_with_itself_has_all_the_same()
    {
        var history = Recorded.History(Three, """{"id":"a","examination":"e2"}""", """{"id":"b","examination":"e1"}""");
        Assert.All(Of(history, "e2", "e2"), c => Assert.Equal(Became.Same, c.Became));
    }

    [Fact]
    public void Every_thing_known_by_the_second_stands_once_unless_it_was_over_by_the_first()
    {
        // Whatever the record holds: each followed finding at most once, and none that is known and not over is left out.
        var random = new Random(15);
        for (var round = 0; round < 300; round++)
        {
            var findings = Enumerable.Range(0, random.Next(1, 12)).Select(i =>
                $$"""{"id":"f{{i:00}}","severity":"{{Severities[random.Next(3)]}}"{{(random.Next(2) == 0 ? $",\"examination\":\"e{random.Next(1, 4)}\"" : "")}}{{(i > 0 && random.Next(2) == 0 ? $",\"continues\":\"f{random.Next(i):00}\"" : "")}}{{(random.Next(4) == 0 ? ",\"ended\":{\"date\":\"2025-01\"}" : "")}}}""").ToArray();
            var history = Recorded.History(Three, findings);
            var (first, second) = (history.Examinations[random.Next(3)], history.Examinations[random.Next(3)]);
            var compared = Comparison.Of(history, first, second);
            Assert.Equal(compared.Count, compared.Select(c => c.Finding).Distinct().Count());
            var later = Math.Max(first.Place, second.Place);
            Assert.All(history.Findings.Where(f => f.Sightings.Any(s => s.Place <= later) && f.Sightings.All(s => !s.IsEnded)), f => Assert.Contains(compared, c => c.Finding == f));
            Assert.All(compared, c => Assert.True(c.After.Place <= later));
        }
    }

    private static List<(Became Became, string Id)> Of(ConditionHistory history, string one, string other) =>
        [.. Comparison.Of(history, history.Examination(one)!, history.Examination(other)!).Select(c => (c.Became, c.After.Id))];
}
