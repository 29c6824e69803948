using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Api;

/// <summary>Lessons and kept questions over HTTP.</summary>
public sealed class LessonsApiTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_lesson_is_made_filled_put_in_another_order_and_taken_away()
    {
        var piece = (await Send("POST", "/api/garments", """{"number":"LS-1","name":"Blouse","techniques":[{"kind":"tucks"}],"place":{"shelf":"C"}}""")).Body;
        var made = await Send("POST", "/api/lessons", """{"name":"Pin tucks by hand","level":"beginners","time":"2 hours","pupils":8,"eachNeeds":"1/4 yd of lawn","notes":"Bring glasses.","shared":false}""");
        Assert.Equal((HttpStatusCode.Created, "\"1\"", $"/api/lessons/{made.Body["id"]}"), (made.Status, made.Tag, made.Location));
        Assert.Equal("[]", made.Body["given"]!.ToJsonString());

        var first = await Send("POST", $"{made.Location}/entries", $$"""{"garment":"{{piece["id"]}}","technique":"{{piece["techniques"]![0]!["id"]}}","show":"piece","note":"Look at the knots."}""");
        var second = await Send("POST", $"{made.Location}/entries", $$"""{"garment":"{{piece["id"]}}"}""");
        Assert.Equal((HttpStatusCode.Created, "\"3\""), (second.Status, second.Tag));
        Assert.Equal(first.Body.ToJsonString(), (await Send("GET", first.Location!, "")).Body.ToJsonString());

        var read = (await Send("GET", made.Location!, "")).Body;
        read["entries"] = new JsonArray([.. read["entries"]!.AsArray().Reverse().Select(e => e!.DeepClone())]);
        read["given"] = new JsonArray(new JsonObject { ["date"] = "2026-03-02", ["group"] = "Tuesday", ["out"] = new JsonArray($"{piece["id"]}"), ["needlesOut"] = 12, ["needlesBack"] = 11 });
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await Send("PUT", made.Location!, read.ToJsonString())).Status);
        var put = await Send("PUT", made.Location!, read.ToJsonString(), "\"3\"");
        Assert.Equal((HttpStatusCode.OK, "\"4\""), (put.Status, put.Tag));
        Assert.Equal([$"{second.Body["id"]}", $"{first.Body["id"]}"], put.Body["entries"]!.AsArray().Select(e => $"{e!["id"]}"));
        Assert.Equal(11, put.Body["given"]![0]!["needlesBack"]!.GetValue<int>());
        var stale = await Send("PUT", made.Location!, """{"name":"Other"}""", "\"3\"");
        Assert.Equal((HttpStatusCode.PreconditionFailed, 4), (stale.Status, stale.Body["version"]!.GetValue<int>()));

        Assert.Equal(HttpStatusCode.NoContent, (await Send("DELETE", made.Location!, "", "\"4\"")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await Send("GET", made.Location!, "")).Status);
        Assert.Equal(put.Body["entries"]!.ToJsonString(), (await Send("POST", $"{made.Location}/bring-back", "")).Body["entries"]!.ToJsonString());
        Assert.Equal(6, (await Send("GET", $"{made.Location}/versions", "")).Body["total"]!.GetValue<int>());
    }

    [Fact]
    public async Task Nothing_private_stands_in_a_lesson_or_on_its_hand_out()
    {
        var piece = (await Send("POST", "/api/garments", """
            {"name":"Private petticoat","place":{"shelf":"Secretshelf","box":"Secretbox"},"acquired":{"from":"Secretshop","price":"Secretprice"},"whereabouts":{"is":"lent","to":"Secretlender"}}
            """)).Body;
        var lesson = await Send("POST", "/api/lessons", $$"""{"name":"What all may see","entries":[{"garment":"{{piece["id"]}}"}]}""");
        Assert.DoesNotContain("Secret", lesson.Body.ToJsonString(), StringComparison.Ordinal);
        Assert.DoesNotContain("Secret", await host.Client.GetStringAsync($"/lessons/{lesson.Body["id"]}/hand-out", Ct), StringComparison.Ordinal);
        using var print = UglyToad.PdfPig.PdfDocument.Open(await host.Client.GetByteArrayAsync($"/lessons/{lesson.Body["id"]}.pdf", Ct));
        var text = string.Concat(print.GetPages().Select(p => p.Text));
        Assert.Contains("Private petticoat", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Secret", text, StringComparison.Ordinal);
        Assert.Contains("Secretshelf", await host.Client.GetStringAsync($"/lessons/{lesson.Body["id"]}/fetch", Ct), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_kept_question_says_what_is_new_until_she_has_looked()
    {
        var tag = Guid.NewGuid().ToString("N");
        async Task<(string Id, string Version)> Enter(string more = "")
        {
            var entered = (await Send("POST", "/api/garments", $$"""{"name":"Slip"{{more}}}""")).Body;
            return (entered["id"]!.ToString(), entered["version"]!.ToString());
        }

        async Task<(int Total, int New)> Mark(string id)
        {
            var all = (await Send("GET", "/api/questions", "")).Body["items"]!.AsArray();
            var mine = all.Single(q => q!["id"]!.ToString() == id)!;
            return (mine["total"]!.GetValue<int>(), mine["new"]!.GetValue<int>());
        }

        await Enter($$""","tags":["{{tag}}"]""");
        var older = await Enter();
        var kept = await Send("POST", "/api/questions", $$"""{"name":"Slips","search":"?q=slip&tag={{tag}}"}""");
        Assert.Equal((HttpStatusCode.Created, 1, 0), (kept.Status, kept.Body["total"]!.GetValue<int>(), kept.Body["new"]!.GetValue<int>()));
        var id = kept.Body["id"]!.ToString();

        // A piece entered since, and an older one that fits only now.
        await Enter($$""","tags":["{{tag}}"]""");
        await Send("PATCH", $"/api/garments/{older.Id}", $$"""{"tags":["{{tag}}"]}""", $"\"{older.Version}\"");
        Assert.Equal((3, 2), await Mark(id));
        Assert.Equal(0, (await Send("POST", $"/api/questions/{id}/seen", "")).Body["new"]!.GetValue<int>());
        Assert.Equal((3, 0), await Mark(id));

        var wrong = await Send("POST", "/api/questions", """{"name":"Wrong","search":"colour=white"}""");
        Assert.Equal(HttpStatusCode.BadRequest, wrong.Status);
        Assert.Contains("colour", wrong.Body["errors"]!["search"]![0]!.ToString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NoContent, (await Send("DELETE", $"/api/questions/{id}", "")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await Send("POST", $"/api/questions/{id}/seen", "")).Status);
    }

    private async Task<(HttpStatusCode Status, JsonObject Body, string? Tag, string? Location)> Send(string method, string path, string body, string? ifMatch = null)
    {
        using var request = new HttpRequestMessage(new(method), path);
        if (body.Length > 0)
        {
            request.Content = new StringContent(body, Encoding.UTF8, method == "PATCH" ? "application/merge-patch+json" : "application/json");
        }

        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        using var answer = await host.Client.SendAsync(request, Ct);
        var text = await answer.Content.ReadAsStringAsync(Ct);
        return (answer.StatusCode, text.Length == 0 ? [] : JsonNode.Parse(text)!.AsObject(), answer.Headers.ETag?.Tag, answer.Headers.Location?.ToString());
    }
}
