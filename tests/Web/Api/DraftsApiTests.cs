using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>Drafts take anything, give it back as it came, and go when told.</summary>
public sealed class DraftsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_draft_comes_back_as_it_was_kept_whatever_stands_in_it()
    {
        const string Draft = """{"name":"Half a","techniques[0].groups[0].width":"3/8 of somethi","kind":"no such kind","":"","nested":{"any":[1,null,"שמלה 👗"]}}""";
        Assert.Equal(HttpStatusCode.NotFound, (await host.Client.GetAsync("/api/drafts/api-one", Stop)).StatusCode);
        using var kept = await host.Client.PutAsync("/api/drafts/api-one", Json(Draft), Stop);
        Assert.Equal(HttpStatusCode.OK, kept.StatusCode);
        Assert.NotNull((await kept.Content.ReadFromJsonAsync<JsonObject>(Stop))!["saved"]);
        using var read = await host.Client.GetAsync("/api/drafts/api-one", Stop);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Draft), JsonNode.Parse(await read.Content.ReadAsStringAsync(Stop))));
    }

    [Fact]
    public async Task The_last_one_kept_counts_and_forms_do_not_share_a_draft()
    {
        await host.Client.PutAsync("/api/drafts/api-two", Json("""{"name":"a"}"""), Stop);
        await host.Client.PutAsync("/api/drafts/api-two:more", Json("""{"name":"c"}"""), Stop);
        await host.Client.PutAsync("/api/drafts/api-two", Json("""{"name":"b"}"""), Stop);
        Assert.Equal("b", (await host.Client.GetFromJsonAsync<JsonObject>("/api/drafts/api-two", Stop))!["name"]!.ToString());
        Assert.Equal("c", (await host.Client.GetFromJsonAsync<JsonObject>("/api/drafts/api-two:more", Stop))!["name"]!.ToString());
    }

    [Fact]
    public async Task Thrown_away_it_is_gone_and_throwing_away_nothing_is_no_fault()
    {
        await host.Client.PutAsync("/api/drafts/api-three", Json("{}"), Stop);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/api/drafts/api-three", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await host.Client.DeleteAsync("/api/drafts/api-three", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await host.Client.GetAsync("/api/drafts/api-three", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await host.Client.DeleteAsync("/api/drafts/api-three", Stop)).StatusCode);
    }

    [Theory]
    [InlineData("New-Piece")]
    [InlineData("new%20piece")]
    [InlineData("a%2Fb")]
    [InlineData("%C3%A9")]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa")]
    public async Task A_name_that_is_none_is_told_what_names_are(string form)
    {
        using var answer = await host.Client.PutAsync($"/api/drafts/{form}", Json("{}"), Stop);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("1 to 100", (await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!["errors"]!["form"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(511, HttpStatusCode.OK)]
    [InlineData(513, HttpStatusCode.RequestEntityTooLarge)]
    public async Task It_holds_half_a_megabyte(int kilobytes, HttpStatusCode status)
    {
        var body = new JsonObject { ["story"] = new string('a', kilobytes * 1024) };
        using var answer = await host.Client.PutAsync("/api/drafts/api-large", Json(body.ToJsonString()), Stop);
        Assert.Equal(status, answer.StatusCode);
    }

    private static StringContent Json(string text) => new(text, System.Text.Encoding.UTF8, "application/json");
}
