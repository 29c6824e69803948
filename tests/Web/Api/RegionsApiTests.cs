using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>Regions of a picture over the whole service, as Web Annotations.</summary>
public sealed class RegionsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private const string Anno = "http://www.w3.org/ns/anno.jsonld";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_region_is_marked_read_said_anew_and_taken_away_and_nothing_it_said_is_lost()
    {
        var piece = await Piece();
        using var made = await Send("POST", piece.Regions, Rectangle(piece, "10,20,100,50", Technique(piece)));
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        Assert.Equal("\"1\"", made.Headers.ETag!.Tag);
        Assert.Equal("application/ld+json", made.Content.Headers.ContentType!.MediaType);
        Assert.Equal($"\"{Anno}\"", made.Content.Headers.ContentType.Parameters.Single(p => p.Name == "profile").Value);
        var at = made.Headers.Location!.ToString();
        var region = await Read(made);
        AnnotationRules.Check(region);
        Assert.Equal("xywh=10,20,100,50", region["target"]!["selector"]!["value"]!.ToString());

        // What was read can be sent back as it is; and it is the same again.
        using var same = await Send("PUT", at, region, "\"1\"");
        Assert.Equal("\"2\"", same.Headers.ETag!.Tag);
        var anew = region.DeepClone().AsObject();
        anew["target"]!["selector"] = new JsonObject { ["type"] = "SvgSelector", ["value"] = "<svg xmlns='http://www.w3.org/2000/svg'><polygon points='1,1 30,2 20,30'/></svg>" };
        foreach (var computed in new[] { "modified", "version" })
        {
            anew.Remove(computed);
        }

        using var put = await Send("PUT", at, anew, "\"2\"");
        Assert.True(put.IsSuccessStatusCode, await put.Content.ReadAsStringAsync(Cancel));
        AnnotationRules.Check(await Read(put));
        Assert.Equal("\"3\"", put.Headers.ETag!.Tag);

        using var without = await Send("DELETE", at, null, null);
        Assert.Equal((HttpStatusCode)428, without.StatusCode);
        using var stale = await Send("PUT", at, anew, "\"1\"");
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        Assert.Equal(3, (int)(await Read(stale))["version"]!);
        using var gone = await Send("DELETE", at, null, "\"3\"");
        Assert.Equal(HttpStatusCode.NoContent, gone.StatusCode);
        Assert.Empty(Items(await Get(piece.Regions)));
        Assert.Single(Items(await Get(piece.Regions + "?gone=true")));
        using var missing = await host.Client.GetAsync(new Uri(at, UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);

        using var back = await Send("PUT", at, anew, "\"4\"");
        Assert.Equal("\"5\"", back.Headers.ETag!.Tag);
        Assert.Single(Items(await Get(piece.Regions)));
    }

    [Fact]
    public async Task From_a_technique_to_its_regions_and_from_a_region_to_what_it_shows()
    {
        var piece = await Piece();
        await Made(piece, Rectangle(piece, "10,20,100,50", Technique(piece)));
        await Made(piece, Rectangle(piece, "50,20,100,50", new JsonArray(Technique(piece), $"{host.Address}api/words/laces/torchon", Text("needle holes"))));
        await Made(piece, Rectangle(piece, "70,20,100,50", Entry(piece, "condition")));
        await Made(piece, Rectangle(piece, "80,20,100,50", Entry(piece, "repairs")));
        var id = piece.Garment["id"];
        Assert.Equal(2, Items(await Get($"/api/garments/{id}/regions?technique={piece.Garment["techniques"]![0]!["id"]}")).Count);
        Assert.Single(Items(await Get($"/api/garments/{id}/regions?condition={piece.Garment["condition"]![0]!["id"]}")));
        Assert.Single(Items(await Get($"/api/garments/{id}/regions?repair={piece.Garment["repairs"]![0]!["id"]}")));
        Assert.Single(Items(await Get($"/api/garments/{id}/regions?word=laces/torchon")));
        var all = await Get($"/api/garments/{id}/regions");
        AnnotationRules.CheckPage(all);
        Assert.Equal(4, Items(all).Count);
        var source = Items(all)[0]!["body"]!["source"]!.ToString();
        var technique = await Get(new Uri(source).PathAndQuery);
        Assert.Equal("tucks", technique["kind"]!.ToString());
    }

    [Fact]
    public async Task A_measured_line_keeps_its_length_as_typed()
    {
        var piece = await Piece();
        var line = Rectangle(piece, "1,1,1,1", null);
        line.Remove("body");
        line["target"]!["selector"] = new JsonObject { ["type"] = "SvgSelector", ["value"] = "<svg xmlns='http://www.w3.org/2000/svg'><line x1='0' y1='0' x2='120' y2='50'/></svg>" };
        line["length"] = "3/8 in";
        var region = await Made(piece, line);
        AnnotationRules.Check(region);
        Assert.Equal(9.525m, (decimal)region["length"]!["mm"]!);
        Assert.Equal("3/8 in", region["length"]!["text"]!.ToString());
    }

    /// <summary>The forms of a target and of a body in the data model, sections 3.2, 3.2.4, 4 and 4.2.1.</summary>
    [Fact]
    public async Task Other_forms_of_the_model_mean_the_same()
    {
        var piece = await Piece();
        var canvas = $"{host.Address}iiif/garments/{piece.Garment["id"]}/canvas/{piece.Picture}";
        foreach (var target in new JsonNode[]
        {
            $"{canvas}#xywh=10,20,100,50",
            new JsonArray($"{host.Address}iiif/image/{piece.Picture}#xywh=pixel:10,20,100,50"),
            new JsonObject { ["id"] = $"{canvas}#xywh=10,20,100,50" },
            new JsonObject { ["source"] = new JsonObject { ["id"] = canvas, ["type"] = "Canvas" }, ["selector"] = new JsonArray(new JsonObject { ["type"] = "FragmentSelector", ["value"] = "xywh=percent:2.5,10,25,25" }) },
        })
        {
            var region = await Made(piece, new JsonObject { ["@context"] = new JsonArray(Anno), ["type"] = "Annotation", ["motivation"] = new JsonArray("tagging"), ["body"] = new JsonArray(Technique(piece)["source"]!.ToString()), ["target"] = target });
            AnnotationRules.Check(region);
            Assert.Equal("xywh=10,20,100,50", region["target"]!["selector"]!["value"]!.ToString());
            Assert.Equal("tagging", region["motivation"]!.ToString());
            Assert.EndsWith($"/techniques/{piece.Garment["techniques"]![0]!["id"]}", region["body"]!["source"]!.ToString(), StringComparison.Ordinal);
        }
    }

    public static TheoryData<string, string, int> Faulty => new()
    {
        { """{"type":"Annotation"}""", "target", 422 },
        { """{"type":"Note"}""", "type", 422 },
        { """{"creator":"me"}""", "creator", 400 },
        { """{"motivation":"selling"}""", "motivation", 422 },
        { """{"@context":"http://example.org/other"}""", "@context", 422 },
        { """{"target":17}""", "target", 400 },
        { """{"target":["a#xywh=1,1,1,1","b#xywh=1,1,1,1"]}""", "target", 422 },
        { """{"target":"http://example.org/other.jpg#xywh=1,1,5,5"}""", "target", 422 },
        { """{"target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5000,5"}}}""", "target.selector.value", 422 },
        { """{"target":{"selector":{"type":"FragmentSelector","value":"xywh=-1,1,5,5"}}}""", "target.selector.value", 422 },
        { """{"target":{"selector":{"type":"FragmentSelector","value":7}}}""", "target.selector.value", 400 },
        { """{"target":{"selector":{"type":"TextQuoteSelector","value":"a"}}}""", "target.selector.type", 422 },
        { """{"target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5,5","refinedBy":{}}}}""", "target.selector.refinedBy", 400 },
        { """{"target":{"selector":{"type":"SvgSelector","value":"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"}}}""", "target.selector.value", 422 },
        { """{"target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5,5"}}}""", "body", 422 },
        { """{"body":{"type":"TextualBody","value":""}}""", "body.value", 422 },
        { """{"body":[{"type":"TextualBody","value":"a"},{"type":"TextualBody","value":"<b>","format":"text/html"}]}""", "body[1].format", 422 },
        { """{"body":[{"type":"TextualBody","value":"a","purpose":"fun"}]}""", "body[0].purpose", 422 },
        { """{"body":17}""", "body", 400 },
        { """{"body":{"type":"SpecificResource"}}""", "body.id", 400 },
        { """{"body":"/api/words/laces/torchn"}""", "body", 422 },
        { """{"body":"0199a1b2-0000-7000-8000-000000000000"}""", "body", 422 },
        { """{"body":"/api/garments/0199a1b2-0000-7000-8000-000000000000/techniques/0199a1b2-0000-7000-8000-000000000000"}""", "body", 422 },
        { """{"length":"3/8"}""", "length", 400 },
        { """{"length":"0 in"}""", "length", 422 },
        { """{"length":"1 in","target":{"selector":{"type":"FragmentSelector","value":"xywh=1,1,5,5"}}}""", "length", 422 },
        { """{"id":"http://example.org/mine"}""", "id", 422 },
        { """{"created":"2020-01-01T00:00:00Z"}""", "created", 422 },
    };

    [Theory]
    [MemberData(nameof(Faulty))]
    public async Task A_region_that_makes_no_sense_names_the_place(string body, string path, int status)
    {
        var piece = await Piece();
        using var answer = await Send("POST", piece.Regions, JsonNode.Parse(body)!);
        var problem = await Read(answer);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.True(problem["errors"]![path] is not null, $"{path} is not among {problem["errors"]}");
        Assert.Empty(Items(await Get(piece.Regions)));
    }

    [Fact]
    public async Task Gone_is_true_or_false_and_what_else_is_asked_is_named()
    {
        var piece = await Piece();
        using var answer = await host.Client.GetAsync(new Uri(piece.Regions + "?gone=perhaps", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("perhaps", (await Read(answer))["errors"]!["gone"]![0]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_taken_out_of_the_record_stays_marked_and_a_piece_set_aside_takes_no_region()
    {
        var piece = await Piece();
        var region = await Made(piece, Rectangle(piece, "10,20,100,50", Technique(piece)));
        var at = new Uri(region["id"]!.ToString()).AbsolutePath;
        using var removed = await Send("DELETE", $"/api/garments/{piece.Garment["id"]}/techniques/{piece.Garment["techniques"]![0]!["id"]}", null, "\"2\"");
        Assert.Equal(HttpStatusCode.NoContent, removed.StatusCode);
        using var again = await Send("PUT", at, region, "\"1\"");
        Assert.True(again.IsSuccessStatusCode, await again.Content.ReadAsStringAsync(Cancel));
        using var aside = await Send("DELETE", $"/api/garments/{piece.Garment["id"]}", null, "\"3\"");
        Assert.Equal(HttpStatusCode.NoContent, aside.StatusCode);
        using var refused = await Send("POST", piece.Regions, Rectangle(piece, "10,20,100,50", Text("a")));
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
    }

    [Fact]
    public async Task Plain_JSON_is_answered_to_those_who_ask_for_it()
    {
        var piece = await Piece();
        using var request = new HttpRequestMessage(HttpMethod.Get, piece.Regions);
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/json"));
        using var answer = await host.Client.SendAsync(request, Cancel);
        Assert.Equal("application/json", answer.Content.Headers.ContentType!.MediaType);
        using var wrong = await host.Client.GetAsync(new Uri($"/api/garments/{piece.Garment["id"]}/regions?technique=x", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
    }

    private static List<JsonNode?> Items(JsonObject page) => [.. page["items"]!.AsArray()];

    private static JsonObject Technique(Marked piece) => Entry(piece, "techniques");

    private static JsonObject Entry(Marked piece, string list) => new()
    {
        ["type"] = "SpecificResource", ["purpose"] = "identifying", ["source"] = $"/api/garments/{piece.Garment["id"]}/{list}/{piece.Garment[list]![0]!["id"]}",
    };

    private static JsonObject Text(string text) => new() { ["type"] = "TextualBody", ["value"] = text, ["format"] = "text/plain" };

    private static JsonObject Rectangle(Marked piece, string xywh, JsonNode? body) => new()
    {
        ["@context"] = Anno, ["type"] = "Annotation", ["body"] = body,
        ["target"] = new JsonObject
        {
            ["type"] = "SpecificResource", ["source"] = $"/iiif/garments/{piece.Garment["id"]}/canvas/{piece.Picture}",
            ["selector"] = new JsonObject { ["type"] = "FragmentSelector", ["conformsTo"] = "http://www.w3.org/TR/media-frags/", ["value"] = $"xywh={xywh}" },
        },
    };

    private async Task<Marked> Piece()
    {
        using var entered = await Send("POST", "/api/garments", JsonNode.Parse("""{"name":"Nainsook dress to mark","techniques":[{"kind":"tucks","part":"yoke"}],"condition":[{"what":"tear"}],"repairs":[{"method":"darn"}]}""")!);
        var garment = await Read(entered);
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Picture()), "file", "a.png" } };
        using var taken = await host.Client.PostAsync(new Uri($"/api/garments/{garment["id"]}/pictures", UriKind.Relative), form, Cancel);
        var text = await taken.Content.ReadAsStringAsync(Cancel);
        Assert.True(taken.IsSuccessStatusCode, text);
        return new(garment, JsonNode.Parse(text)![0]!["id"]!.ToString());
    }

    internal static byte[] Picture(int width = 400, int height = 200) => PngParts.Stored(width, height, 2, 8, false, (_, _, _) => 0);

    private async Task<JsonObject> Made(Marked piece, JsonNode annotation)
    {
        using var answer = await Send("POST", piece.Regions, annotation);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync(Cancel));
        return await Read(answer);
    }

    private async Task<JsonObject> Get(string path) =>
        JsonNode.Parse(await host.Client.GetStringAsync(new Uri(path, UriKind.Relative), Cancel))!.AsObject();

    private static async Task<JsonObject> Read(HttpResponseMessage answer) =>
        JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!.AsObject();

    private async Task<HttpResponseMessage> Send(string method, string path, JsonNode? body, string? ifMatch = null)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), new Uri(path, UriKind.RelativeOrAbsolute));
        if (body is not null)
        {
            request.Content = new StringContent(body.ToJsonString(), Encoding.UTF8, path.Contains("regions", StringComparison.Ordinal) ? "application/ld+json" : "application/json");
        }

        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        return await host.Client.SendAsync(request, Cancel);
    }

    private sealed record Marked(JsonObject Garment, string Picture)
    {
        public string Regions => $"/api/pictures/{Picture}/regions";
    }
}
