using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests;

public class MergePatchTests
{
    /// <summary>RFC 7396 (October 2014), appendix A: all fifteen examples.</summary>
    [Theory]
    [InlineData("""{"a":"b"}""", """{"a":"c"}""", """{"a":"c"}""")]
    [InlineData("""{"a":"b"}""", """{"b":"c"}""", """{"a":"b","b":"c"}""")]
    [InlineData("""{"a":"b"}""", """{"a":null}""", """{}""")]
    [InlineData("""{"a":"b","b":"c"}""", """{"a":null}""", """{"b":"c"}""")]
    [InlineData("""{"a":["b"]}""", """{"a":"c"}""", """{"a":"c"}""")]
    [InlineData("""{"a":"c"}""", """{"a":["b"]}""", """{"a":["b"]}""")]
    [InlineData("""{"a":{"b":"c"}}""", """{"a":{"b":"d","c":null}}""", """{"a":{"b":"d"}}""")]
    [InlineData("""{"a":[{"b":"c"}]}""", """{"a":[1]}""", """{"a":[1]}""")]
    [InlineData("""["a","b"]""", """["c","d"]""", """["c","d"]""")]
    [InlineData("""{"a":"b"}""", """["c"]""", """["c"]""")]
    [InlineData("""{"a":"foo"}""", "null", "null")]
    [InlineData("""{"a":"foo"}""", "\"bar\"", "\"bar\"")]
    [InlineData("""{"e":null}""", """{"a":1}""", """{"e":null,"a":1}""")]
    [InlineData("[1,2]", """{"a":"b","c":null}""", """{"a":"b"}""")]
    [InlineData("{}", """{"a":{"bb":{"ccc":null}}}""", """{"a":{"bb":{}}}""")]
    public void The_examples_of_the_standard_hold(string original, string patch, string result) =>
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(result), MergePatch.Apply(JsonNode.Parse(original), JsonNode.Parse(patch))));

    /// <summary>RFC 7396, section 3: the worked example.</summary>
    [Fact]
    public void The_worked_example_of_the_standard_holds() =>
        The_examples_of_the_standard_hold(
            """{"title":"Goodbye!","author":{"givenName":"John","familyName":"Doe"},"tags":["example","sample"],"content":"This will be unchanged"}""",
            """{"title":"Hello!","phoneNumber":"+01-123-456-7890","author":{"familyName":null},"tags":["example"]}""",
            """{"title":"Hello!","author":{"givenName":"John"},"tags":["example"],"content":"This will be unchanged","phoneNumber":"+01-123-456-7890"}""");

    [Fact]
    public void Neither_target_nor_patch_is_changed()
    {
        var (target, patch) = (JsonNode.Parse("""{"a":{"b":1}}"""), JsonNode.Parse("""{"a":{"b":null,"c":[2]}}"""));
        MergePatch.Apply(target, patch);
        Assert.Equal("""{"a":{"b":1}}""", target!.ToJsonString());
        Assert.Equal("""{"a":{"b":null,"c":[2]}}""", patch!.ToJsonString());
    }
}
