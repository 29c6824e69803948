namespace HeirloomArchive.Catalogue.Tests;

public class WordsTests
{
    /// <summary>The words that are there from the first day, as the design lists them.</summary>
    public static TheoryData<string, string> FirstDay => new()
    {
        { "kinds", "dress lingerie-dress tea-gown christening-gown baby-dress childs-dress pinafore romper infant-shirt gertrude sacque nightgown nightshirt wrapper camisole chemise petticoat slip drawers combinations corset-cover blouse bodice guimpe chemisette fichu jabot undersleeves bonnet cap boudoir-cap bib apron collar handkerchief doll-dress sampler stitched-sample reproduction fragment lace-length" },
        { "parts", "neck yoke yoke-back bodice-front bodice-back front-panel shoulder armhole underarm sleeve cuff collar waist waistband skirt hem flounce opening lining strap gusset leg leg-edge crown brim curtain strings sash" },
        { "techniques", "tucks lace insertion embroidered-trim edging entredeux embroidery whitework drawn-thread hemstitching cutwork applique smocking shirring gathers puffing ruching ruffle pleats rolled-and-whipped hem false-hem scalloped-edge binding casing piping cording seam faggoting gusset placket buttonholes fastening" },
        { "tucks", "pin plain blind graduated nuns growth release receiving shell whipped lace-edged corded crossed scalloped tapered twin-needle" },
        { "laces", "valenciennes torchon cluny maltese bedfordshire bucks-point honiton mechlin bobbin needle tape filet crochet irish-crochet hairpin tatting knitted teneriffe limerick carrickmacross chemical barmen leavers" },
        { "trims", "swiss-edging hamburg-edging swiss-insertion embroidered-beading" },
        { "whitework", "ayrshire broderie-anglaise madeira richelieu shadow-work pulled-work mountmellick hedebo hardanger tambour darned-net padded-satin" },
        { "stitches", "running running-and-back back half-back whip overhand hem slip feather herringbone buttonhole chain hemstitch" },
        { "findings", "tear hole worn-thin split-at-fold hard-crease seam-open stitching-broken lace-come-away lace-missing bars-broken fastening-missing fastening-loose stain tide-line yellowing foxing rust-mark scorch dye-bleed starch-deposit brittle shattering mould insect-grazing insects-live smell-of-mothballs pin-or-needle-found bleach-damage celluloid-breaking-down mend-failed" },
        { "repairs", "darn stitch-darn net-darn patch net-backing laid-thread crepeline-overlay reseamed hem-refaced lace-replaced button-replaced glued iron-on re-dyed-or-bleached" },
        { "cloth", "lawn batiste nainsook mull muslin dimity cambric longcloth organdie swiss pique flannel flannelette linen handkerchief-linen china-silk net" },
        { "measures", "chest waist hips neck shoulder back-length front-length sleeve-length cuff skirt-length hem-round width length" },
        { "seams", "plain french felled whipped entredeux" },
        { "hems", "plain rolled faced hemstitched scalloped" },
        { "fastenings", "button hook-and-eye press-stud tape-tie drawstring pin zip" },
        { "motifs", "flower leaf spot scroll bow initial" },
        { "views", "front back inside detail-right-side detail-wrong-side mark damage repair with-scale raking-light light-from-behind" },
    };

    [Theory, MemberData(nameof(FirstDay))]
    public void Every_word_of_the_first_day_is_there(string facet, string slugs) =>
        Assert.All(slugs.Split(' '), slug => Assert.True(Words.Find(facet, slug) is not null, $"{facet}: {slug} is missing"));

    [Fact] public void There_are_seventeen_facets() =>
        Assert.Equal(FirstDay.Select(row => row.Data.Item1).Order(), Words.FacetNames.Order());

    [Fact] public void Every_word_has_a_label_and_one_sentence_that_defines_it() =>
        Assert.All(Thesaurus.OfTrade.All, word =>
        {
            Assert.True(char.IsUpper(word.Label[0]), word.Slug);
            Assert.True(word.Definition.Length > 15 && word.Definition.EndsWith('.'), word.Slug);
            Assert.DoesNotContain(". ", word.Definition, StringComparison.Ordinal);
        });

    [Fact] public void Slugs_are_lower_case_with_hyphens() =>
        Assert.All(Thesaurus.OfTrade.All, word => Assert.Matches("^[a-z]+(-[a-z]+)*$", word.Slug));

    [Fact] public void A_typed_word_means_one_thing_in_a_facet()
    {
        var doubled = Thesaurus.OfTrade.All
            .SelectMany(word => word.Synonyms.Append(word.Label).Append(word.Slug.Replace('-', ' '))
                .Select(typed => (word.Facet, Typed: typed.ToLowerInvariant(), word.Slug)).Distinct())
            .GroupBy(x => (x.Facet, x.Typed))
            .Where(g => g.Count() > 1)
            .Select(g => $"{g.Key.Facet}: {g.Key.Typed} is {string.Join(" and ", g.Select(x => x.Slug))}");
        Assert.Empty(doubled);
    }

    [Fact] public void A_broader_word_is_in_the_same_facet_and_never_leads_back() =>
        Assert.All(Thesaurus.OfTrade.All.Where(w => w.Broader is not null), word =>
        {
            var seen = new HashSet<string> { word.Slug };
            for (var up = word.Broader; up is not null; up = Words.Find(word.Facet, up)!.Broader)
            {
                Assert.NotNull(Words.Find(word.Facet, up));
                Assert.True(seen.Add(up), $"{word.Facet}/{word.Slug} is broader than itself");
            }
        });

    [Fact] public void There_are_as_many_terms_as_the_trade_needs_and_every_facet_has_some() =>
        Assert.Multiple(
            () => Assert.True(Thesaurus.OfTrade.All.Count >= 370, $"{Thesaurus.OfTrade.All.Count} terms"),
            () => Assert.All(Thesaurus.OfTrade.FacetNames, facet => Assert.True(Thesaurus.OfTrade.In(facet).Count >= 15, facet)));

    [Fact] public void A_name_means_one_thing_in_a_facet_however_it_is_written() =>
        Assert.Empty(Thesaurus.OfTrade.All
            .SelectMany(word => word.Synonyms.Append(word.Label).Append(word.Slug).Select(name => (word.Facet, Name: Thesaurus.Fold(name), word.Slug)).Distinct())
            .GroupBy(x => (x.Facet, x.Name)).Where(g => g.Count() > 1).Select(g => $"{g.Key}: {string.Join(" and ", g.Select(x => x.Slug))}"));

    [Fact] public void Every_related_word_is_there_and_names_it_in_turn() =>
        Assert.All(Thesaurus.OfTrade.All, word => Assert.All(word.Related, id =>
        {
            var parts = id.Split('/');
            var other = Thesaurus.OfTrade.Find(parts[0], parts[1]);
            Assert.True(other is not null, $"{word.Id}: {id} is missing");
            Assert.Contains(word.Id, other.Related);
        }));

    [Fact] public void Notes_are_sentences_and_titles_are_there()
    {
        Assert.All(Thesaurus.OfTrade.All.Where(w => w.Note is not null), word => Assert.EndsWith(".", word.Note, StringComparison.Ordinal));
        Assert.All(Thesaurus.OfTrade.FacetNames, facet => Assert.True(char.IsUpper(Thesaurus.OfTrade.Title(facet)[0]), facet));
    }

    [Theory]
    [InlineData("laces", "Beggar’s Lace", "torchon")]
    [InlineData("laces", "irish-crochet", "irish-crochet")]
    [InlineData("cloth", "Point d’Esprit", "point-desprit")]
    [InlineData("laces", "nothing of the kind", "nothing of the kind")]
    [InlineData("colours", "white", "white")]
    public void A_value_counts_as_the_word_it_names(string facet, string value, string slug) => Assert.Equal(slug, Words.Meant(facet, value));

    [Theory]
    [InlineData("laces", "val lace", "valenciennes")]
    [InlineData("techniques", "whip and roll", "rolled-and-whipped")]
    [InlineData("techniques", "entre deux", "entredeux")]
    [InlineData("cloth", "organdy", "organdie")]
    [InlineData("findings", "mold", "mould")]
    [InlineData("fastenings", "zipper", "zip")]
    [InlineData("kinds", "nightdress", "nightgown")]
    public void Words_as_people_type_them_lead_to_the_word(string facet, string typed, string slug) =>
        Assert.Contains(typed, Words.Find(facet, slug)!.Synonyms);
}

public class CautionsTests
{
    [Fact] public void Cautions_show_in_eight_places() =>
        Assert.Equal(["arrival", "children", "hands", "keeping", "labels", "marking", "table", "work"], Cautions.Places.Order());

    [Fact] public void Every_place_ends_with_the_conservator_and_local_rules() =>
        Assert.All(Cautions.Places, place =>
        {
            var last = Cautions.At(place)[^1];
            Assert.Contains("textile conservator", last.Text, StringComparison.Ordinal);
            Assert.Contains("Local rules come first", last.Text, StringComparison.Ordinal);
            Assert.True(Cautions.At(place).Count > 1, place);
        });

    [Fact] public void Every_caution_says_why() =>
        Assert.All(Cautions.Places.SelectMany(Cautions.At), caution => Assert.EndsWith(".", caution.Reason, StringComparison.Ordinal));

    [Fact] public void A_code_is_one_caution() =>
        Assert.All(Cautions.Places.SelectMany(Cautions.At).GroupBy(c => c.Code), same => Assert.Single(same.Distinct()));

    [Fact] public void An_unknown_place_names_the_places() =>
        Assert.Contains("marking", Assert.Throws<ArgumentException>(() => Cautions.At("kitchen")).Message, StringComparison.Ordinal);
}
