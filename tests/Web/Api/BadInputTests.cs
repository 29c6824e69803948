using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Support;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>Every route of the API gets every kind of bad input: a clear problem, nothing changed, never a 500.</summary>
public sealed class BadInputTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static readonly string Megabyte = new('a', 1024 * 1024);

    /// <summary>Bodies that no route takes, each with the statuses that may answer it.</summary>
    public static TheoryData<string, string, int[]> Bodies => new()
    {
        { "nothing", "", [400] },
        { "half an object", "{\"name\":", [400] },
        { "no object", "[1,2]", [400] },
        { "a number", "17", [400] },
        { "null", "null", [400] },
        { "not UTF-8", "\ud800", [400] },
        { "a name twice", "{\"name\":\"a\",\"name\":\"b\"}", [400] },
        { "an unknown field", "{\"nosuchfield\":1}", [400] },
        { "half a surrogate pair", "{\"name\":\"\\ud800\",\"title\":\"\\ud800\",\"note\":\"\\ud800\"}", [400] },
        { "half a surrogate pair in a name", "{\"\\ud800\":1}", [400] },
        { "U+0000 in a name", "{\"na\\u0000me\":1}", [422] },
        { "very deep", string.Concat(Enumerable.Repeat("{\"a\":", 5000)) + "1" + new string('}', 5000), [400] },
        { "over the limit", "{\"name\":\"" + string.Concat(Enumerable.Repeat("0123456789", 500_000)) + "\"}", [413] },
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task No_route_takes(string what, string body, int[] statuses)
    {
        foreach (var (method, path, kind) in await Routes())
        {
            // A draft takes any object: what is wrong in it she is still to put right.
            if (kind is not ("json" or "draft") || (kind == "draft" && what == "an unknown field"))
            {
                continue;
            }

            var before = await Everything();
            using var answer = await Send(method, path, Encoding.UTF8.GetBytes(body));
            await IsClear(answer, statuses, $"{method} {path} with {what}");
            Assert.Equal(before, await Everything());
        }
    }

    [Fact]
    public async Task A_body_of_another_kind_is_415_everywhere()
    {
        foreach (var (method, path, kind) in await Routes())
        {
            if (kind == "none")
            {
                continue;
            }

            using var answer = await Send(method, path, "name=x"u8.ToArray(), "text/csv");
            await IsClear(answer, [415], $"{method} {path}");
        }
    }

    [Fact]
    public async Task A_change_without_If_Match_is_428_and_a_stale_one_412()
    {
        var entered = await Enter("""{"name":"Petticoat for the versions"}""");
        var id = entered["id"]!.GetValue<string>();
        foreach (var (method, path, body) in new[]
        {
            ("PATCH", $"/api/garments/{id}", """{"name":"Other"}"""),
            ("POST", $"/api/garments/{id}/techniques", """{"kind":"tucks"}"""),
            ("POST", $"/api/garments/{id}/history/1/put-back", "{}"),
            ("DELETE", $"/api/garments/{id}", ""),
        })
        {
            using var without = await Send(method, path, Encoding.UTF8.GetBytes(body), ifMatch: null);
            await IsClear(without, [428], $"{method} {path}");
            foreach (var stale in new[] { "\"7\"", "\"0\"", "\"x\"", "\"99999999999999999999\"" })
            {
                using var answer = await Send(method, path, Encoding.UTF8.GetBytes(body), ifMatch: stale);
                await IsClear(answer, [412], $"{method} {path} at {stale}");
                Assert.Equal(1, JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!["version"]!.GetValue<long>());
            }
        }
    }

    /// <summary>Garments that can't be entered: where the fault lies, and whether it is one of reading or of sense.</summary>
    public static TheoryData<string, string, int> Garments => new()
    {
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":5,"width":"1/8"}]}]}""", "techniques[0].groups[0].width", 400 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":5,"width":"-1/8 in"}]}]}""", "techniques[0].groups[0].width", 422 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":5,"width":"3000 km"}]}]}""", "techniques[0].groups[0].width", 400 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":5,"width":"3000 yd"}]}]}""", "techniques[0].groups[0].width", 422 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":0,"width":"1/8 in"}]}]}""", "techniques[0].groups[0].tucks", 422 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":10000,"width":"1/8 in"}]}]}""", "techniques[0].groups[0].tucks", 422 },
        { """{"name":"a","techniques":[{"kind":"tucks","groups":[{"tucks":"five","width":"1/8 in"}]}]}""", "techniques[0].groups[0].tucks", 400 },
        { """{"name":"a","techniques":[{"kind":"tuks"}]}""", "techniques[0].kind", 422 },
        { """{"name":"a","techniques":[{"kind":"lace","groups":[]}]}""", "techniques[0].groups", 400 },
        { """{"name":"a","kind":"christening-gwon"}""", "kind", 422 },
        { """{"name":"a","dated":"about 1900"}""", "dated", 422 },
        { """{"name":"a","overall":"good"}""", "overall", 422 },
        { """{"name":17}""", "name", 400 },
        { """{"kind":"dress"}""", "name", 422 },
        { """{"name":"   "}""", "name", 422 },
        { """{"name":"a\u0000b"}""", "name", 422 },
        { """{"name":"a\u0007b"}""", "name", 422 },
        { """{"name":"a","condition":[{"what":"tear","examination":"0199a1b2-0000-7000-8000-000000000000"}]}""", "condition[0].examination", 422 },
    };

    [Theory]
    [MemberData(nameof(Garments))]
    public async Task A_garment_that_makes_no_sense_names_the_field(string body, string path, int status)
    {
        var before = await Everything();
        using var answer = await Send("POST", "/api/garments", Encoding.UTF8.GetBytes(body));
        var problem = await IsClear(answer, [status], body);
        Assert.True(problem["errors"]![path] is not null, $"{path} is not among {problem["errors"]}");
        Assert.Equal(before, await Everything());
    }

    [Theory]
    [InlineData("""{"groups":[{"tucks":0,"width":"1/8 in","space":"1/8 in"}]}""", "groups[0].tucks", 422)]
    [InlineData("""{"groups":[{"tucks":10000,"width":"1/8 in","space":"1/8 in"}]}""", "groups[0].tucks", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8","space":"1/8 in"}]}""", "groups[0].width", 400)]
    [InlineData("""{"groups":[{"tucks":3,"width":"0 in","space":"1/8 in"}]}""", "groups[0].width", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"-1/8 in"}]}""", "groups[0].space", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/8 in"}],"lead":"-1 in"}""", "lead", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/8 in","space":"1/8 in"}],"lies":"upward"}""", "lies", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":{"mm":3.175,"text":"1/4 in"},"space":"1/8 in"}]}""", "groups[0].width", 422)]
    [InlineData("""{"groups":[{"tucks":3,"width":{"mm":"3"},"space":"1/8 in"}]}""", "groups[0].width.mm", 400)]
    public async Task A_plan_that_makes_no_sense_names_the_field(string body, string path, int status)
    {
        using var answer = await Send("POST", "/api/plans/tucks", Encoding.UTF8.GetBytes(body));
        var problem = await IsClear(answer, [status], body);
        Assert.Contains(problem["errors"]!.AsObject(), e => e.Key == path || path.StartsWith(e.Key + ".", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("שמלה לבנה 👗 \\u202e مقلوب")]
    [InlineData("'; DROP TABLE mt_events; --")]
    [InlineData("<script>alert(1)</script> & \\\"quotes\\\"")]
    public async Task Any_script_and_emoji_are_kept_as_they_came(string name)
    {
        var entered = await Enter($$"""{"name":"{{name}}"}""");
        var expected = JsonNode.Parse($"\"{name}\"")!.GetValue<string>();
        using var answer = await host.Client.GetAsync(new Uri($"/api/garments/{entered["id"]}", UriKind.Relative), TestContext.Current.CancellationToken);
        var state = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        Assert.Equal(expected, state["name"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("name")]
    [InlineData("description")]
    [InlineData("number")]
    public async Task A_megabyte_of_text_is_refused_by_its_field(string field)
    {
        var body = new JsonObject { ["name"] = "a", [field] = Megabyte };
        using var answer = await Send("POST", "/api/garments", Encoding.UTF8.GetBytes(body.ToJsonString()));
        var problem = await IsClear(answer, [422], field);
        Assert.NotNull(problem["errors"]![field]);
        Assert.True(problem.ToJsonString().Length < 2000, "the answer repeats the megabyte");
    }

    [Theory]
    [InlineData("name:*)) OR (")]
    [InlineData("\"unclosed +-&&||!(){}[]^~*?:\\/")]
    [InlineData("' OR 1=1; --")]
    [InlineData("*")]
    [InlineData("👗 שמלה \u202e")]
    [InlineData("AND OR NOT")]
    [InlineData("\u0001\u0007")]
    public async Task Anything_typed_gives_an_answer(string q)
    {
        using var answer = await host.Client.GetAsync(new Uri("/api/search?q=" + Uri.EscapeDataString(q), UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("/api/search?colour=white", "colour")]
    [InlineData("/api/search?from=soon", "from")]
    [InlineData("/api/search?widthFrom=3", "widthFrom")]
    [InlineData("/api/search?page=0", "page")]
    [InlineData("/api/search?size=101", "size")]
    [InlineData("/api/search?page=200&size=100", "page")]
    [InlineData("/api/search?sort=price", "sort")]
    [InlineData("/api/search?seen=99999999", "seen")]
    [InlineData("/api/search?seen=x", "seen")]
    [InlineData("/api/garments?page=-1", "page")]
    [InlineData("/api/garments?size=1000000000000", "size")]
    public async Task A_question_that_can_not_be_read_is_400(string url, string field)
    {
        using var answer = await host.Client.GetAsync(new Uri(url, UriKind.Relative), TestContext.Current.CancellationToken);
        var problem = await IsClear(answer, [400], url);
        Assert.NotNull(problem["errors"]![field]);
    }

    [Theory]
    [InlineData("not-an-id")]
    [InlineData("00000000-0000-0000-0000-000000000000")]
    [InlineData("..%2f..%2fetc")]
    public async Task An_id_that_is_none_is_404(string id)
    {
        foreach (var path in new[] { $"/api/garments/{id}", $"/api/garments/{id}/history", $"/api/pictures/{id}/screen", $"/api/worksheets/{id}", $"/api/garments/{id}/techniques/{id}" })
        {
            using var answer = await host.Client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            await IsClear(answer, [404], path);
        }
    }

    [Fact]
    public async Task A_taken_number_is_409_and_names_who_has_it()
    {
        var first = await Enter("""{"number":"T-001","name":"The first"}""");
        using var answer = await Send("POST", "/api/garments", """{"number":" t-0 01 ","name":"The second"}"""u8.ToArray());
        var problem = await IsClear(answer, [409], "a taken number");
        Assert.Equal(first["id"]!.GetValue<string>(), problem["garment"]!.GetValue<string>());
        Assert.Equal("The first", problem["name"]!.GetValue<string>());
    }

    [Fact]
    public void Every_route_of_the_api_is_tried_here()
    {
        var routes = host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.RoutePattern.RawText is { } text && text.TrimStart('/').StartsWith("api/", StringComparison.Ordinal) && !text.Contains("**", StringComparison.Ordinal))
            .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? [], (e, m) => $"{m} /{e.RoutePattern.RawText!.Trim('/')}")
            .Where(r => !r.StartsWith("GET", StringComparison.Ordinal) && !r.StartsWith("HEAD", StringComparison.Ordinal));
        Assert.Empty(routes.Except(Table.Select(t => $"{t.Method} {t.Route}")));
    }

    /// <summary>Every route that writes or computes, and what kind of body it takes.</summary>
    private static readonly (string Method, string Route, string Kind)[] Table =
    [
        ("POST", "/api/garments", "json"),
        ("PATCH", "/api/garments/{id:guid}", "json"),
        ("DELETE", "/api/garments/{id:guid}", "none"),
        ("POST", "/api/garments/{id:guid}/bring-back", "none"),
        ("POST", "/api/garments/{id:guid}/history/{version:long}/put-back", "json"),
        .. new[] { "techniques", "examinations", "condition", "repairs", "pictures" }.SelectMany(list => new[]
        {
            ("POST", $"/api/garments/{{id:guid}}/{list}", list == "pictures" ? "form" : "json"),
            ("PUT", $"/api/garments/{{id:guid}}/{list}/{{entry:guid}}", "json"),
            ("DELETE", $"/api/garments/{{id:guid}}/{list}/{{entry:guid}}", "none"),
        }),
        ("POST", "/api/many", "json"),
        ("POST", "/api/many/{id:guid}/undo", "none"),
        ("POST", "/api/pictures/{pid:guid}/regions", "json"),
        ("PUT", "/api/pictures/{pid:guid}/regions/{rid:guid}", "json"),
        ("DELETE", "/api/pictures/{pid:guid}/regions/{rid:guid}", "none"),
        ("POST", "/api/plans/tucks", "json"),
        ("POST", "/api/plans/fit", "json"),
        .. AllSums.InOrder.Select(s => ("POST", $"/api/plans/{s.Slug}", "json")),
        ("POST", "/api/words/{facet}", "json"),
        ("PUT", "/api/words/{facet}/{slug}", "json"),
        ("DELETE", "/api/words/{facet}/{slug}", "none"),
        ("POST", "/api/words/{facet}/{slug}/merge", "json"),
        ("POST", "/api/words/{facet}/{slug}/unmerge", "none"),
        ("POST", "/api/worksheets", "json"),
        ("PUT", "/api/worksheets/{id:guid}/ticks", "json"),
        ("PATCH", "/api/worksheets/{id:guid}/ticks", "json"),
        ("POST", "/api/worksheets/{id:guid}/made-up", "json"),
        ("POST", "/api/worksheets/{id:guid}/corrected", "json"),
        ("POST", "/api/printers", "json"),
        ("PUT", "/api/drafts/{form}", "draft"),
        ("DELETE", "/api/drafts/{form}", "none"),
        ("POST", "/api/pictures/check", "none"),
        ("OPTIONS", "/api/uploads", "none"),
        ("POST", "/api/uploads", "none"),
        ("PATCH", "/api/uploads/{upload:guid}", "form"),
        ("DELETE", "/api/uploads/{upload:guid}", "none"),
        ("POST", "/api/lessons", "json"),
        ("PUT", "/api/lessons/{id:guid}", "json"),
        ("DELETE", "/api/lessons/{id:guid}", "none"),
        ("POST", "/api/lessons/{id:guid}/bring-back", "none"),
        ("POST", "/api/lessons/{id:guid}/entries", "json"),
        ("POST", "/api/questions", "json"),
        ("DELETE", "/api/questions/{id:guid}", "none"),
        ("POST", "/api/questions/{id:guid}/seen", "none"),
    ];

    private JsonObject? piece, sheet, word, region, lesson;

    private async Task<IEnumerable<(string Method, string Path, string Kind)>> Routes()
    {
        piece ??= await Enter("""{"name":"Blouse for bad input","techniques":[{"kind":"tucks"}],"examinations":[{"date":"2026-03-01"}],"condition":[{"what":"tear"}],"repairs":[{"method":"darn"}]}""");
        sheet ??= await Enter("""{"plan":{"groups":[{"tucks":1,"width":"1/8 in"}]}}""", "/api/worksheets");
        word ??= await Enter($$"""{"label":"Word for bad input {{Guid.NewGuid():N}}"}""", "/api/words/laces");
        region ??= await Marked();
        lesson ??= await Enter("""{"name":"Lesson for bad input"}""", "/api/lessons");
        return Table.Select(t => (t.Method, Fill(t.Route), t.Kind));
    }

    private string Fill(string route)
    {
        if (route.Contains("worksheets", StringComparison.Ordinal))
        {
            return route.Replace("{id:guid}", sheet!["id"]!.GetValue<string>(), StringComparison.Ordinal);
        }

        if (route.Contains("{pid:guid}", StringComparison.Ordinal))
        {
            var at = new Uri(region!["id"]!.GetValue<string>()).AbsolutePath.Split('/');
            return route.Replace("{pid:guid}", at[3], StringComparison.Ordinal).Replace("{rid:guid}", at[5], StringComparison.Ordinal);
        }

        if (route.Contains("lessons", StringComparison.Ordinal))
        {
            return route.Replace("{id:guid}", lesson!["id"]!.GetValue<string>(), StringComparison.Ordinal);
        }

        if (route.Contains("{facet}", StringComparison.Ordinal))
        {
            return route.Replace("{facet}/{slug}", word!["id"]!.GetValue<string>()["/api/words/".Length..], StringComparison.Ordinal)
                .Replace("{facet}", "laces", StringComparison.Ordinal);
        }

        var list = route.Split('/') is { Length: > 4 } parts ? parts[4] : "";
        var entry = piece![list] is JsonArray { Count: > 0 } entries ? entries[0]!["id"]!.GetValue<string>() : Guid.Empty.ToString();
        return route.Replace("{id:guid}", piece["id"]!.GetValue<string>(), StringComparison.Ordinal)
            .Replace("{entry:guid}", entry, StringComparison.Ordinal)
            .Replace("{version:long}", "1", StringComparison.Ordinal)
            .Replace("{upload:guid}", Guid.Empty.ToString(), StringComparison.Ordinal)
            .Replace("{form}", "bad-input", StringComparison.Ordinal);
    }

    private async Task<JsonObject> Enter(string body, string path = "/api/garments")
    {
        using var answer = await Send("POST", path, Encoding.UTF8.GetBytes(body));
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private async Task<JsonObject> Marked()
    {
        var garment = await Enter("""{"name":"Blouse to mark"}""");
        using var form = new MultipartFormDataContent { { new ByteArrayContent(RegionsApiTests.Picture()), "file", "a.png" } };
        using var taken = await host.Client.PostAsync(new Uri($"/api/garments/{garment["id"]}/pictures", UriKind.Relative), form, TestContext.Current.CancellationToken);
        var picture = JsonNode.Parse(await taken.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))![0]!["id"];
        return await Enter("""{"body":{"type":"TextualBody","value":"a"},"target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5,5"}}}""", $"/api/pictures/{picture}/regions");
    }

    private Task<string> Everything() =>
        host.Client.GetStringAsync(new Uri("/api/garments?size=100", UriKind.Relative), TestContext.Current.CancellationToken);

    private async Task<HttpResponseMessage> Send(string method, string path, byte[] body, string type = "application/json", string? ifMatch = "\"1\"")
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(type);
        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        return await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private static async Task<JsonObject> IsClear(HttpResponseMessage answer, int[] statuses, string what)
    {
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(statuses.Contains((int)answer.StatusCode), $"{what}: {(int)answer.StatusCode} instead of {string.Join(" or ", statuses)}: {(text.Length > 500 ? text[..500] : text)}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(text)!.AsObject();
        Assert.False(string.IsNullOrWhiteSpace(problem["title"]?.GetValue<string>()), $"{what}: no title");
        return problem;
    }
}
