using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>Whereabouts with their days, hours of light, and what the lists of care ask of them.</summary>
public class CareNoteTests
{
    private static readonly DateOnly Today = new(2026, 11, 20);

    [Theory]
    [InlineData("2026-11-25", 5)]
    [InlineData("2026-11-20", 0)]
    [InlineData("2026-11-19", -1)]
    [InlineData("2026-11", 10)]
    [InlineData("2026-10~", -20)]
    [InlineData("2026", 41)]
    public void A_half_known_day_is_past_only_after_its_last(string dueBack, int left) => Assert.Equal(left, At("lent", dueBack).DaysLeft(Today));

    [Theory]
    [InlineData("lent", true)]
    [InlineData("borrowed", true)]
    [InlineData("here", false)]
    [InlineData("sold", false)]
    [InlineData("returned", false)]
    [InlineData("lost", false)]
    public void Only_what_is_lent_or_borrowed_is_due(string where, bool due)
    {
        Assert.Equal(due, At(where, "2026-11-01").IsDue);
        Assert.Equal(due, At(where, "2026-11-01").DaysLeft(Today) is not null);
        Assert.Equal(due, At(where, "2026-11-01").Order is not null);
    }

    [Fact]
    public void What_has_no_day_stands_after_all_that_have_one()
    {
        string?[] order = [At("lent", null).Order, At("lent", "9999-12-31").Order, At("borrowed", "2026-11").Order];
        Assert.Equal([order[2], order[1], order[0]], order.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Nothing_recorded_is_nowhere() => Assert.Null(Whereabouts.Of([]));

    [Fact]
    public void Hours_of_light_add_up_and_those_not_recorded_are_counted()
    {
        var shown = Showings.Of(Shown("""{"from":"2025-01-01","to":"2025-02-01","hoursOfLight":12.5}""", """{"hoursOfLight":100}""", """{"from":"2026-01"}"""), Today);
        Assert.Equal((3, 112.5m, 1), (shown.Times, shown.HoursOfLight, shown.WithoutHours));
        Assert.Equal("2026-01", shown.OnShow!["from"]!.ToString());
        Assert.Equal(new(0, null, 0, null), Showings.Of([], Today));
    }

    [Theory]
    [InlineData("""{"from":"2026-11-20"}""", true)]
    [InlineData("""{"from":"2026-11-01","to":"2026-11-20"}""", true)]
    [InlineData("""{"from":"2026-11-01","to":"2026-11"}""", true)]
    [InlineData("""{"from":"2026-11-01","to":"2026-11-19"}""", false)]
    [InlineData("""{"from":"2026-11-21"}""", false)]
    [InlineData("""{"where":"a class"}""", false)]
    public void It_is_on_show_from_its_first_day_to_its_last(string showing, bool now) => Assert.Equal(now, Showings.Of(Shown(showing), Today).OnShow is not null);

    [Fact]
    public void The_note_of_a_garment_is_the_most_that_any_finding_asks_for()
    {
        Assert.Equal(CareNote.Nothing, CareNote.Of([]));
        var garment = Recorded.Garment([], ["""{"id":"a","attention":"before-handling"}""", """{"id":"b","attention":"watch","continues":"a"}""", """{"id":"c","attention":"soon","ended":{}}"""]);
        garment["whereabouts"] = new JsonObject { ["is"] = "lent", ["dueBack"] = "2026-12" };
        garment["shown"] = new JsonArray(new JsonObject { ["hoursOfLight"] = 7 }, new JsonObject { ["hoursOfLight"] = 8.5 });
        Assert.Equal(new(1, "2026-12-31", 15.5m), CareNote.Of(garment));
    }

    [Fact]
    public void What_is_private_is_named_once() => Assert.Equal(["whereabouts.to", "acquired", "place"], PrivateFields.Paths);

    private static Whereabouts At(string where, string? dueBack) =>
        Whereabouts.Of(new() { ["whereabouts"] = new JsonObject { ["is"] = where, ["dueBack"] = dueBack } })!;

    private static JsonObject Shown(params string[] showings) => new() { ["shown"] = new JsonArray([.. showings.Select(s => JsonNode.Parse(s))]) };
}
