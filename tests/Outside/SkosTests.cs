using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Outside.Tests;

/// <summary>
/// The words against the integrity conditions of the SKOS Reference (W3C Recommendation, 18 August 2009, sections 4 to 8), cited by
/// the numbers it gives them. Its text is from memory; each test states the condition it checks.
/// </summary>
public sealed class SkosTests
{
    private static readonly Thesaurus Trade = Thesaurus.OfTrade;

    // S9: skos:ConceptScheme is disjoint with skos:Concept.
    [Fact] public void S9_no_facet_is_a_word() =>
        Assert.All(Trade.All, word => Assert.DoesNotContain(word.Id, Trade.FacetNames));

    // S7, S8: topConceptOf is a part of inScheme, and hasTopConcept its inverse: a top word is of its own facet.
    [Fact] public void S7_S8_the_top_words_of_a_facet_are_those_of_it_with_none_above() =>
        Assert.All(Trade.FacetNames, facet => Assert.Equal(
            Trade.All.Where(w => w.Facet == facet && w.Broader is null).Select(w => w.Id).Order(StringComparer.Ordinal),
            Trade.Top(facet).Select(w => w.Id).Order(StringComparer.Ordinal)));

    // S13: prefLabel, altLabel and hiddenLabel are pairwise disjoint.
    [Fact] public void S13_no_other_name_is_the_preferred_one() =>
        Assert.All(Trade.All, word => Assert.DoesNotContain(word.Label, word.Synonyms));

    // S14: a resource has no more than one prefLabel a language. Ours has one, of one language; that no two words of a
    // scheme share it is good practice that the Reference leaves open.
    [Fact] public void S14_a_word_has_one_preferred_name_which_no_other_of_its_facet_has() =>
        Assert.All(Trade.All.GroupBy(w => (w.Facet, Thesaurus.Fold(w.Label))), same => Assert.Single(same));

    // S23: related is symmetric. S25: narrower is the inverse of broader.
    [Fact] public void S23_related_words_name_each_other() =>
        Assert.All(Trade.All, word => Assert.All(word.Related, id => Assert.Contains(word.Id, ById(id).Related)));

    [Fact] public void S25_narrower_is_broader_turned_round()
    {
        Assert.All(Trade.All, word => Assert.All(Trade.Narrower(word), below => Assert.Equal(word.Slug, below.Broader)));
        Assert.All(Trade.All.Where(w => w.Broader is not null), word =>
            Assert.Contains(Trade.Narrower(Trade.Find(word.Facet, word.Broader!)!), below => below.Id == word.Id));
    }

    // S24: broaderTransitive is transitive. That no word is above itself is not asked by the Reference, but by ISO 25964.
    [Fact] public void S24_no_word_is_above_itself() => Assert.All(Trade.All, word => Assert.DoesNotContain(word.Id, Above(word)));

    // S27: related is disjoint with broaderTransitive.
    [Fact] public void S27_no_word_is_related_to_one_above_or_below_it() =>
        Assert.All(Trade.All, word => Assert.DoesNotContain(word.Related, id => Above(word).Contains(id) || Above(ById(id)).Contains(word.Id)));

    // S37: collections are disjoint with concepts and schemes; S46: exactMatch is disjoint with broadMatch and relatedMatch.
    // There is no collection and no mapping here: nothing could be verified against another vocabulary.
    [Fact] public void S37_S46_a_word_has_what_is_here_and_no_more() =>
        Assert.Equal(
            ["Broader", "Definition", "Facet", "Id", "IsOwn", "Label", "MergedInto", "Note", "Related", "Slug", "Synonyms"],
            typeof(Word).GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal));

    private static Word ById(string id) => Trade.Find(id.Split('/')[0], id.Split('/')[1])!;

    private static HashSet<string> Above(Word word)
    {
        var above = new HashSet<string>();
        for (var at = word; at.Broader is not null && above.Add($"{at.Facet}/{at.Broader}"); at = Trade.Find(at.Facet, at.Broader)!)
        {
        }

        return above;
    }
}

/// <summary>
/// ICOM Costume Committee, Vocabulary of Basic Terms for Cataloguing Costume [O7]: garments that the archive and the vocabulary
/// both know have a counterpart in the words. The list is from memory and from the secondary list that was read; the vocabulary goes
/// by where a garment is worn, the words by what the trade calls it.
/// </summary>
public sealed class BasicTermsTests
{
    [Theory]
    [InlineData("dress", "dress")]
    [InlineData("bodice", "bodice")]
    [InlineData("blouse", "blouse")]
    [InlineData("separate skirt", "separate-skirt")]
    [InlineData("petticoat", "petticoat")]
    [InlineData("chemise", "chemise")]
    [InlineData("drawers", "drawers")]
    [InlineData("combinations", "combinations")]
    [InlineData("camisole", "camisole")]
    [InlineData("corset", "corset")]
    [InlineData("brassiere", "brassiere")]
    [InlineData("nightdress", "nightgown")]
    [InlineData("nightshirt", "nightshirt")]
    [InlineData("dressing gown", "wrapper")]
    [InlineData("dressing jacket", "combing-jacket")]
    [InlineData("apron", "apron")]
    [InlineData("pinafore", "pinafore")]
    [InlineData("smock frock", "smock-frock")]
    [InlineData("collar", "collar")]
    [InlineData("chemisette", "chemisette")]
    [InlineData("fichu", "fichu")]
    [InlineData("shawl", "shawl")]
    [InlineData("cap", "cap")]
    [InlineData("bonnet", "bonnet")]
    [InlineData("hood", "hood")]
    [InlineData("veil", "veil")]
    [InlineData("handkerchief", "handkerchief")]
    [InlineData("christening robe", "christening-gown")]
    [InlineData("bib", "bib")]
    [InlineData("napkin", "napkin")]
    [InlineData("under sleeves", "undersleeves")]
    public void A_garment_that_both_know_is_among_the_kinds(string term, string slug) => Assert.Equal(slug, Words.Meant("kinds", term));
}
