using HeirloomArchive.Support;

namespace HeirloomArchive.Search.Tests;

public sealed class OrderTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly GarmentIndex index;

    public OrderTests() => index = Indexes.Of(folder.Path,
        Indexes.Garment(1, """{"number":"G-10","name":"Éclair bonnet","dated":"1900"}"""),
        Indexes.Garment(2, """{"number":"g-2","name":"apron","dated":"1895/1905"}"""),
        Indexes.Garment(3, """{"name":"Cap 12"}"""),
        Indexes.Garment(4, """{"number":"G-002a","name":"Cap 3","dated":"../1880"}"""));

    public void Dispose()
    {
        index.Dispose();
        folder.Dispose();
    }

    [Theory]
    [InlineData("number", "apron|Cap 3|Éclair bonnet|Cap 12")]
    [InlineData("name", "apron|Cap 3|Cap 12|Éclair bonnet")]
    [InlineData("dated", "Cap 3|apron|Éclair bonnet|Cap 12")]
    [InlineData("newest", "Cap 3|Cap 12|apron|Éclair bonnet")]
    public void Pieces_stand_in_their_order(string sort, string names) => Assert.Equal(names.Split('|'), index.Names($"sort={sort}"));

    [Fact]
    public void Pages_follow_each_other_and_the_one_after_the_last_is_empty()
    {
        Assert.Equal(["Cap 12"], index.Names("sort=number&page=2&size=3"));
        Assert.Empty(index.Names("page=3&size=3"));
        Assert.Equal(4, index.Ask("page=3&size=3")["total"]!.GetValue<int>());
    }

    [Fact]
    public void A_piece_without_number_date_or_picture_says_so_with_null()
    {
        var item = index.Ask("q=cap 12")["items"]!.AsArray().Single(i => i!["name"]!.GetValue<string>() == "Cap 12")!.AsObject();
        Assert.True(item.ContainsKey("number") && item["number"] is null && item["dated"] is null && item["picture"] is null);
    }
}
