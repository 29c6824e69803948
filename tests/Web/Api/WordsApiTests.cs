using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>The words as SKOS, and hers as they are made, merged and found.</summary>
public sealed class WordsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task All_words_come_in_one_graph_with_what_a_word_needs()
    {
        var all = await Get("/api/words");
        Assert.Equal("http://www.w3.org/2004/02/skos/core#", all["@context"]!["skos"]!.GetValue<string>());
        var graph = all["@graph"]!.AsArray();
        Assert.Equal(17, graph.Count(n => Text(n!["type"]) == "ConceptScheme"));
        var concepts = graph.Where(n => Text(n!["type"]) == "Concept").ToList();
        Assert.True(concepts.Count >= 370);
        Assert.All(concepts, c => Assert.NotNull(c!["prefLabel"]));
        var torchon = concepts.Single(c => Text(c!["id"])!.EndsWith("laces/torchon", StringComparison.Ordinal))!;
        Assert.Equal(("Torchon", "/api/words/laces"), (Text(torchon["prefLabel"]), Text(torchon["inScheme"])));
        Assert.Equal("/api/words/laces/bobbin", Text(torchon["broader"]![0]));
        Assert.Contains("beggar's lace", torchon["altLabel"]!.AsArray().Select(Text));
        Assert.Contains("/api/words/laces/torchon", (await Get("/api/words/laces/bobbin"))["narrower"]!.AsArray().Select(Text));
        Assert.True(JsonNode.DeepEquals(torchon["definition"], (await Get("/api/words/laces/torchon"))["definition"]));
    }

    [Fact]
    public async Task A_client_that_has_them_already_gets_304_and_linked_data_says_so()
    {
        using var first = await host.Client.GetAsync(new Uri("/api/words", UriKind.Relative), Stop);
        Assert.Equal("application/json", first.Content.Headers.ContentType!.MediaType);
        using var again = new HttpRequestMessage(HttpMethod.Get, "/api/words");
        again.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using var second = await host.Client.SendAsync(again, Stop);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);

        using var linked = new HttpRequestMessage(HttpMethod.Get, "/api/words/laces/torchon");
        linked.Headers.Accept.ParseAdd("application/ld+json");
        using var answer = await host.Client.SendAsync(linked, Stop);
        Assert.Equal("application/ld+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Theory]
    [InlineData("/api/words/lacs")]
    [InlineData("/api/words/laces/torchn")]
    [InlineData("/api/words/laces/..%2f")]
    public async Task A_word_that_there_is_not_is_404(string address)
    {
        using var answer = await host.Client.GetAsync(new Uri(address, UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task A_word_typed_in_a_record_is_found_under_the_word_made_of_it_and_under_what_that_is_merged_into()
    {
        var garment = Text((await Send(HttpMethod.Post, "/api/garments", """{"name":"Cuff","techniques":[{"kind":"lace","lace":{"own":"Moth lace"},"part":"cuff"}]}""", HttpStatusCode.Created))["id"]);
        Assert.Equal([garment], await Found("lace=Moth+lace"));

        var made = await Send(HttpMethod.Post, "/api/words/laces", """{"label":"Moth lace","definition":"As in the box from the attic.","synonyms":["night butterfly lace"]}""", HttpStatusCode.Created);
        Assert.Equal("/api/words/laces/moth-lace", Text(made["id"]));
        await Wait.Until(async () => (await Found("lace=moth-lace")).Length == 1);
        Assert.Equal([garment], await Found("lace=Moth+lace"));
        await Wait.Until(async () => (await Found("q=night+butterfly+lace")).Contains(garment));

        await Send(HttpMethod.Post, "/api/words/laces/moth-lace/merge", """{"into":"oya"}""", HttpStatusCode.OK);
        await Wait.Until(async () => (await Found("lace=oya")).Length == 1);
        Assert.Equal([garment], await Found("lace=moth-lace"));
        await Wait.Until(async () => (await Found("q=armenian+edging")).Contains(garment));
        var merged = await Get("/api/words/laces/moth-lace");
        Assert.Equal(("/api/words/laces/oya", true), (Text(merged["isReplacedBy"]), merged["deprecated"]!.GetValue<bool>()));
        Assert.Contains("Moth lace", (await Get("/api/words/laces/oya"))["altLabel"]!.AsArray().Select(Text));
        Assert.Equal("Moth lace", Text((await Get($"/api/garments/{garment}"))["techniques"]![0]!["lace"]!["own"]));

        await Send(HttpMethod.Post, "/api/words/laces/moth-lace/unmerge", null, HttpStatusCode.OK);
        await Wait.Until(async () => (await Found("lace=oya")).Length == 0);
        Assert.Equal([garment], await Found("lace=moth-lace"));
    }

    [Fact]
    public async Task A_word_of_hers_is_changed_and_taken_away_while_nothing_has_it()
    {
        await Send(HttpMethod.Post, "/api/words/motifs", """{"label":"Weather cock"}""", HttpStatusCode.Created);
        var changed = await Send(HttpMethod.Put, "/api/words/motifs/weather-cock", """{"label":"Weathercock","broader":"bird"}""", HttpStatusCode.OK);
        Assert.Equal(("Weathercock", "/api/words/motifs/bird"), (Text(changed["prefLabel"]), Text(changed["broader"]![0])));
        await Send(HttpMethod.Post, "/api/words/motifs", """{"label":"weather-cock"}""", HttpStatusCode.Conflict);
        await Send(HttpMethod.Put, "/api/words/motifs/bird", """{"label":"Fowl"}""", HttpStatusCode.Conflict);
        await Send(HttpMethod.Post, "/api/words/motifs/weather-cock/merge", """{"into":"brid"}""", HttpStatusCode.UnprocessableEntity);
        await Send(HttpMethod.Delete, "/api/words/motifs/weather-cock", null, HttpStatusCode.NoContent);
        await Send(HttpMethod.Delete, "/api/words/motifs/weather-cock", null, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task The_page_lists_what_was_typed_and_is_no_word_and_looks_words_up()
    {
        await Send(HttpMethod.Post, "/api/garments", """{"name":"Bib","techniques":[{"kind":"embroidery","motif":{"own":"Running hare"}}]}""", HttpStatusCode.Created);
        await Wait.Until(async () => (await Page("/words/own")).Contains("Running hare", StringComparison.Ordinal));
        Assert.Contains("one piece", await Page("/words/own"), StringComparison.Ordinal);
        var torchon = await Page("/words?q=beggar%27s");
        Assert.Contains("id=\"laces-torchon\"", torchon, StringComparison.Ordinal);
        Assert.Contains("id=\"laces-bobbin\"", torchon, StringComparison.Ordinal);
        Assert.Contains("/examples?lace=torchon", torchon, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"laces-filet\"", torchon, StringComparison.Ordinal);
    }

    private Task<string> Page(string address) => host.Client.GetStringAsync(new Uri(address, UriKind.Relative), Stop);

    private async Task<JsonObject> Get(string address) => (await host.Client.GetFromJsonAsync<JsonObject>(new Uri(address, UriKind.Relative), Stop))!;

    private async Task<string?[]> Found(string query) => [.. (await Get($"/api/search?{query}"))["items"]!.AsArray().Select(i => Text(i!["id"]))];

    private async Task<JsonObject> Send(HttpMethod method, string address, string? body, HttpStatusCode status)
    {
        using var request = new HttpRequestMessage(method, address) { Content = body is null ? null : new StringContent(body, System.Text.Encoding.UTF8, "application/json") };
        using var answer = await host.Client.SendAsync(request, Stop);
        var text = await answer.Content.ReadAsStringAsync(Stop);
        Assert.True(answer.StatusCode == status, $"{method} {address}: {(int)answer.StatusCode} {text}");
        return text.Length == 0 ? [] : JsonNode.Parse(text)!.AsObject();
    }

    private static string? Text(JsonNode? node) => node?.GetValue<string>();
}
