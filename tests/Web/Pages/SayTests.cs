using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Tests.Pages;

public class SayTests
{
    [Theory]
    [InlineData("Pin tucks by hand", "Pin tucks by hand.")]
    [InlineData("Which tuck is it?", "Which tuck is it?")]
    [InlineData("Look first.", "Look first.")]
    public void A_name_that_stands_as_a_sentence_ends_as_one(string name, string ended) => Assert.Equal(ended, Say.Ended(name));
}
