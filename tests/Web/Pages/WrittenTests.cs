using System.Net.Http.Json;
using HeirloomArchive.Support;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>Days stand as the reader's country writes them, whatever the machine's own is; programs get them the one way.</summary>
public sealed class WrittenTests(ArchiveHost host) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData("en-US,en;q=0.9", @"[A-Z][a-z]{2,3} \d{1,2}, \d{4}")]
    [InlineData("en-GB", @"\d{1,2} [A-Z][a-z]{2,3} \d{4}")]
    [InlineData("de-DE,de;q=0.9", @"\d{1,2} [A-Z][a-z]{2,3} \d{4}")]
    [InlineData(null, @"\d{1,2} [A-Z][a-z]{2,3} \d{4}")]
    public async Task A_day_stands_as_the_browser_asks_for_it(string? language, string day)
    {
        var stop = TestContext.Current.CancellationToken;
        using var entered = await host.Client.PostAsJsonAsync("/api/garments", new { name = "Cap of book muslin" }, stop);
        Assert.True(entered.IsSuccessStatusCode);
        using var ask = new HttpRequestMessage(HttpMethod.Get, "/pieces?as=table&columns=changed");
        if (language is not null)
        {
            ask.Headers.Add("Accept-Language", language);
        }

        using var answer = await host.Client.SendAsync(ask, stop);
        Assert.Matches("<td[^>]*>\\s*" + day + "\\s*</td>", await answer.Content.ReadAsStringAsync(stop));
        using var program = new HttpRequestMessage(HttpMethod.Get, entered.Headers.Location + "/history");
        program.Headers.Add("Accept-Language", language ?? "en-US");
        using var told = await host.Client.SendAsync(program, stop);
        Assert.Matches(@"\d{4}-\d{2}-\d{2}T", await told.Content.ReadAsStringAsync(stop));
    }
}
