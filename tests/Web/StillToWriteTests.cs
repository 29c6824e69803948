using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Tests;

/// <summary>What a record still lacks is told, each with the way to its form.</summary>
public sealed class StillToWriteTests
{
    [Fact]
    public void A_piece_with_a_name_alone_lacks_all_of_it()
    {
        var missing = StillToWrite.Of(Piece("{}"));
        Assert.Equal(16, missing.Count);
        Assert.All(missing, m => Assert.StartsWith("/pieces/7", m.To, StringComparison.Ordinal));
        Assert.Equal("Its number", missing[0].What);
    }

    [Theory]
    [InlineData("""{"number":"G-1"}""", "Its number")]
    [InlineData("""{"datedText":"before the war"}""", "When it was made")]
    [InlineData("""{"dated":"1900~"}""", "When it was made")]
    [InlineData("""{"pictures":[{"id":"1","view":"front"}]}""", "A picture of the front")]
    [InlineData("""{"pictures":[{"id":"1","view":"detail-wrong-side"}]}""", "A picture of a detail")]
    [InlineData("""{"measures":[{"name":"chest"}]}""", "Its measures")]
    [InlineData("""{"techniques":[{"kind":"tucks"}]}""", "How it was made, part by part")]
    [InlineData("""{"overall":"sound","examinations":[{"date":"2026"}]}""", "Its condition, part by part")]
    [InlineData("""{"place":{"box":"3"}}""", "Where it is kept (private)")]
    public void What_is_written_down_is_no_longer_missing(string fields, string what)
    {
        Assert.Contains(StillToWrite.Of(Piece("{}")), m => m.What == what);
        Assert.DoesNotContain(StillToWrite.Of(Piece(fields)), m => m.What == what);
    }

    [Theory]
    [InlineData("""{"pictures":[{"id":"1","view":"front"}]}""", "A picture of the back")]
    [InlineData("""{"pictures":[{"id":"1"}]}""", "A picture of the front")]
    [InlineData("""{"overall":"sound"}""", "Its condition, part by part")]
    [InlineData("""{"measures":[],"description":"","place":{}}""", "Its measures")]
    public void Half_of_it_is_not_the_whole(string fields, string what) =>
        Assert.Contains(StillToWrite.Of(Piece(fields)), m => m.What == what);

    private static JsonObject Piece(string fields)
    {
        var piece = JsonNode.Parse(fields)!.AsObject();
        (piece["id"], piece["name"]) = ("7", "A petticoat");
        return piece;
    }
}
