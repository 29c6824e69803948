using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Hosting;

/// <summary>What the real program writes into its log, and what it does not.</summary>
[Collection("Processes")]
public sealed partial class LogTests(PostgresServer postgres) : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task At_debug_level_no_secret_is_in_it()
    {
        const string Owner = "nine quillets under the marlpit", Joined = "seven quillets over the marlpit", Wrong = "wrong quillets at the marlpit", Recovered = "four quillets by the marlpit";
        var database = await postgres.NewDatabase();
        var secrets = new Dictionary<string, string>
        {
            ["the owner's password"] = Owner, ["the password of who joined"] = Joined, ["a wrong password"] = Wrong, ["the password after recovery"] = Recovered,
            ["the database's password"] = new NpgsqlConnectionStringBuilder(database).Password!,
        };
        await using var archive = await Start(database, "Debug", "--Logging:LogLevel:Npgsql=Debug", "--Logging:LogLevel:Microsoft.AspNetCore.DataProtection=Debug");
        var code = secrets["the first owner's code"] = await FirstCode(archive);

        using var owner = Browser(archive, out var cookies);
        await Household.Post(owner, "/api/account/first", new() { ["code"] = code, ["name"] = "Orla", ["password"] = Owner });
        secrets["a session's key"] = Value(cookies, archive, "session");
        secrets["an invitation"] = (await Household.Post(owner, "/api/account/invitations", new() { ["role"] = "keeper" }))["code"]!.ToString();
        using var keeper = Browser(archive, out var hers);
        await keeper.GetStringAsync(new Uri("/account/join?code=" + secrets["an invitation"], UriKind.Relative), Cancel);
        await Household.Post(keeper, "/api/account/join", new() { ["code"] = secrets["an invitation"], ["name"] = "Kitty", ["password"] = Joined });
        secrets["another session's key"] = Value(hers, archive, "session");

        using (await keeper.PostAsJsonAsync("/api/account/sign-in", new { name = "Kitty", password = Wrong }, Cancel)) { }
        using (await keeper.PostAsJsonAsync("/api/account/first", new { code = secrets["an invitation"], name = "Kitty", password = Wrong }, Cancel)) { }
        await SignInByForm(archive, Wrong, secrets);

        var token = await Household.Post(keeper, "/api/account/tokens", JsonNode.Parse("""{"name":"reader","scopes":["read"],"days":3}""")!.AsObject());
        secrets["a token"] = token["token"]!.ToString();
        using var program = new HttpClient { BaseAddress = archive.Address };
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", secrets["a token"]);
        using (await program.GetAsync(new Uri("/api/garments", UriKind.Relative), Cancel)) { }

        using (var options = await keeper.PostAsync(new Uri("/api/account/passkeys/options", UriKind.Relative), null, Cancel))
            secrets["a passkey's question"] = JsonNode.Parse(await options.Content.ReadAsStringAsync(Cancel))!["challenge"]!.ToString();
        using (await keeper.PostAsJsonAsync("/api/account/passkeys", new { name = "key", credential = new { id = "none" } }, Cancel)) { }
        using (await keeper.PostAsJsonAsync("/api/account/sign-in/passkey", new { credential = new { id = "none" } }, Cancel)) { }

        var codes = (await Household.Post(keeper, "/api/account/recovery-codes", new() { ["old"] = Joined }))["codes"]!.AsArray();
        for (var i = 0; i < codes.Count; i++) secrets[$"recovery code {i}"] = codes[i]!.ToString();
        using var lost = Browser(archive, out _);
        await Household.Post(lost, "/api/account/recover", new() { ["name"] = "Kitty", ["code"] = codes[2]!.ToString(), ["password"] = Recovered });
        using (await lost.PutAsJsonAsync("/api/account/password", new { old = Wrong, password = Owner + " again" }, Cancel)) { }

        // That code is printed for her on purpose, once; it is not in the log.
        var log = (await EndOf(archive)).Replace($"and enter this code: {code}", "", StringComparison.Ordinal);
        Assert.True(log.Split('\n').Length > 300, log);
        Assert.Contains("\"LogLevel\":\"Debug\"", log, StringComparison.Ordinal);
        Assert.Contains("Npgsql", log, StringComparison.Ordinal);
        Assert.True(secrets.Count >= 19);
        foreach (var (what, secret) in secrets)
            Assert.False(secret.Length < 8 || log.Contains(secret, StringComparison.OrdinalIgnoreCase) || log.Contains(Uri.EscapeDataString(secret), StringComparison.OrdinalIgnoreCase), $"{what} is in the log: {Around(log, secret)}");
    }

    [Fact]
    public async Task A_database_that_refuses_its_password_is_reported_without_it()
    {
        var wrong = new NpgsqlConnectionStringBuilder(await postgres.NewDatabase()) { Password = "quillet-and-marlpit" }.ConnectionString;
        await using var archive = RunningArchive.Start(folder.Path, ["--Archive:Folder=" + folder.Path, "--ConnectionStrings:Archive=" + wrong, "--Logging:LogLevel:Default=Debug"]);
        Assert.Equal(1, await archive.Code(Backups.Kept.Soon));
        Assert.Contains("ConnectionStrings:Archive cannot be used", archive.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("quillet-and-marlpit", archive.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task At_information_level_it_tells_requests_by_id_and_route_and_nobody_s_name()
    {
        await using var archive = await Start(await postgres.NewDatabase(), "Information", "--Logging:LogLevel:Npgsql=Information", "--Archive:Proxies=127.0.0.1");
        // Behind a proxy with https, which tells where she comes from; her cookie is carried by hand, as it goes by https alone.
        using var owner = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = archive.Address };
        owner.DefaultRequestHeaders.Add("X-Forwarded-For", "203.0.113.77");
        owner.DefaultRequestHeaders.Add("X-Forwarded-Proto", "https");
        using (var first = await owner.PostAsJsonAsync("/api/account/first", new { code = await FirstCode(archive), name = "Orlaquill", password = Household.Password }, Cancel))
            owner.DefaultRequestHeaders.Add("Cookie", string.Join("; ", first.Headers.GetValues("Set-Cookie").Select(c => c.Split(';')[0])));
        var piece = await Backups.Kept.Enter(owner, JsonNode.Parse("""{"number":"Q-771","name":"Gown zephyrquill","maker":{"text":"Philippa Wrenquill"},"acquired":{"from":"marlquill@example.org"}}""")!);
        await Backups.Kept.Upload(owner, piece["id"]!.ToString(), Made.Png());
        foreach (var way in new[] { "/", "/pieces", $"/pieces/{piece["id"]}", "/api/search?q=zephyrquill", "/examples?q=zephyrquill", "/account", "/account/book", "/pieces?place=marlquill", "/nowhere/zephyrquill", "/api/garments?page=zephyrquill" })
            using (await owner.GetAsync(new Uri(way, UriKind.Relative), Cancel)) { }
        await owner.PutAsJsonAsync("/api/drafts/pieces-new", new { name = "Draft zephyrquill" }, Cancel);
        using var one = await owner.GetAsync(new Uri($"/api/garments/{piece["id"]}", UriKind.Relative), Cancel);
        var id = one.Headers.GetValues("X-Request-Id").Single();
        using var missing = await owner.GetAsync(new Uri($"/api/garments/{Guid.NewGuid()}", UriKind.Relative), Cancel);
        Assert.Equal(missing.Headers.GetValues("X-Request-Id").Single(), JsonNode.Parse(await missing.Content.ReadAsStringAsync(Cancel))!["traceId"]!.ToString());

        var log = await EndOf(archive);
        var lines = log.Split('\n').Where(l => l.StartsWith('{')).Select(l => JsonNode.Parse(l)!).ToList();
        var line = lines.Single(l => l["Category"]!.ToString().EndsWith("RequestLog", StringComparison.Ordinal) && l["Scopes"]!.ToJsonString().Contains(id, StringComparison.Ordinal));
        Assert.Equal("GET", line["State"]!["Method"]!.ToString());
        Assert.Equal("/api/garments/{id:guid}", line["State"]!["Route"]!.ToString());
        Assert.Equal(200, line["State"]!["Status"]!.GetValue<int>());
        var refused = missing.Headers.GetValues("X-Request-Id").Single();
        line = lines.Single(l => l["Category"]!.ToString().EndsWith("RequestLog", StringComparison.Ordinal) && l["Scopes"]!.ToJsonString().Contains(refused, StringComparison.Ordinal));
        Assert.Equal(("/api/garments/{id:guid}", 404), (line["State"]!["Route"]!.ToString(), line["State"]!["Status"]!.GetValue<int>()));
        Assert.True(lines.Count(l => l["LogLevel"]!.ToString() == "Information") > 15);
        foreach (var personal in new[] { "zephyrquill", "Orlaquill", "Wrenquill", "marlquill", "203.0.113.77", "Q-771" })
            Assert.False(log.Contains(personal, StringComparison.OrdinalIgnoreCase), Around(log, personal));
    }

    private Task<RunningArchive> Start(string database, string level, params string[] besides) => RunningArchive.Start(folder.Path,
        ["--Archive:Folder=" + folder.Path, "--ConnectionStrings:Archive=" + database, "--Archive:Access=Accounts", "--Logging:LogLevel:Default=" + level, .. besides]).Ready();

    // The log is written behind: all of it is there once the program has ended.
    private static async Task<string> EndOf(RunningArchive archive)
    {
        RunningArchive.Signal("TERM", archive.Id);
        await archive.Code(Backups.Kept.Soon);
        return archive.Said;
    }

    private static async Task SignInByForm(RunningArchive archive, string password, Dictionary<string, string> secrets)
    {
        using var browser = Browser(archive, out var cookies);
        var page = await browser.GetStringAsync(new Uri("/account/sign-in", UriKind.Relative), Cancel);
        secrets["a form's mark"] = FormMark().Match(page).Groups[1].Value;
        secrets["a form's cookie"] = Value(cookies, archive, "form");
        using var form = new FormUrlEncodedContent(new Dictionary<string, string> { ["__RequestVerificationToken"] = secrets["a form's mark"], ["name"] = "Kitty", ["password"] = password, ["Name"] = "Kitty", ["Password"] = password });
        using (await browser.PostAsync(new Uri("/account/sign-in", UriKind.Relative), form, Cancel)) { }
    }

    private static HttpClient Browser(RunningArchive archive, out CookieContainer cookies)
    {
        cookies = new CookieContainer();
        return new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = cookies }) { BaseAddress = archive.Address };
    }

    private static string Value(CookieContainer cookies, RunningArchive archive, string name) =>
        cookies.GetCookies(archive.Address).Single(c => c.Name.EndsWith("heirloom-" + name, StringComparison.Ordinal)).Value;

    private static async Task<string> FirstCode(RunningArchive archive)
    {
        await Wait.Until(() => CodeSaid().IsMatch(archive.Said), "it says the first owner's code");
        return CodeSaid().Match(archive.Said).Groups[1].Value;
    }

    private static string Around(string log, string found)
    {
        var at = log.IndexOf(found, StringComparison.OrdinalIgnoreCase);
        return at < 0 ? "" : log[Math.Max(0, at - 300)..Math.Min(log.Length, at + 200)];
    }

    [GeneratedRegex("enter this code: (\\S+)")]
    private static partial Regex CodeSaid();

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex FormMark();
}
