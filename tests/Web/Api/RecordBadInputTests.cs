using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>What people write that can hardly be so: kept and asked about where it may be, refused where it makes no sense.</summary>
public sealed class RecordBadInputTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Measures_that_contradict_each_other_are_kept_and_asked_about()
    {
        var id = await Enter("""{"name":"Blouse","measures":[{"name":"chest","length":"20 in","taken":"flat-width"},{"name":"chest","length":"30 in","taken":"whole-round"}]}""");
        Assert.Equal(["20 in", "30 in"], (await State(id))["measures"]!.AsArray().Select(m => (string)m!["length"]!["text"]!));
        Assert.Contains("Was an overlap, a pleat or an opening left out?", await Page(id), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_part_that_the_kind_does_not_usually_have_is_kept_and_asked_about()
    {
        var id = await Enter("""{"name":"Bonnet with a leg","kind":"bonnet","techniques":[{"kind":"hem","part":"leg"}]}""");
        Assert.Equal("leg", (string)(await State(id))["techniques"]![0]!["part"]!);
        Assert.Contains("not usual", await Page(id), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_technique_of_another_piece_can_not_be_moved_by_its_id()
    {
        var from = await State(await Enter("""{"name":"From","techniques":[{"kind":"hem"}]}"""));
        var to = await Enter("""{"name":"To"}""");
        using var answer = await Patch(to, new() { ["techniques"] = from["techniques"]!.DeepClone() });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var message = (string)(await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!["errors"]!["techniques[0].id"]![0]!;
        Assert.Contains((string)from["techniques"]![0]!["id"]!, message, StringComparison.Ordinal);
        Assert.Empty((await State(to))["techniques"]!.AsArray());
    }

    [Fact]
    public async Task Two_thousand_entries_are_taken_in_all_and_the_one_too_many_is_not()
    {
        static JsonArray Some(int count, string field, string value) => new([.. Enumerable.Range(0, count).Select(_ => new JsonObject { [field] = value })]);
        var id = await Enter(new JsonObject
        {
            ["name"] = "All there is to say", ["techniques"] = Some(1_000, "kind", "hem"), ["condition"] = Some(600, "what", "tear"),
            ["repairs"] = Some(300, "method", "darn"), ["examinations"] = Some(100, "why", "yearly"),
        }.ToJsonString());
        using var one = await Post($"/api/garments/{id}/condition", new() { ["what"] = "hole" });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, one.StatusCode);
        Assert.Contains("2001", (await one.Content.ReadFromJsonAsync<JsonObject>(Stop))!["errors"]!["condition"]![0]!.ToString(), StringComparison.Ordinal);
        Assert.Equal(1, (long)(await State(id))["version"]!);
        using var page = await host.Client.GetAsync(new Uri($"/pieces/{id}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
    }

    [Fact]
    public async Task Of_sixty_four_who_want_one_number_at_once_one_has_it_and_the_others_are_told_who()
    {
        var answers = await Task.WhenAll(Enumerable.Range(0, 64).Select(i => host.Client.PostAsJsonAsync("/api/garments", new JsonObject { ["number"] = "N-64", ["name"] = $"Runner {i}" }, Stop)));
        var winner = Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Created);
        var won = (await winner.Content.ReadFromJsonAsync<JsonObject>(Stop))!;
        foreach (var answer in answers.Where(a => a != winner))
        {
            Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
            var problem = (await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!;
            Assert.Equal(((string)won["id"]!, (string)won["name"]!), ((string)problem["garment"]!, (string)problem["name"]!));
        }
    }

    [Theory]
    [InlineData("1899-02-29")]
    [InlineData("1900-13")]
    [InlineData("1900-00")]
    [InlineData("1900-04-31")]
    [InlineData("1905/1895")]
    [InlineData("19XX-12-40")]
    [InlineData("190X~")]
    [InlineData("1900-25")]
    [InlineData("1900/1901/1902")]
    [InlineData("1900?~")]
    [InlineData("12-5-1900")]
    [InlineData("1900-1-1")]
    public async Task A_date_that_can_not_be_is_refused_by_its_field(string dated)
    {
        using var answer = await Post("/api/garments", new() { ["name"] = "Dated", ["dated"] = dated });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(dated, (await answer.Content.ReadFromJsonAsync<JsonObject>(Stop))!["errors"]!["dated"]![0]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_at_once_answer_where_they_are_and_what_was_left()
    {
        var (one, aside) = (await Enter("""{"name":"One"}"""), await Enter("""{"name":"Aside","number":"A-77"}"""));
        using var away = new HttpRequestMessage(HttpMethod.Delete, $"/api/garments/{aside}");
        away.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        (await host.Client.SendAsync(away, Stop)).EnsureSuccessStatusCode();
        using var asked = await Post("/api/many", new() { ["pieces"] = new JsonArray(one, aside), ["change"] = new JsonObject { ["kind"] = "cap" } });
        Assert.Equal(HttpStatusCode.Created, asked.StatusCode);
        var state = await Until(asked.Headers.Location!, "done");
        Assert.Equal((2, 2, 1, 1), ((int)state["total"]!, (int)state["done"]!, (int)state["changed"]!, (int)state["left"]!["total"]!));
        var left = state["left"]!["items"]![0]!;
        Assert.Equal((aside, "A-77", "set-aside"), ((string)left["garment"]!, (string)left["number"]!, (string)left["outcome"]!));
        Assert.Equal("cap", (string)(await State(one))["kind"]!);
        using var undo = await Post($"{asked.Headers.Location}/undo", []);
        Assert.Equal(HttpStatusCode.OK, undo.StatusCode);
        Assert.Equal(1, (int)(await Until(asked.Headers.Location!, "undone"))["undone"]!);
        Assert.Null((await State(one))["kind"]);
        using var none = await Post($"/api/many/{Guid.NewGuid()}/undo", []);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    private async Task<JsonObject> Until(Uri at, string what)
    {
        JsonObject state = [];
        await Wait.Until(async () => (string)(state = (await host.Client.GetFromJsonAsync<JsonObject>(at, Stop))!)["state"]! == what, $"{at} is {what}");
        return state;
    }

    private async Task<string> Enter(string body)
    {
        using var answer = await Post("/api/garments", JsonNode.Parse(body)!.AsObject());
        var text = await answer.Content.ReadAsStringAsync(Stop);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (string)JsonNode.Parse(text)!["id"]!;
    }

    private async Task<JsonObject> State(string id) => (await host.Client.GetFromJsonAsync<JsonObject>($"/api/garments/{id}", Stop))!;

    private Task<string> Page(string id) => host.Client.GetStringAsync(new Uri($"/pieces/{id}", UriKind.Relative), Stop);

    private Task<HttpResponseMessage> Patch(string id, JsonObject body) => Send(HttpMethod.Patch, $"/api/garments/{id}", body);

    private Task<HttpResponseMessage> Post(string path, JsonObject body) => Send(HttpMethod.Post, path, body);

    private async Task<HttpResponseMessage> Send(HttpMethod method, string path, JsonObject body)
    {
        using var request = new HttpRequestMessage(method, path) { Content = JsonContent.Create(body) };
        request.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        return await host.Client.SendAsync(request, Stop);
    }
}
