using System.Text.Json.Nodes;
using CsCheck;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Catalogue.Tests.Dating;

/// <summary>What evidence does to a date, and what it never does.</summary>
public class DatingHelpTests
{
    private static readonly string[] Ids = [.. Evidence.Groups.SelectMany(g => g.Evidence).Select(e => e.Id)];

    private static readonly Gen<string?> Dated = Gen.OneOf(
        Gen.Const((string?)null), Gen.Select(Gen.Int[1780, 1980], y => (string?)$"{y}"), Gen.Select(Gen.Int[178, 198], y => (string?)$"{y}X"),
        Gen.Select(Gen.Int[1780, 1900], Gen.Int[0, 80], (y, more) => (string?)$"{y}~/{y + more}?"), Gen.Select(Gen.Int[1780, 1980], y => (string?)$"../{y}"), Gen.Select(Gen.Int[1780, 1980], y => (string?)$"{y}/"));

    [Fact]
    public void A_zip_on_a_dress_of_1880_is_a_contradiction_and_the_date_stays()
    {
        var help = DatingHelp.Of(Dress("1880", """{"kind":"fastening","fastening":"zip"}"""), []);
        var conflict = help.Contradictions.First();
        Assert.Equal(Against.Conflict, conflict.Against);
        Assert.Equal(1913, conflict.Mark.NotBefore);
        Assert.Contains("1914", conflict.Mark.Reason, StringComparison.Ordinal);
        Assert.Single(conflict.Seen);
        Assert.Null(help.Narrowed);
        Assert.Null(help.Likely);
    }

    [Fact]
    public void Overlocked_edges_about_1900_are_worth_another_look_only()
    {
        var help = DatingHelp.Of(Dress("1900~", """{"kind":"seam","sewn":"overlock"}"""), []);
        Assert.Equal([Against.Query], help.Contradictions.Select(r => r.Against));
        Assert.Equal(1920, help.Contradictions.Single().Mark.UnlikelyBefore);
    }

    [Theory]
    [InlineData(null, "1889/..")]
    [InlineData("18XX", "1889/1899")]
    [InlineData("1870/1910~", "1889/1910~")]
    [InlineData("../1905-06", "1889/1905-06")]
    [InlineData("/1905", "1889/1905")]
    [InlineData("1870/..", "1889/..")]
    [InlineData("1870/", "1889/")]
    [InlineData("1905", null)]
    [InlineData("190X", null)]
    [InlineData("1889/1900", null)]
    [InlineData("1880", null)]
    public void What_did_not_exist_earlier_narrows_the_span_from_its_start(string? dated, string? narrowed) =>
        Assert.Equal(narrowed, DatingHelp.Of(Dress(dated), ["humped-hook"]).Narrowed);

    [Fact]
    public void What_was_only_unusual_narrows_the_likely_span_and_not_the_sure_one()
    {
        var help = DatingHelp.Of(Dress("190X"), ["press-stud"]);
        Assert.Null(help.Narrowed);
        Assert.Equal("1903/1909", help.Likely);
    }

    [Fact]
    public void Work_by_hand_dates_nothing()
    {
        var help = DatingHelp.Of(Dress("1780", """{"kind":"seam","sewn":"hand","handStitch":"back"}""", """{"kind":"lace","lace":"torchon","laceMade":"hand"}"""), []);
        Assert.Empty(help.Reasons);
        Assert.True(help.HandWork);
    }

    [Fact]
    public void A_name_of_lace_is_a_look_and_says_nothing_until_it_is_known_to_be_by_machine()
    {
        Assert.Empty(DatingHelp.Of(Dress("1850", """{"kind":"lace","lace":"barmen"}"""), []).Reasons);
        Assert.Contains(DatingHelp.Of(Dress("1850", """{"kind":"lace","lace":"barmen","laceMade":"machine"}"""), []).Contradictions, r => r.Evidence.Id == "barmen");
    }

    [Fact]
    public void Repairs_and_later_fastenings_are_not_counted()
    {
        var garment = Dress("1880", """{"kind":"fastening","fastening":"zip","original":false}""");
        garment["repairs"] = JsonNode.Parse("""[{"method":"reseamed","sewn":"machine-zigzag"}]""");
        var help = DatingHelp.Of(garment, []);
        Assert.Empty(help.Reasons);
        Assert.Equal(2, help.LeftOut);
    }

    [Fact]
    public void About_reaches_five_years_so_that_a_near_miss_is_asked_and_not_called_impossible()
    {
        Assert.Equal(Against.Query, DatingHelp.Of(Dress("1910~"), ["zip-metal"]).Reasons.Single(r => r.Mark.NotBefore is not null).Against);
        Assert.Equal(Against.Conflict, DatingHelp.Of(Dress("1910"), ["zip-metal"]).Reasons.Single(r => r.Mark.NotBefore is not null).Against);
        Assert.Equal(Against.Conflict, DatingHelp.Of(Dress("1907~"), ["zip-metal"]).Reasons.Single(r => r.Mark.NotBefore is not null).Against);
    }

    [Theory]
    [InlineData("nylon net", true)]
    [InlineData("cotton, later lace of Nylon", true)]
    [InlineData("not nylonish", false)]
    [InlineData("nylonish outside, nylon within", true)]
    [InlineData("cotton", false)]
    public void A_fibre_is_found_as_a_whole_word(string fibre, bool found)
    {
        var garment = Dress("1910");
        garment["materials"] = new JsonArray(new JsonObject { ["word"] = "lawn" }, new JsonObject { ["word"] = new JsonObject { ["own"] = "checked stuff" }, ["fibre"] = fibre });
        Assert.Equal(found, DatingHelp.Of(garment, []).Reasons.Any(r => r.Evidence.Id == "nylon"));
    }

    [Fact]
    public void A_word_of_her_own_counts_too() =>
        Assert.Contains(DatingHelp.Of(Dress("1930", """{"kind":"fastening","fastening":{"own":"strip of hook and loop"}}"""), []).Contradictions, r => r.Evidence.Id == "hook-and-loop");

    [Fact]
    public void A_tick_that_is_no_evidence_is_passed_over() => Assert.Empty(DatingHelp.Of(Dress("1900"), ["nothing-of-the-kind"]).Reasons);

    [Fact]
    public void A_narrowed_span_is_a_date_within_the_recorded_one() => Gen.Select(Dated, OneOf(Ids).Array[0, 5]).Sample((dated, ticks) =>
    {
        var help = DatingHelp.Of(Dress(dated), ticks);
        foreach (var narrowed in new[] { help.Narrowed, help.Likely }.OfType<string>())
        {
            Assert.True(Edtf.TryParse(narrowed, out var now, out var problem), problem);
            if (dated is not null && Edtf.TryParse(dated, out var was, out _))
            {
                Assert.True(was.Years.From is null || now.Years.From > was.Years.From);
                Assert.Equal(was.Years.To, now.Years.To);
            }
        }
    });

    [Fact]
    public void More_evidence_never_makes_a_piece_older() => Gen.Select(Dated, OneOf(Ids).Array[0, 5], OneOf(Ids)).Sample((dated, ticks, more) =>
    {
        var (before, after) = (DatingHelp.Of(Dress(dated), ticks), DatingHelp.Of(Dress(dated), ticks.Append(more)));
        Assert.True((after.NotBefore ?? 0) >= (before.NotBefore ?? 0));
        Assert.True(after.Contradictions.Count() >= before.Contradictions.Count());
    });

    private static JsonObject Dress(string? dated, params string[] techniques)
    {
        var dress = new JsonObject { ["name"] = "A dress", ["techniques"] = new JsonArray([.. techniques.Select(t => JsonNode.Parse(t))]) };
        if (dated is not null)
        {
            dress["dated"] = dated;
        }

        return dress;
    }

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
