using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests;

public class DifferencesTests
{
    [Theory]
    [InlineData("""{"name":"a"}""", """{"name":"a"}""", "")]
    [InlineData("""{"name":"a"}""", """{"name":"b"}""", "name")]
    [InlineData("""{"place":{"shelf":"1","box":"2"}}""", """{"place":{"shelf":"1","box":"3"}}""", "place.box")]
    [InlineData("""{"kind":{"own":"a"}}""", """{"kind":{"own":"b"}}""", "kind")]
    [InlineData("""{"width":{"mm":1,"text":"1 mm"}}""", """{"width":{"mm":2,"text":"2 mm"}}""", "width")]
    [InlineData("""{"tags":["a"]}""", """{"tags":["a","b"]}""", "tags")]
    [InlineData("""{}""", """{"techniques":[{"id":"1"}]}""", "techniques")]
    [InlineData("""{"techniques":[{"id":"1","sewn":"hand"}]}""", """{"techniques":[{"id":"1","sewn":"both"}]}""", "techniques[0].sewn")]
    [InlineData("""{"techniques":[{"id":"1"},{"id":"2"}]}""", """{"techniques":[{"id":"1"},{"id":"2"},{"id":"3"}]}""", "techniques[2]")]
    [InlineData("""{"techniques":[{"id":"1"},{"id":"2"}]}""", """{"techniques":[{"id":"2"}]}""", "techniques[0]")]
    [InlineData("""{"techniques":[{"id":"1"},{"id":"2"}]}""", """{"techniques":[{"id":"2"},{"id":"1"}]}""", "techniques")]
    [InlineData("""{"techniques":[{"id":"1","groups":[{"tucks":1},{"tucks":2}]}]}""", """{"techniques":[{"id":"1","groups":[{"tucks":1},{"tucks":3}]}]}""", "techniques[0].groups[1].tucks")]
    [InlineData("""{"name":"a","overall":"fair"}""", """{"name":"b"}""", "name overall")]
    public void A_difference_is_told_where_people_see_it(string old, string now, string paths) =>
        Assert.Equal(paths, string.Join(' ', Differences.Between(JsonNode.Parse(old), JsonNode.Parse(now)).Select(d => d.Path)));

    [Fact]
    public void Old_and_new_are_what_stood_and_stands_there()
    {
        var difference = Assert.Single(Differences.Between(JsonNode.Parse("""{"overall":"fair"}"""), JsonNode.Parse("""{}""")));
        Assert.Equal("fair", (string?)difference.Old);
        Assert.Null(difference.New);
    }
}
