using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>Forms about people and what they may: refused, they keep what was typed and say how long to wait.</summary>
public sealed partial class RefusedAccountFormsTests(Household house) : IClassFixture<Household>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_token_that_was_asked_for_too_long_keeps_its_name_and_scopes()
    {
        var (status, page, _) = await Post(house.As("keeper"), "/account", "Token", ("name", "Backup of the pictures"), ("scopes", "read"), ("days", "999"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Matches("""name="name" value="Backup of the pictures""", page);
        Assert.Matches("""name="scopes" value="read" checked""", page);
        Assert.Single(Checked().Matches(page));
        Assert.Matches("""name="days"[^>]*value="999""", page);
    }

    [Fact]
    public async Task An_invitation_for_too_long_keeps_for_whom_and_as_what()
    {
        var (status, page, _) = await Post(house.As("owner"), "/account/people", "Invite", ("role", "keeper"), ("note", "Aunt Wren"), ("days", "99"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Matches("""name="note" value="Aunt Wren""", page);
        Assert.Matches("""name="days"[^>]*value="99""", page);
        Assert.Matches("""<option value="keeper" selected""", page[page.IndexOf("id=\"invite-role\"", StringComparison.Ordinal)..]);
    }

    [Fact]
    public async Task Too_many_recovery_codes_that_do_not_fit_are_told_how_long_to_wait()
    {
        using var client = house.New();
        for (var tries = 0; ; tries++)
        {
            Assert.True(tries < 12, "It never asks to wait.");
            var (status, page, wait) = await Post(client, "/account/recover", "", ("name", "Polly"), ("code", "wrong-code-altogether"), ("password", "another lamp over the nainsook"));
            Assert.Contains("Polly", page, StringComparison.Ordinal);
            if (status == HttpStatusCode.Unauthorized) continue;
            Assert.Equal(HttpStatusCode.TooManyRequests, status);
            Assert.Contains("Too many tries: wait", page, StringComparison.Ordinal);
            Assert.True(wait > TimeSpan.Zero);
            break;
        }
    }

    [Fact]
    public async Task A_piece_that_changed_since_is_shown_again_before_visitors_see_it()
    {
        var piece = await Household.Post(house.As("owner"), "/api/garments", new() { ["name"] = "A christening robe" });
        using var change = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{piece["id"]}") { Content = JsonContent.Create(new JsonObject { ["description"] = "With a later hem" }) };
        change.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        using (var changed = await house.As("owner").SendAsync(change, Stop)) Assert.True(changed.IsSuccessStatusCode);
        var (status, page, _) = await Post(house.As("owner"), $"/pieces/{piece["id"]}/visitors", "", ("version", "1"), ("show", "yes"));
        Assert.Equal(HttpStatusCode.PreconditionFailed, status);
        Assert.Contains("Somebody saved this piece meanwhile", page, StringComparison.Ordinal);
        Assert.Contains("With a later hem", page, StringComparison.Ordinal);
        Assert.Contains("""name="version" value="2""", page, StringComparison.Ordinal);
        using var hidden = await house.As("visitor").GetAsync(new Uri($"/api/garments/{piece["id"]}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, hidden.StatusCode);
    }

    private static async Task<(HttpStatusCode Status, string Page, TimeSpan? Wait)> Post(HttpClient client, string address, string handler, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(await client.GetStringAsync(new Uri(address, UriKind.Relative), Stop)).Groups[1].Value;
        using var form = new FormUrlEncodedContent([KeyValuePair.Create("__RequestVerificationToken", token), .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value))]);
        using var answer = await client.PostAsync(new Uri(address + (handler.Length > 0 ? "?handler=" + handler : ""), UriKind.Relative), form, Stop);
        return (answer.StatusCode, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop)), answer.Headers.RetryAfter?.Delta);
    }

    [GeneratedRegex("""name="__RequestVerificationToken"[^>]*value="([^"]+)""")]
    private static partial Regex Token();

    [GeneratedRegex("""name="scopes" value="[^"]*" checked""")]
    private static partial Regex Checked();
}
