using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>PostgreSQL goes away under the running service: what is asked meanwhile, and that all is well afterwards by itself.</summary>
[Collection("Processes")]
public sealed partial class OutageTests : IDisposable
{
    // How long it stays away. The design says thirty seconds; nothing in the service counts them, so ten tell the same.
    private static readonly TimeSpan Away = TimeSpan.FromSeconds(10);
    private readonly TemporaryFolder folder = new(), server = new();

    public void Dispose()
    {
        folder.Dispose();
        server.Dispose();
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_postgres_of_her_own_stops_for_ten_seconds_and_nothing_is_lost()
    {
        await using var postgres = await EmbeddedPostgres.Start(server.Path, cancel: Cancel);
        await using var archive = await RunningArchive.Start(folder.Path, Arguments(postgres.ConnectionString)).Ready();
        using var browser = Browser(archive);
        var before = await Enter(archive.Client, "O-1", "Nightgown of longcloth");
        var form = await browser.GetStringAsync("/pieces/new", Cancel);

        RunningArchive.Signal("INT", PostmasterId(server.Path));
        await postgres.Ended.WaitAsync(TimeSpan.FromSeconds(10), Cancel);
        var clock = Stopwatch.StartNew();

        await SaysItIsAway(archive.Client, HttpMethod.Get, "/api/garments/" + before);
        await SaysItIsAway(archive.Client, HttpMethod.Post, "/api/garments", new { name = "Not kept" });
        await SaysItIsAway(archive.Client, HttpMethod.Get, "/health/ready");
        Assert.Equal("live", await archive.Client.GetStringAsync("/health/live", Cancel));
        Assert.Equal(1, await Found(archive.Client, "longcloth"));   // finding asks its index, not PostgreSQL

        var page = await browser.GetAsync("/pieces/" + before, Cancel);
        await IsPlainPage(page);
        var refused = await Post(browser, "/pieces/new", [.. Hidden(form), new("name", "Cap with <b> & \"quotes\""), new("number", "O-2"), new("again", "")]);
        var held = await IsPlainPage(refused);
        Assert.Contains("held on this page", held, StringComparison.Ordinal);
        Assert.Contains("Cap with &lt;b&gt; &amp; &quot;quotes&quot;", held, StringComparison.Ordinal);

        while (clock.Elapsed < Away)
        {
            await SaysItIsAway(archive.Client, HttpMethod.Get, "/api/garments/" + before);
            await Task.Delay(500, Cancel);
        }

        await postgres.StartAgain(Cancel);
        await archive.Ready();
        Assert.Equal(HttpStatusCode.OK, (await archive.Client.GetAsync("/api/garments/" + before, Cancel)).StatusCode);

        // What was held is sent again from the page that held it, and nothing else was kept meanwhile.
        var kept = await Post(browser, Action(held), Hidden(held));
        Assert.True(kept.StatusCode == HttpStatusCode.Redirect, $"{Action(held)}: {(int)kept.StatusCode} {await kept.Content.ReadAsStringAsync(Cancel)} {archive.Said}");
        Assert.Equal("Cap with <b> & \"quotes\"", (await Piece(archive.Client, kept.Headers.Location!.ToString().Split('/')[^1].Split('#')[0]))["name"]!.ToString());
        Assert.Equal(2, JsonNode.Parse(await archive.Client.GetStringAsync("/api/garments?page=1&size=1", Cancel))!["total"]!.GetValue<int>());
        await Follows(archive, postgres.ConnectionString);
    }

    [Fact]
    public async Task Who_has_signed_in_gets_a_page_in_plain_words_and_is_still_signed_in_afterwards()
    {
        await using var postgres = await EmbeddedPostgres.Start(server.Path, cancel: Cancel);
        await using var archive = await RunningArchive.Start(folder.Path, [.. Arguments(postgres.ConnectionString), "--Archive:Access=Accounts"]).Ready();
        await Wait.Until(() => FirstCode().IsMatch(archive.Said), "it says the first owner's code");
        using var browser = Browser(archive);
        var first = await browser.PostAsJsonAsync("/api/account/first", new { code = FirstCode().Match(archive.Said).Groups[1].Value, name = "Orla", password = Household.Password }, Cancel);
        Assert.True(first.IsSuccessStatusCode, await first.Content.ReadAsStringAsync(Cancel));
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/pieces", Cancel)).StatusCode);

        RunningArchive.Signal("KILL", PostmasterId(server.Path));
        await postgres.Ended.WaitAsync(TimeSpan.FromSeconds(10), Cancel);
        Assert.DoesNotContain(server.Path, await IsPlainPage(await browser.GetAsync("/pieces", Cancel)), StringComparison.Ordinal);
        await SaysItIsAway(browser, HttpMethod.Get, "/api/garments");

        await postgres.StartAgain(Cancel);
        await archive.Ready();
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/pieces", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Its_own_postgres_that_ends_is_started_again_by_the_service_itself()
    {
        await using var archive = await RunningArchive.Start(folder.Path).Ready();
        var before = await Enter(archive.Client, "O-1", "Nightgown of longcloth");
        foreach (var (signal, times) in new[] { ("KILL", 1), ("INT", 2) })
        {
            var ended = archive.PostgresId;
            RunningArchive.Signal(signal, ended);
            await Wait.Until(() => archive.Said.Split("PostgreSQL runs again").Length > times, "it says that PostgreSQL runs again");
            await archive.Ready();
            Assert.Contains("PostgreSQL has ended by itself", archive.Said, StringComparison.Ordinal);
            Assert.NotEqual(ended, archive.PostgresId);
            Assert.Equal("Nightgown of longcloth", (await Piece(archive.Client, before))["name"]!.ToString());
        }

        await Follows(archive, await File.ReadAllTextAsync(EmbeddedPostgres.ConnectionFile(folder.Path), Cancel));
        RunningArchive.Signal("TERM", archive.Id);
        Assert.Equal(0, await archive.Code(TimeSpan.FromSeconds(10)));
        Assert.False(File.Exists(archive.PostmasterFile), archive.Said);
    }

    [Fact]
    public async Task A_postgres_that_hangs_is_not_waited_for_without_end()
    {
        await using var postgres = await EmbeddedPostgres.Start(server.Path, cancel: Cancel);
        await using var archive = await RunningArchive.Start(folder.Path, Arguments(postgres.ConnectionString + ";Command Timeout=3;Timeout=3")).Ready();
        var before = await Enter(archive.Client, "O-1", "Nightgown of longcloth");
        int[] all = [PostmasterId(server.Path), .. RunningArchive.Children(PostmasterId(server.Path))];
        RunningArchive.Signal("STOP", all);
        try
        {
            await SaysItIsAway(archive.Client, HttpMethod.Get, "/api/garments/" + before);
            await SaysItIsAway(archive.Client, HttpMethod.Post, "/api/garments", new { name = "Perhaps" });
        }
        finally
        {
            RunningArchive.Signal("CONT", all);
        }

        await archive.Ready();
        Assert.Equal("Nightgown of longcloth", (await Piece(archive.Client, before))["name"]!.ToString());
        await Follows(archive, postgres.ConnectionString);
    }

    // A save afterwards is found, and the position up to which all is known for certain comes to the newest event: everybody's index follows that.
    private static async Task Follows(RunningArchive archive, string database)
    {
        var id = await Enter(archive.Client, "O-9", "Sacque of dimity");
        Assert.Equal(1, await Found(archive.Client, "sacque dimity"));
        Assert.Equal("Sacque of dimity", (await Piece(archive.Client, id))["name"]!.ToString());
        await using var source = NpgsqlDataSource.Create(database);
        var clock = Stopwatch.StartNew();
        while (true)
        {
            await using var command = source.CreateCommand("select coalesce((select last_seq_id from archive_events.mt_event_progression where name = 'HighWaterMark'), 0) >= (select max(seq_id) from archive_events.mt_events)");
            if (await command.ExecuteScalarAsync(Cancel) is true) return;
            Assert.True(clock.Elapsed < TimeSpan.FromMinutes(1), $"The record's mark does not follow. It said: {archive.Said}");
            await Task.Delay(100, Cancel);
        }
    }

    private static async Task SaysItIsAway(HttpClient client, HttpMethod method, string path, object? body = null)
    {
        var clock = Stopwatch.StartNew();
        using var request = new HttpRequestMessage(method, path) { Content = body is null ? null : JsonContent.Create(body) };
        var answer = await client.SendAsync(request, Cancel);
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.ServiceUnavailable, $"{method} {path}: {(int)answer.StatusCode} {text}");
        Assert.NotNull(answer.Headers.RetryAfter?.Delta);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains("database does not answer", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Npgsql", text, StringComparison.Ordinal);
        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(30));
    }

    private static async Task<string> IsPlainPage(HttpResponseMessage answer)
    {
        var page = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.ServiceUnavailable, $"{(int)answer.StatusCode} {page}");
        Assert.NotNull(answer.Headers.RetryAfter?.Delta);
        Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        Assert.True(answer.Headers.Contains("Content-Security-Policy"));
        Assert.Contains("database does not answer", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Npgsql", page, StringComparison.Ordinal);
        return page;
    }

    private static async Task<string> Enter(HttpClient client, string number, string name)
    {
        var answer = await client.PostAsJsonAsync("/api/garments", new { number, name }, Cancel);
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return JsonNode.Parse(text)!["id"]!.ToString();
    }

    private static async Task<JsonNode> Piece(HttpClient client, string id) => JsonNode.Parse(await client.GetStringAsync("/api/garments/" + id, Cancel))!;

    private static async Task<int> Found(HttpClient client, string words) =>
        JsonNode.Parse(await client.GetStringAsync("/api/search?q=" + Uri.EscapeDataString(words), Cancel))!["total"]!.GetValue<int>();

    private static async Task<HttpResponseMessage> Post(HttpClient browser, string path, IEnumerable<KeyValuePair<string, string>> fields)
    {
        using var form = new FormUrlEncodedContent(fields);
        return await browser.PostAsync(path, form, Cancel);
    }

    private static IEnumerable<KeyValuePair<string, string>> Hidden(string page) =>
        HiddenInput().Matches(page).Select(m => KeyValuePair.Create(WebUtility.HtmlDecode(Attribute("name").Match(m.Value).Groups[1].Value), WebUtility.HtmlDecode(Attribute("value").Match(m.Value).Groups[1].Value)));

    private static string Action(string page) => WebUtility.HtmlDecode(PostForm().Match(page).Groups[1].Value);

    private static Regex Attribute(string name) => new($" {name}=\"([^\"]*)\"", RegexOptions.CultureInvariant);

    private static HttpClient Browser(RunningArchive archive)
    {
        var browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = archive.Address };
        browser.DefaultRequestHeaders.Accept.Add(new MediaTypeWithQualityHeaderValue("text/html"));
        browser.DefaultRequestHeaders.Accept.Add(new MediaTypeWithQualityHeaderValue("*/*", 0.8));
        return browser;
    }

    private string[] Arguments(string database) => ["--Archive:Folder=" + folder.Path, "--ConnectionStrings:Archive=" + database];

    private static int PostmasterId(string folder) => int.Parse(File.ReadLines(Path.Combine(folder, "pg18", "postmaster.pid")).First(), CultureInfo.InvariantCulture);

    [GeneratedRegex("<input[^>]*type=\"hidden\"[^>]*>")]
    private static partial Regex HiddenInput();

    [GeneratedRegex("<form class=\"sheet\" method=\"post\" action=\"([^\"]*)\"")]
    private static partial Regex PostForm();

    [GeneratedRegex("enter this code: (\\S+)")]
    private static partial Regex FirstCode();
}
