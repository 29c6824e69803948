using System.Net;
using System.Text.RegularExpressions;
using HeirloomArchive.Search;
using HeirloomArchive.Support;
using Microsoft.Extensions.DependencyInjection;

namespace HeirloomArchive.Web.Tests.Pages;

/// <summary>While there is no index, pages that ask it say so and how far it is, and hold what was typed.</summary>
public sealed partial class NoIndexTests(PostgresServer postgres)
{
    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Pages_say_that_it_is_being_built_and_the_name_of_a_question_is_held()
    {
        await using var host = await ArchiveHost.Start(postgres);
        using var browser = new HttpClient { BaseAddress = host.Address };
        var token = Token().Match(await browser.GetStringAsync(new Uri("/tape", UriKind.Relative), Ct)).Groups[1].Value;
        // Nothing builds it anew while the test looks.
        await host.Services.GetRequiredService<IndexFollower>().StopAsync(Ct);
        foreach (var index in Directory.GetDirectories(Path.Combine(host.Folder, "index"))) Directory.Delete(index, recursive: true);
        host.Services.GetRequiredService<GarmentIndex>().Reopen();

        foreach (var address in (string[])["/numbers", "/examples"])
        {
            using var page = await browser.GetAsync(new Uri(address, UriKind.Relative), Ct);
            await Says(page);
        }

        using var form = new FormUrlEncodedContent(new Dictionary<string, string> { ["__RequestVerificationToken"] = token, ["name"] = "Whipped edges", ["asked"] = "q=whip" });
        using var kept = await browser.PostAsync(new Uri("/questions", UriKind.Relative), form, Ct);
        Assert.Contains("<dd>Whipped edges</dd>", await Says(kept), StringComparison.Ordinal);
    }

    private static async Task<string> Says(HttpResponseMessage answer)
    {
        var page = await answer.Content.ReadAsStringAsync(Ct);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(TimeSpan.FromSeconds(2), answer.Headers.RetryAfter!.Delta);
        Assert.Contains("The index is being built: 0 of 0 pieces.", page, StringComparison.Ordinal);
        return page;
    }

    [GeneratedRegex("""name="__RequestVerificationToken"[^>]*value="([^"]+)""")]
    private static partial Regex Token();
}
