using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>Which findings and kinds of garment bring their own cautions.</summary>
public class CautionsOfFindingsTests
{
    [Theory]
    [InlineData("mould", "gloves-and-mask")]
    [InlineData("smell-of-mothballs", "gloves-and-mask")]
    [InlineData("celluloid-breaking-down", "celluloid")]
    [InlineData("rust-mark", "metal-rusts")]
    [InlineData("shattering", "weighted-silk")]
    [InlineData("insects-live", "keep-apart-first")]
    [InlineData("insects-live", "no-freezing-at-home")]
    [InlineData("pin-or-needle-found", "sharps-left-in")]
    [InlineData("starch-deposit", "no-iron-on-starch")]
    public void A_finding_that_can_hurt_shows_its_caution(string finding, string code) => Assert.Contains(Cautions.OfFinding(finding), c => c.Code == code);

    [Theory]
    [InlineData("christening-gown")]
    [InlineData("baby-dress")]
    [InlineData("bonnet")]
    [InlineData("cap")]
    public void What_children_wear_warns_of_cords_and_small_parts(string kind) =>
        Assert.Equal(["cords-and-ribbons", "small-parts", "nightwear-burns"], Cautions.OfKind(kind).Select(c => c.Code));

    [Fact]
    public void Others_and_words_of_her_own_have_none()
    {
        Assert.Empty(Cautions.OfFinding("fastening-missing"));
        Assert.Empty(Cautions.OfFinding("moth lace"));
        Assert.Empty(Cautions.OfFinding(null));
        Assert.Empty(Cautions.OfKind("petticoat"));
        Assert.Empty(Cautions.OfKind(null));
    }

    [Fact]
    public void Every_finding_and_kind_that_a_caution_names_is_a_word()
    {
        using var stream = typeof(Cautions).Assembly.GetManifestResourceStream("HeirloomArchive.Catalogue.Cautions.json")!;
        foreach (var caution in JsonNode.Parse(stream)!["cautions"]!.AsArray())
        {
            Assert.All(Named(caution!["findings"]), slug => Assert.NotNull(Thesaurus.OfTrade.Find("findings", slug)));
            Assert.All(Named(caution["kinds"]), slug => Assert.NotNull(Thesaurus.OfTrade.Find("kinds", slug)));
        }

        static IEnumerable<string> Named(JsonNode? slugs) => (slugs as JsonArray ?? []).Select(s => s!.ToString());
    }
}
