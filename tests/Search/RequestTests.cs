using HeirloomArchive.Sewing;

namespace HeirloomArchive.Search.Tests;

public class RequestTests
{
    [Theory]
    [InlineData("colour=white", "colour")]
    [InlineData("from=19", "from")]
    [InlineData("to=soon", "to")]
    [InlineData("widthFrom=3", "widthFrom")]
    [InlineData("laceWidthTo=1/8", "laceWidthTo")]
    [InlineData("tolerance=2", "tolerance")]
    [InlineData("tolerance=-1 mm", "tolerance")]
    [InlineData("page=0", "page")]
    [InlineData("page=one", "page")]
    [InlineData("size=101", "size")]
    [InlineData("size=0", "size")]
    [InlineData("page=101&size=100", "page")]
    [InlineData("page=9999999999", "page")]
    [InlineData("sort=price", "sort")]
    [InlineData("withPictures=maybe", "withPictures")]
    [InlineData("seen=-1", "seen")]
    [InlineData("page=1&page=2", "page")]
    public void What_cannot_be_read_is_told_under_its_parameters_name(string query, string name)
    {
        var refused = Assert.Throws<FaultException>(() => SearchRequest.Read(Indexes.Query(query)));
        Assert.True(refused.Unreadable);
        Assert.Equal(name, Assert.Single(refused.Faults).Path);
    }

    [Fact]
    public void All_faults_are_told_at_once() => Assert.Equal(
        ["colour", "from", "size"],
        Assert.Throws<FaultException>(() => SearchRequest.Read(Indexes.Query("colour=white&size=200&from=x"))).Faults.Select(f => f.Path).Order());

    [Fact]
    public void Empty_parameters_are_not_given()
    {
        var request = SearchRequest.Read(Indexes.Query("q=&kind=&from=&widthFrom=&page=&size=&sort=&seen=&withPictures="));
        Assert.Equal(("", 1, 20, Sorting.Number, (long?)null), (request.Q, request.Page, request.Size, request.Sort, request.Seen));
    }

    [Fact]
    public void Typed_words_are_answered_by_relevance() => Assert.Equal(Sorting.Relevance, SearchRequest.Read(Indexes.Query("q=lawn")).Sort);

    [Fact]
    public void The_last_page_that_may_be_asked_is_the_ten_thousandth_piece() =>
        Assert.Equal(100, SearchRequest.Read(Indexes.Query("page=100&size=100")).Page);

    [Fact]
    public void A_hundred_thousand_letters_are_refused_by_name_and_five_hundred_values_are_taken()
    {
        var refused = Assert.Throws<FaultException>(() => SearchRequest.Read([new("q", new string('x', 100_000))]));
        Assert.Equal("q", Assert.Single(refused.Faults).Path);
        Assert.Single(SearchRequest.Read(Enumerable.Range(0, 500).Select(i => KeyValuePair.Create("tag", (string?)$"tag {i}"))).Conditions);
        Assert.Equal("tag", Assert.Single(Assert.Throws<FaultException>(() => SearchRequest.Read(Enumerable.Range(0, 501).Select(i => KeyValuePair.Create("tag", (string?)$"tag {i}")))).Faults).Path);
    }
}
