using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Accounts;

/// <summary>Who sees what of a piece, on every way to it; and that the book remembers who saw.</summary>
public sealed class SeenTests(Household house) : IClassFixture<Household>
{
    private const string Secret = "quillimarsh";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static string[] Ways(string id) =>
    [
        $"/api/garments/{id}", $"/api/garments/{id}/history", "/api/garments?size=100", "/api/search?q=zephyrine", $"/iiif/garments/{id}/manifest",
        $"/pieces/{id}", $"/pieces/{id}/history", $"/pieces/{id}/history/2", $"/pieces/{id}/condition", "/pieces", "/pieces?as=table&columns=name&columns=overall&columns=whereabouts&columns=place&columns=tags&columns=findings", $"/pieces?place={Secret}", "/care", "/examples?q=zephyrine", "/",
    ];

    [Fact]
    public async Task What_is_private_reaches_nobody_who_may_not_see_it_by_any_way()
    {
        var id = await Enter();
        foreach (var who in new[] { "visitor", "pupil", "helper" })
        {
            foreach (var way in Ways(id))
            {
                using var answer = await house.As(who).GetAsync(new Uri(way, UriKind.Relative), Stop);
                var text = await answer.Content.ReadAsStringAsync(Stop);
                // She may read back her own question; a helper knows where a piece lies.
                var told = text.Replace($"place={Secret}", "", StringComparison.Ordinal).Replace($"value=\"{Secret}\"", "", StringComparison.Ordinal);
                Assert.False(told.Contains(Secret + " price", StringComparison.Ordinal) || (who != "helper" && told.Contains(Secret + " shelf", StringComparison.Ordinal)), $"{who} at {way}");
                Assert.NotEqual(HttpStatusCode.InternalServerError, answer.StatusCode);
            }
        }

        Assert.Contains(Secret + " price", await house.As("keeper").GetStringAsync(new Uri($"/api/garments/{id}", UriKind.Relative), Stop), StringComparison.Ordinal);
        Assert.Contains(Secret + " shelf", await house.As("helper").GetStringAsync(new Uri($"/api/garments/{id}", UriKind.Relative), Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_visitor_finds_a_piece_only_once_it_is_shown_and_sees_what_the_preview_says()
    {
        var id = await Enter();
        async Task<HttpStatusCode> Visit(string way) => (await house.As("visitor").GetAsync(new Uri(way, UriKind.Relative), Stop)).StatusCode;
        Assert.Equal(HttpStatusCode.NotFound, await Visit($"/api/garments/{id}"));
        Assert.Equal(HttpStatusCode.NotFound, await Visit($"/pieces/{id}"));

        var version = (await house.As("owner").GetAsync(new Uri($"/api/garments/{id}/visitors", UriKind.Relative), Stop)).Headers.ETag!.Tag;
        using var show = new HttpRequestMessage(HttpMethod.Put, $"/api/garments/{id}/visitors") { Content = JsonContent.Create(new { shown = true }) };
        show.Headers.TryAddWithoutValidation("If-Match", version);
        var preview = JsonNode.Parse(await (await house.As("owner").SendAsync(show, Stop)).Content.ReadAsStringAsync(Stop))!["sees"]!;

        var seen = JsonNode.Parse(await house.As("visitor").GetStringAsync(new Uri($"/api/garments/{id}", UriKind.Relative), Stop))!;
        Assert.True(JsonNode.DeepEquals(preview, seen), $"{preview} and {seen}");
        var page = await house.As("visitor").GetStringAsync(new Uri($"/pieces/{id}", UriKind.Relative), Stop);
        Assert.DoesNotContain("id=\"private\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("History", page, StringComparison.Ordinal);
        Assert.DoesNotContain("by the hem", page, StringComparison.Ordinal);
        Assert.Contains(id, await house.As("visitor").GetStringAsync(new Uri("/pieces", UriKind.Relative), Stop), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Unauthorized, await Visit($"/api/garments/{id}/history"));
        Assert.Equal(HttpStatusCode.OK, (await house.As("owner").GetAsync(new Uri($"/pieces/{id}/visitors", UriKind.Relative), Stop)).StatusCode);
    }

    [Fact]
    public async Task The_book_says_who_saw_what_is_private_and_survives_a_restart()
    {
        var id = await Enter();
        await house.As("keeper").GetStringAsync(new Uri($"/api/garments/{id}", UriKind.Relative), Stop);
        await house.As("pupil").GetStringAsync(new Uri($"/api/garments/{id}", UriKind.Relative), Stop);
        await house.Host.StopAsync();
        await house.Host.StartAsync();
        var lines = JsonNode.Parse(await house.As("owner").GetStringAsync(new Uri("/api/account/book?size=100", UriKind.Relative), Stop))!["items"]!.AsArray();
        Assert.Contains(lines, l => l!["who"]!.ToString() == "Kitty" && l["what"]!.ToString() == "saw private fields" && l["about"]!.ToString().Contains(id, StringComparison.Ordinal));
        Assert.DoesNotContain(lines, l => l!["who"]!.ToString() == "Polly" && l["what"]!.ToString() == "saw private fields");
        Assert.Contains(lines, l => l!["what"]!.ToString() == "became the first owner");
    }

    [Fact]
    public async Task Her_name_stands_in_the_history_and_the_headers_are_there()
    {
        var id = await Enter();
        using var answer = await house.As("keeper").GetAsync(new Uri($"/api/garments/{id}/history", UriKind.Relative), Stop);
        Assert.Contains("\"who\":\"Kitty\"", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Equal("same-origin", answer.Headers.GetValues("Cross-Origin-Opener-Policy").Single());
        Assert.Equal("same-origin", answer.Headers.GetValues("Cross-Origin-Resource-Policy").Single());
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/api/garments") { Content = JsonContent.Create(new { name = "x" }) };
        foreign.Headers.Add("Origin", "http://elsewhere.example");
        Assert.Equal(HttpStatusCode.Forbidden, (await house.As("keeper").SendAsync(foreign, Stop)).StatusCode);
        using var page = await house.As("visitor").GetAsync(new Uri("/worksheets", UriKind.Relative), Stop);
        Assert.StartsWith("/account/sign-in?back=%2Fworksheets", page.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    private async Task<string> Enter()
    {
        var entered = await Household.Post(house.As("keeper"), "/api/garments", JsonNode.Parse($$"""
            {"name":"Sacque with a zephyrine yoke","acquired":{"price":"{{Secret}} price"},"place":{"shelf":"{{Secret}} shelf"},"whereabouts":{"is":"lent","to":"{{Secret}} price"},
             "condition":[{"what":"tear","note":"by the hem"}] }
            """)!.AsObject());
        using var change = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{entered["id"]}") { Content = JsonContent.Create(JsonNode.Parse($$"""{"acquired":{"papers":"{{Secret}} price"} }""")) };
        change.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        Assert.Equal(HttpStatusCode.OK, (await house.As("keeper").SendAsync(change, Stop)).StatusCode);
        return entered["id"]!.ToString();
    }
}
