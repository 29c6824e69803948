using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>What lets somebody in is told once, kept as a digest, and runs out.</summary>
public sealed class KeptSecretsTests(PostgresServer postgres)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task No_table_holds_a_password_a_token_a_code_or_a_session_s_key()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        using var client = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = house.Host.Address };
        using var signedIn = await client.PostAsJsonAsync("/api/account/sign-in", new { name = "Kitty", password = Household.Password }, Stop);
        var key = signedIn.Headers.GetValues("Set-Cookie").Single().Split('=', 2)[1].Split(';')[0];
        var token = await Token(house, "a reader of this test", 3, "read");
        var invitation = (await Household.Post(house.As("owner"), "/api/account/invitations", new() { ["role"] = "pupil" }))["code"]!.ToString();
        var recovery = (await Household.Post(house.As("keeper"), "/api/account/recovery-codes", new() { ["old"] = Household.Password }))["codes"]![0]!.ToString();
        Assert.Equal(43, key.Length);
        foreach (var secret in new[] { Household.Password, key, token, token["heirloom_".Length..], invitation, recovery }) Assert.Empty(await Holding(house.Host, secret));
        Assert.Equal(["account_token", "account_book"], (await Holding(house.Host, "a reader of this test")).Select(t => t["mt_doc_".Length..]).OrderDescending());
    }

    [Fact]
    public async Task A_token_an_invitation_and_a_session_run_out()
    {
        var clock = new ShiftedClock();
        await using var house = new Household(postgres) { Instead = services => services.AddSingleton<TimeProvider>(clock) };
        await house.InitializeAsync();
        using var program = house.New();
        program.DefaultRequestHeaders.Authorization = new("Bearer", await Token(house, "for a day", 1, "read"));
        var code = (await Household.Post(house.As("owner"), "/api/account/invitations", new() { ["role"] = "pupil", ["days"] = 1 }))["code"]!.ToString();
        Assert.Equal(HttpStatusCode.OK, await Get(program, "/api/lessons"));

        // After a while a browser left open makes no other way in; signing in again does.
        clock.Later = TimeSpan.FromMinutes(20);
        async Task<HttpStatusCode> Another() => (await house.As("helper").PostAsJsonAsync("/api/account/tokens", new { name = "another", scopes = new[] { "read" } }, Stop)).StatusCode;
        Assert.Equal(HttpStatusCode.UnprocessableEntity, await Another());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await house.As("helper").PostAsync("/api/account/passkeys/options", null, Stop)).StatusCode);
        await Household.Post(house.As("helper"), "/api/account/sign-in", new() { ["name"] = "Hester", ["password"] = Household.Password });
        Assert.Equal(HttpStatusCode.Created, await Another());

        clock.Later = TimeSpan.FromHours(25);
        Assert.Equal(HttpStatusCode.Unauthorized, await Get(program, "/api/lessons"));
        using (var late = house.New())
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await late.PostAsJsonAsync("/api/account/join", new { code, name = "Late", password = Household.Password }, Stop)).StatusCode);
        }

        // Used every week her session goes on, but not beyond sixty days; unused it ends after fourteen.
        for (var day = 7; day <= 56; day += 7)
        {
            clock.Later = TimeSpan.FromDays(day);
            Assert.Equal(HttpStatusCode.OK, await Get(house.As("keeper"), "/api/account"));
            if (day == 7) Assert.Equal(HttpStatusCode.OK, await Get(house.As("pupil"), "/api/account"));
            if (day == 28) Assert.Equal(HttpStatusCode.Unauthorized, await Get(house.As("pupil"), "/api/account"));
        }

        clock.Later = TimeSpan.FromDays(61);
        Assert.Equal(HttpStatusCode.Unauthorized, await Get(house.As("keeper"), "/api/account"));
    }

    [Fact]
    public async Task A_token_may_no_more_than_its_person_may_now_and_only_what_its_scopes_say()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        using var program = house.New();
        program.DefaultRequestHeaders.Authorization = new("Bearer", await Token(house, "writes", 3, "change"));
        Assert.Equal(HttpStatusCode.Created, await Enter(program));
        Assert.Equal(HttpStatusCode.Forbidden, await Get(program, "/api/garments"));
        foreach (var way in new[] { "/api/account", "/api/account/tokens", "/api/account/people", "/api/account/book" }) Assert.Equal(HttpStatusCode.Forbidden, await Get(program, way));

        var kitty = JsonNode.Parse(await house.As("owner").GetStringAsync("/api/account/people", Stop))!["items"]!.AsArray().Single(p => p!["name"]!.ToString() == "Kitty")!["id"];
        await house.As("owner").PutAsJsonAsync($"/api/account/people/{kitty}", new { role = "pupil" }, Stop);
        Assert.Equal(HttpStatusCode.Forbidden, await Enter(program));
        await house.As("owner").DeleteAsync($"/api/account/people/{kitty}", Stop);
        Assert.Equal(HttpStatusCode.Unauthorized, await Enter(program));

        program.DefaultRequestHeaders.Authorization = new("Bearer", "heirloom_" + new string('A', 43));
        Assert.Equal(HttpStatusCode.Unauthorized, await Get(program, "/api/lessons"));
    }

    [Fact]
    public async Task The_owner_ends_all_sessions_of_somebody_who_may_sign_in_again()
    {
        await using var house = new Household(postgres);
        await house.InitializeAsync();
        var polly = JsonNode.Parse(await house.As("owner").GetStringAsync("/api/account/people", Stop))!["items"]!.AsArray().Single(p => p!["name"]!.ToString() == "Polly")!["id"];
        Assert.Equal(HttpStatusCode.NoContent, (await house.As("owner").DeleteAsync($"/api/account/people/{polly}/sessions", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, await Get(house.As("pupil"), "/api/account"));
        await Household.Post(house.As("pupil"), "/api/account/sign-in", new() { ["name"] = "Polly", ["password"] = Household.Password });
        Assert.Equal(HttpStatusCode.OK, await Get(house.As("pupil"), "/api/account"));
        Assert.Equal(HttpStatusCode.Forbidden, (await house.As("pupil").DeleteAsync($"/api/account/people/{polly}/sessions", Stop)).StatusCode);
    }

    [Theory]
    [InlineData("heirloomarchive")]
    [InlineData("Heirloom-Archive-2026")]
    [InlineData("owner's password")]
    [InlineData("PupilPupil123")]
    public void A_password_made_of_this_place_s_own_words_is_refused(string password) => Assert.NotNull(Web.Accounts.PasswordRules.Fault(password, "Ada"));

    [Theory]
    [InlineData("83920174650192")]
    [InlineData("heirloom drifts under lamps")]
    [InlineData("   spaces   and   ünïcödé   ")]
    [InlineData("a passphrase of more than sixty-four characters, which some who wrote rules long ago did not allow")]
    public void Any_characters_and_any_length_will_do(string password) => Assert.Null(Web.Accounts.PasswordRules.Fault(password, "Ada"));

    private static async Task<string> Token(Household house, string name, int days, params string[] scopes) =>
        (await Household.Post(house.As("keeper"), "/api/account/tokens", new() { ["name"] = name, ["days"] = days, ["scopes"] = new JsonArray([.. scopes.Select(s => JsonValue.Create(s))]) }))["token"]!.ToString();

    private static async Task<HttpStatusCode> Get(HttpClient client, string path) => (await client.GetAsync(path, Stop)).StatusCode;

    private static async Task<HttpStatusCode> Enter(HttpClient client) => (await client.PostAsJsonAsync("/api/garments", new { name = "Bonnet" }, Stop)).StatusCode;

    /// <summary>The tables in which a text stands.</summary>
    private static async Task<List<string>> Holding(ArchiveHost host, string text)
    {
        await using var source = NpgsqlDataSource.Create(host.ConnectionString);
        var (tables, holding) = (new List<string>(), new List<string>());
        await using (var list = source.CreateCommand("SELECT table_schema || '.' || table_name FROM information_schema.tables WHERE table_schema NOT IN ('pg_catalog', 'information_schema') AND table_type = 'BASE TABLE'"))
        await using (var rows = await list.ExecuteReaderAsync(Stop))
        {
            while (await rows.ReadAsync(Stop)) tables.Add(rows.GetString(0));
        }

        Assert.True(tables.Count > 15);
        foreach (var table in tables)
        {
            await using var search = source.CreateCommand($"SELECT count(*) FROM {table} t WHERE position($1 IN t::text) > 0");
            search.Parameters.AddWithValue(text);
            if ((long)(await search.ExecuteScalarAsync(Stop))! > 0) holding.Add(table.Split('.')[1]);
        }

        return holding;
    }

    private sealed class ShiftedClock : TimeProvider
    {
        public TimeSpan Later { get; set; }

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Later;
    }
}
