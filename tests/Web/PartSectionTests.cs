using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Pieces;

namespace HeirloomArchive.Web.Tests;

/// <summary>Every part has its place on the way from the top down.</summary>
public sealed class PartSectionTests
{
    [Theory]
    [InlineData("neck", "top")]
    [InlineData("neck-frill", "top")]
    [InlineData("gore", "lower")]
    [InlineData("lining", "inside")]
    [InlineData("", "elsewhere")]
    [InlineData("no-such-part", "elsewhere")]
    public void A_part_stands_in_its_section_or_in_that_of_its_broader_word(string part, string section) =>
        Assert.Equal(section, PartSection.At(part).Id);

    [Fact]
    public void Every_part_that_a_section_names_is_a_word_and_in_no_other()
    {
        var named = PartSection.InOrder.SelectMany(s => s.Parts).ToList();
        Assert.All(named, p => Assert.NotNull(Words.Find("parts", p)));
        Assert.Equal(named.Count, named.Distinct().Count());
    }
}
