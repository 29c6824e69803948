using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests;

/// <summary>The machine's clock goes back an hour while the service runs.</summary>
public sealed class ClockTests(PostgresServer postgres)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task History_versions_entries_and_the_list_keep_their_order()
    {
        var clock = new Clock();
        await using var host = new ArchiveHost(postgres) { Instead = s => s.AddSingleton<TimeProvider>(clock) };
        await host.InitializeAsync();
        var first = await Entered(host.Client, "First");
        await Changed(host.Client, first, 1, new { description = "before" });
        await Added(host.Client, first, 2, "before");
        clock.Back(TimeSpan.FromHours(1));
        await Added(host.Client, first, 3, "after");
        await Changed(host.Client, first, 4, new { description = "after" });
        var second = await Entered(host.Client, "Second");
        var third = await Entered(host.Client, "Third");

        var history = JsonNode.Parse(await host.Client.GetStringAsync($"/api/garments/{first}/history?page=1&size=20", Cancel))!["items"]!.AsArray();
        Assert.Equal([5, 4, 3, 2, 1], history.Select(i => i!["version"]!.GetValue<int>()));
        var when = history.Select(i => DateTimeOffset.Parse(i!["when"]!.ToString(), CultureInfo.InvariantCulture)).ToList();
        Assert.True(when[1] < when[2], "The clock did not go back for the record.");

        var state = JsonNode.Parse(await host.Client.GetStringAsync("/api/garments/" + first, Cancel))!;
        Assert.Equal("after", state["description"]!.ToString());
        Assert.Equal(["before", "after"], state["techniques"]!.AsArray().Select(t => t!["note"]!.ToString()));
        var ids = state["techniques"]!.AsArray().Select(t => t!["id"]!.ToString()).ToList();
        Assert.Equal(ids.Order(StringComparer.Ordinal), ids);

        var listed = JsonNode.Parse(await host.Client.GetStringAsync("/api/garments?page=1&size=20", Cancel))!["items"]!.AsArray();
        Assert.Equal([third, second, first], listed.Select(i => i!["id"]!.ToString()));

        // What she goes back to is the version, whatever its time.
        using var back = new HttpRequestMessage(HttpMethod.Post, $"/api/garments/{first}/history/2/put-back");
        back.Headers.IfMatch.Add(new("\"5\""));
        var put = await host.Client.SendAsync(back, Cancel);
        Assert.True(put.IsSuccessStatusCode, await put.Content.ReadAsStringAsync(Cancel));
        Assert.Equal("before", JsonNode.Parse(await put.Content.ReadAsStringAsync(Cancel))!["description"]!.ToString());
    }

    [Fact]
    public async Task The_last_draft_is_the_one_kept_and_an_upload_goes_on_and_expires_in_its_time()
    {
        var clock = new Clock();
        await using var host = new ArchiveHost(postgres) { Instead = s => s.AddSingleton<TimeProvider>(clock) };
        await host.InitializeAsync();
        var garment = await Entered(host.Client, "Photographed");
        await host.Client.PutAsJsonAsync("/api/drafts/new-piece", new { name = "before" }, Cancel);
        var (going, left) = (await Begun(host.Client, garment, 100), await Begun(host.Client, garment, 100));
        clock.Back(TimeSpan.FromHours(1));
        await host.Client.PutAsJsonAsync("/api/drafts/new-piece", new { name = "after" }, Cancel);
        Assert.Equal("after", JsonNode.Parse(await host.Client.GetStringAsync("/api/drafts/new-piece", Cancel))!["name"]!.ToString());

        Assert.Equal(HttpStatusCode.NoContent, (await Sent(host.Client, HttpMethod.Patch, going, 0, new byte[60])).StatusCode);
        var stands = await Sent(host.Client, HttpMethod.Head, going);
        Assert.Equal("60", stands.Headers.GetValues("Upload-Offset").Single());
        var expires = DateTimeOffset.Parse(stands.Headers.GetValues("Upload-Expires").Single(), CultureInfo.InvariantCulture);
        Assert.True(expires > clock.GetUtcNow(), $"It expires at {expires}.");

        // One that nobody went on with lasts an hour longer at most, and then it goes.
        clock.Back(clock.GetUtcNow() - expires - TimeSpan.FromMinutes(61));
        Assert.Equal(HttpStatusCode.NotFound, (await Sent(host.Client, HttpMethod.Head, left)).StatusCode);
    }

    [Fact]
    public async Task Sessions_and_tokens_hold_nobody_waits_an_hour_and_the_book_keeps_its_order()
    {
        var clock = new Clock();
        await using var host = new ArchiveHost(postgres) { Instead = s => s.AddSingleton<TimeProvider>(clock), Settings = ["--Archive:Access=Accounts"] };
        await host.InitializeAsync();
        using var browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = host.Address };
        await Household.Post(browser, "/api/account/first", new JsonObject { ["code"] = host.Services.GetRequiredService<FirstOwner>().Code, ["name"] = "Orla", ["password"] = Household.Password });
        var token = (await Household.Post(browser, "/api/account/tokens", new JsonObject { ["name"] = "program", ["scopes"] = new JsonArray("read"), ["days"] = 1 }))["token"]!.ToString();
        for (var n = 0; n <= Delays.Free; n++) await SignIn(host.Client, "wrong, and wrong again");
        clock.Back(TimeSpan.FromHours(1));

        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/api/account/", Cancel)).StatusCode);
        using var program = new HttpRequestMessage(HttpMethod.Get, "/api/garments") { Headers = { Authorization = new("Bearer", token) } };
        Assert.Equal(HttpStatusCode.OK, (await host.Client.SendAsync(program, Cancel)).StatusCode);
        var waits = await SignIn(host.Client, Household.Password);
        Assert.Equal(HttpStatusCode.TooManyRequests, waits.StatusCode);
        Assert.InRange(waits.Headers.RetryAfter!.Delta!.Value, TimeSpan.Zero, TimeSpan.FromMinutes(1));

        await Household.Post(browser, "/api/account/invitations", new JsonObject { ["role"] = "pupil" });
        Assert.Equal(HttpStatusCode.NoContent, (await browser.PostAsync("/api/account/sign-out", null, Cancel)).StatusCode);
        clock.Back(-TimeSpan.FromMinutes(2));
        Assert.Equal(HttpStatusCode.OK, (await SignIn(browser, Household.Password)).StatusCode);
        var book = JsonNode.Parse(await browser.GetStringAsync("/api/account/book", Cancel))!["items"]!.AsArray().Select(l => l!["what"]!.ToString());
        Assert.Equal([Deeds.SignedIn, Deeds.SignedOut, Deeds.Invited, Deeds.MadeToken], book.Where(w => w != Deeds.Failed).Take(4));
    }

    [Fact]
    public void Ids_given_while_the_clock_goes_back_and_forth_are_all_different_and_rise()
    {
        var clock = new Clock();
        var ids = new List<Guid>();
        for (var n = 0; n < 5_000; n++)
        {
            ids.Add(clock.NewId(clock.GetUtcNow()));
            if (n % 1_000 == 999) clock.Back(TimeSpan.FromHours(n % 2_000 == 999 ? 1 : -1));
        }

        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.Equal(ids.OrderBy(i => i.ToString(), StringComparer.Ordinal), ids);
    }

    private static Task<HttpResponseMessage> SignIn(HttpClient client, string password) =>
        client.PostAsJsonAsync("/api/account/sign-in", new { name = "Orla", password }, Cancel);

    private static async Task<string> Entered(HttpClient client, string name)
    {
        var answer = await client.PostAsJsonAsync("/api/garments", new { name }, Cancel);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["id"]!.ToString();
    }

    private static Task Changed(HttpClient client, string id, int version, object patch) => Write(client, HttpMethod.Patch, "/api/garments/" + id, version, patch);

    private static Task Added(HttpClient client, string id, int version, string note) => Write(client, HttpMethod.Post, $"/api/garments/{id}/techniques", version, new { kind = "tucks", note });

    private static async Task Write(HttpClient client, HttpMethod method, string path, int version, object body)
    {
        using var request = new HttpRequestMessage(method, path) { Content = JsonContent.Create(body, MediaTypeHeaderValue.Parse(method == HttpMethod.Patch ? "application/merge-patch+json" : "application/json"), null) };
        request.Headers.IfMatch.Add(new($"\"{version.ToString(CultureInfo.InvariantCulture)}\""));
        var answer = await client.SendAsync(request, Cancel);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Cancel));
    }

    private static async Task<string> Begun(HttpClient client, string garment, int length)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/uploads");
        request.Headers.Add("Tus-Resumable", "1.0.0");
        request.Headers.Add("Upload-Length", length.ToString(CultureInfo.InvariantCulture));
        request.Headers.Add("Upload-Metadata", "garment " + Convert.ToBase64String(System.Text.Encoding.ASCII.GetBytes(garment)));
        var answer = await client.SendAsync(request, Cancel);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    private static async Task<HttpResponseMessage> Sent(HttpClient client, HttpMethod method, string path, int? offset = null, byte[]? part = null)
    {
        using var request = new HttpRequestMessage(method, path);
        request.Headers.Add("Tus-Resumable", "1.0.0");
        if (offset is { } at) request.Headers.Add("Upload-Offset", at.ToString(CultureInfo.InvariantCulture));
        if (part is not null) request.Content = new ByteArrayContent(part) { Headers = { ContentType = new("application/offset+octet-stream") } };
        return await client.SendAsync(request, Cancel);
    }

    private sealed class Clock : TimeProvider
    {
        private TimeSpan offset;

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() - offset;

        public void Back(TimeSpan time) => offset += time;
    }
}
