using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>Coming in, going out, and that nobody gets at what is another's.</summary>
public sealed class AccountTests(Household house, PostgresServer postgres) : IClassFixture<Household>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_first_owner_s_code_is_good_once()
    {
        var code = ((Web.Accounts.FirstOwner)house.Host.Services.GetService(typeof(Web.Accounts.FirstOwner))!).Code;
        using var client = house.New();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PostAsJsonAsync("/api/account/first", new { code, name = "Second", password = Household.Password }, Stop)).StatusCode);
    }

    [Theory]
    [InlineData("eleven char")]
    [InlineData("passwordpassword")]
    [InlineData("Password2026!")]
    [InlineData("qwertyuiopasdf")]
    [InlineData("123456789012")]
    [InlineData("abcabcabcabcabc")]
    [InlineData("1qaz2wsx3edc")]
    [InlineData("aaaaaaaaaaaaaaaa")]
    public void A_password_that_anybody_would_try_is_refused(string password) => Assert.NotNull(Web.Accounts.PasswordRules.Fault(password, "Ada"));

    [Theory]
    [InlineData("correct lamp nainsook ninth")]
    [InlineData("alllowercasewithoutanyfigure")]
    public void Which_characters_it_has_is_hers_to_choose(string password) => Assert.Null(Web.Accounts.PasswordRules.Fault(password, "Ada"));

    [Fact]
    public async Task An_invitation_is_good_once_and_a_name_is_one_person_s()
    {
        var invitation = await Household.Post(house.As("owner"), "/api/account/invitations", new() { ["role"] = "pupil" });
        var code = invitation["code"]!.ToString();
        using var client = house.New();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PostAsJsonAsync("/api/account/join", new { code, name = "polly", password = Household.Password }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PostAsJsonAsync("/api/account/join", new { code, name = "Owner", password = Household.Password }, Stop)).StatusCode);
        await Household.Post(client, "/api/account/join", new() { ["code"] = code.ToUpperInvariant().Replace("-", " ", StringComparison.Ordinal), ["name"] = "Prue", ["password"] = Household.Password });
        using var second = house.New();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await second.PostAsJsonAsync("/api/account/join", new { code, name = "Again", password = Household.Password }, Stop)).StatusCode);
    }

    [Fact]
    public async Task An_unknown_name_and_a_wrong_password_get_the_same_answer_and_waiting_is_for_the_pair_alone()
    {
        using var client = house.New();
        async Task<(HttpStatusCode, string)> SignIn(string name, string password)
        {
            using var answer = await client.PostAsJsonAsync("/api/account/sign-in", new { name, password }, Stop);
            var text = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Stop))!;
            if (answer.StatusCode == HttpStatusCode.TooManyRequests) Assert.True(answer.Headers.RetryAfter!.Delta > TimeSpan.Zero);
            return (answer.StatusCode, text["detail"]!.ToString());
        }

        var known = await SignIn("Kitty", "wrong wrong wrong");
        Assert.Equal(HttpStatusCode.Unauthorized, known.Item1);
        Assert.Equal(known, await SignIn("Nobody of this name", "wrong wrong wrong"));
        for (var i = 0; i < 5; i++) await SignIn("Hester", "wrong wrong wrong");
        var (status, why) = await SignIn("Hester", Household.Password);
        Assert.Equal(HttpStatusCode.TooManyRequests, status);
        Assert.Contains("wait", why, StringComparison.Ordinal);
        // Her session goes on, and another name from the same place is asked at once.
        Assert.Equal(HttpStatusCode.OK, (await house.As("helper").GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await SignIn("Polly", "wrong wrong wrong")).Item1);
    }

    [Fact]
    public async Task Sessions_are_seen_and_ended_and_those_of_others_are_not_there()
    {
        using var first = await house.Join("pupil", "Sal");
        using var second = house.New();
        await Household.Post(second, "/api/account/sign-in", new() { ["name"] = "sal", ["password"] = Household.Password });
        var sessions = (await Get(first, "/api/account/sessions"))["items"]!.AsArray();
        Assert.Equal(2, sessions.Count);
        var other = sessions.Single(s => !s!["this"]!.GetValue<bool>())!["id"]!.ToString();
        Assert.Equal(HttpStatusCode.NotFound, (await house.As("owner").DeleteAsync(new Uri($"/api/account/sessions/{other}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await first.DeleteAsync(new Uri($"/api/account/sessions/{other}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await second.GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await first.PostAsync(new Uri("/api/account/sign-out", UriKind.Relative), null, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await first.GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
    }

    [Fact]
    public async Task A_password_is_changed_by_the_old_one_and_ends_the_other_sessions()
    {
        using var client = await house.Join("pupil", "Nell");
        using var other = house.New();
        await Household.Post(other, "/api/account/sign-in", new() { ["name"] = "Nell", ["password"] = Household.Password });
        const string fresh = "quite another one for Nell's sake";
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PutAsJsonAsync("/api/account/password", new { password = fresh }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PutAsJsonAsync("/api/account/password", new { old = "not hers at all", password = fresh }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await client.PutAsJsonAsync("/api/account/password", new { old = Household.Password, password = fresh }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/account", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await other.GetAsync("/api/account", Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await other.PostAsJsonAsync("/api/account/sign-in", new { name = "Nell", password = Household.Password }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await other.PostAsJsonAsync("/api/account/sign-in", new { name = "Nell", password = fresh }, Stop)).StatusCode);
    }

    [Fact]
    public async Task Signing_in_again_makes_a_new_key_and_ends_the_former()
    {
        using var client = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = house.Host.Address };
        async Task<string> SignIn(string? former)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/account/sign-in") { Content = JsonContent.Create(new { name = "Kitty", password = Household.Password }) };
            if (former is not null) request.Headers.Add("Cookie", former);
            using var answer = await client.SendAsync(request, Stop);
            return answer.Headers.GetValues("Set-Cookie").Single().Split(';')[0];
        }

        async Task<HttpStatusCode> Me(string cookie)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/api/account");
            request.Headers.Add("Cookie", cookie);
            return (await client.SendAsync(request, Stop)).StatusCode;
        }

        var first = await SignIn(null);
        Assert.Equal(HttpStatusCode.OK, await Me(first));
        var second = await SignIn(first);
        Assert.NotEqual(first, second);
        Assert.Equal(HttpStatusCode.OK, await Me(second));
        Assert.Equal(HttpStatusCode.Unauthorized, await Me(first));
    }

    [Fact]
    public async Task A_recovery_code_lets_in_once_with_a_new_password_and_ends_the_other_sessions()
    {
        using var client = await house.Join("pupil", "Rhoda");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await client.PostAsJsonAsync("/api/account/recovery-codes", new { old = "not hers at all" }, Stop)).StatusCode);
        var codes = (await Household.Post(client, "/api/account/recovery-codes", new() { ["old"] = Household.Password }))["codes"]!.AsArray();
        Assert.Equal(10, codes.Count);
        using var other = house.New();
        await Household.Post(other, "/api/account/recover", new() { ["name"] = "Rhoda", ["code"] = codes[3]!.ToString(), ["password"] = "a wholly new one for Rhoda's sake" });
        Assert.Equal(9, (await Get(other, "/api/account"))["recoveryCodes"]!.GetValue<int>());
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await other.PostAsJsonAsync("/api/account/recover", new { name = "Rhoda", code = codes[3]!.ToString(), password = "a wholly new one for Rhoda's sake" }, Stop)).StatusCode);
    }

    [Fact]
    public async Task A_token_does_what_it_was_made_for_and_nothing_more()
    {
        var piece = (await Household.Post(house.As("keeper"), "/api/garments", JsonNode.Parse("""{"name":"Bonnet","acquired":{"price":"four shillings"}}""")!.AsObject()))["id"];
        var made = await Household.Post(house.As("keeper"), "/api/account/tokens", JsonNode.Parse("""{"name":"reader","scopes":["read"],"days":3}""")!.AsObject());
        Assert.DoesNotContain(made["token"]!.ToString(), (await Get(house.As("keeper"), "/api/account/tokens")).ToJsonString(), StringComparison.Ordinal);
        using var program = house.New();
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", made["token"]!.ToString());
        Assert.DoesNotContain("shillings", (await Get(program, $"/api/garments/{piece}")).ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, (await program.PostAsJsonAsync("/api/garments", new { name = "x" }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await program.GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await house.As("owner").DeleteAsync(new Uri($"/api/account/tokens/{made["id"]}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await house.As("keeper").DeleteAsync(new Uri($"/api/account/tokens/{made["id"]}", UriKind.Relative), Stop)).StatusCode);
        using var refused = await program.GetAsync(new Uri("/api/search", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
        Assert.Equal("Bearer", refused.Headers.WwwAuthenticate.Single().Scheme);
    }

    [Fact]
    public async Task Drafts_are_each_person_s_own()
    {
        await house.As("keeper").PutAsJsonAsync("/api/drafts/pieces-new", new { name = "Kitty's draft" }, Stop);
        Assert.Equal(HttpStatusCode.NotFound, (await house.As("owner").GetAsync(new Uri("/api/drafts/pieces-new", UriKind.Relative), Stop)).StatusCode);
        Assert.Contains("Kitty's draft", (await Get(house.As("keeper"), "/api/drafts/pieces-new"))["name"]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_only_owner_stays_and_who_is_taken_off_is_out_at_once()
    {
        using var client = await house.Join("keeper", "Tess");
        var people = (await Get(house.As("owner"), "/api/account/people"))["items"]!.AsArray();
        string Id(string name) => people.Single(p => p!["name"]!.ToString() == name)!["id"]!.ToString();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await house.As("owner").PutAsJsonAsync($"/api/account/people/{Id("Orla")}", new { role = "pupil" }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await house.As("owner").DeleteAsync(new Uri($"/api/account/people/{Id("Orla")}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await house.As("owner").PutAsJsonAsync($"/api/account/people/{Id("Tess")}", new { role = "pupil" }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await client.PostAsJsonAsync("/api/garments", new { name = "x" }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await house.As("owner").DeleteAsync(new Uri($"/api/account/people/{Id("Tess")}", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync(new Uri("/api/account", UriKind.Relative), Stop)).StatusCode);
    }

    [Fact]
    public async Task Two_owners_who_take_the_role_from_each_other_at_once_leave_one()
    {
        await using var own = new Household(postgres);
        await own.InitializeAsync();
        using var tess = await own.Join("owner", "Tess");
        HttpClient[] clients = [own.As("owner"), tess];
        var people = (await Get(tess, "/api/account/people"))["items"]!.AsArray();
        string[] ids = [.. new[] { "Orla", "Tess" }.Select(name => people.Single(p => p!["name"]!.ToString() == name)!["id"]!.ToString())];
        for (var round = 0; round < 10; round++)
        {
            var answers = await Task.WhenAll(Put(0, 1, "pupil"), Put(1, 0, "pupil"));
            Assert.Single(answers, HttpStatusCode.OK);
            var left = Array.IndexOf(answers, HttpStatusCode.OK);
            Assert.Equal(HttpStatusCode.OK, await Put(left, 1 - left, "owner"));
        }

        async Task<HttpStatusCode> Put(int by, int whom, string role)
        {
            using var answer = await clients[by].PutAsJsonAsync($"/api/account/people/{ids[whom]}", new { role }, Stop);
            return answer.StatusCode;
        }
    }

    private static async Task<JsonObject> Get(HttpClient client, string path) => JsonNode.Parse(await client.GetStringAsync(new Uri(path, UriKind.Relative), Stop))!.AsObject();
}
