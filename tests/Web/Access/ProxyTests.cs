using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Accounts;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Access;

/// <summary>What a proxy says of where a request came from is believed of a proxy that was named, and of nobody else.</summary>
public sealed class ProxyTests(PostgresServer postgres)
{
    private const string Wrong = "wrong wrong wrong";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("127.0.0.1", "203.0.113.9", "203.0.113.9")]
    [InlineData("127.0.0.0/8", "198.51.100.1, 203.0.113.9", "203.0.113.9")]
    [InlineData("10.0.0.0/8", "203.0.113.9", "127.0.0.1")]
    [InlineData(null, "203.0.113.9", "127.0.0.1")]
    public async Task The_address_is_the_proxy_s_word_or_the_sender_s_own(string? proxies, string said, string taken)
    {
        await using var host = await Start(proxies);
        await Become(host, said);
        var lines = await host.Services.GetRequiredService<Book>().Page(1, 10, Stop);
        Assert.Equal(taken, lines.Lines.Single(l => l.What == Deeds.First).From);
    }

    [Theory]
    [InlineData("127.0.0.1", "https", true)]
    [InlineData("127.0.0.1", "http", false)]
    [InlineData("10.0.0.0/8", "https", false)]
    [InlineData(null, "https", false)]
    public async Task Only_what_came_by_https_is_told_to_come_so_again(string? proxies, string scheme, bool told)
    {
        await using var host = await Start(proxies);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/account/sign-in") { Headers = { Host = "archive.example" } };
        request.Headers.Add("X-Forwarded-Proto", scheme);
        using var answer = await host.Client.SendAsync(request, Stop);
        Assert.Equal(told, answer.Headers.Contains("Strict-Transport-Security"));
        if (told) Assert.Equal("max-age=31536000; includeSubDomains", answer.Headers.GetValues("Strict-Transport-Security").Single());
    }

    [Fact]
    public async Task Behind_a_proxy_nobody_is_answered_by_plain_http()
    {
        await using var host = await Start("127.0.0.1");
        foreach (var address in new[] { "/account/sign-in", "/api/garments" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, address);
            request.Headers.Add("X-Forwarded-For", "203.0.113.9");
            using var answer = await host.Client.SendAsync(request, Stop);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }

        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/health/ready", Stop)).StatusCode);
    }

    [Fact]
    public async Task Nobody_keeps_another_out_by_her_name()
    {
        await using var host = await Start("127.0.0.1");
        await Become(host, "203.0.113.9");
        async Task<HttpStatusCode> SignIn(string from, string password)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/account/sign-in") { Content = JsonContent.Create(new { name = "Orla", password }) };
            request.Headers.Add("X-Forwarded-For", from);
            request.Headers.Add("X-Forwarded-Proto", "https");
            using var answer = await host.Client.SendAsync(request, Stop);
            return answer.StatusCode;
        }

        for (var i = 0; i < Delays.Free; i++) Assert.Equal(HttpStatusCode.Unauthorized, await SignIn("198.51.100.7", Wrong));
        Assert.Equal(HttpStatusCode.TooManyRequests, await SignIn("198.51.100.7", Household.Password));
        Assert.Equal(HttpStatusCode.OK, await SignIn("203.0.113.9", Household.Password));
    }

    [Theory]
    [InlineData("archive.example", null, null, true)]
    [InlineData("ARCHIVE.example", null, null, true)]
    [InlineData("elsewhere.example", null, null, false)]
    [InlineData("127.0.0.1", null, null, false)]
    [InlineData("archive.example", "https://archive.example", "same-origin", true)]
    [InlineData("archive.example", "http://archive.example", null, false)]
    [InlineData("archive.example", "https://elsewhere.example", null, false)]
    [InlineData("archive.example", "null", null, false)]
    [InlineData("archive.example", null, "cross-site", false)]
    [InlineData("archive.example", null, "same-site", false)]
    public async Task A_foreign_host_or_a_page_of_another_site_is_refused(string name, string? origin, string? site, bool answered)
    {
        await using var host = await Start("127.0.0.1", "--Archive:Hosts=archive.example");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/account/sign-in/passkey/options") { Headers = { Host = name } };
        request.Headers.Add("X-Forwarded-Proto", "https");
        if (origin is not null) request.Headers.Add("Origin", origin);
        if (site is not null) request.Headers.Add("Sec-Fetch-Site", site);
        using var answer = await host.Client.SendAsync(request, Stop);
        Assert.Equal(answered ? HttpStatusCode.OK : HttpStatusCode.Forbidden, answer.StatusCode);
    }

    private Task<ArchiveHost> Start(string? proxies, params string[] more) =>
        ArchiveHost.Start(postgres, ["--Archive:Access=Accounts", .. more, .. proxies is null ? Array.Empty<string>() : ["--Archive:Proxies=" + proxies]]);

    private static async Task Become(ArchiveHost host, string from)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/account/first")
        {
            Content = JsonContent.Create(new JsonObject { ["code"] = host.Services.GetRequiredService<FirstOwner>().Code, ["name"] = "Orla", ["password"] = Household.Password }),
        };
        request.Headers.Add("X-Forwarded-For", from);
        request.Headers.Add("X-Forwarded-Proto", "https");
        using var answer = await host.Client.SendAsync(request, Stop);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
    }
}
