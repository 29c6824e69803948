using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Demo;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>
/// The pictures of the README, of the real thing with the demonstration in it. They are always taken;
/// with <c>HEIRLOOM_SCREENSHOTS=1</c> they go into <c>docs/screenshots</c>.
/// </summary>
public sealed class ScreenshotTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    private static readonly string Root = Path.GetFullPath(Path.Combine(Chromium.Folder, "..", ".."));

    [Fact]
    public async Task The_pictures_of_the_README_can_be_taken()
    {
        await new DemoLoader(host.Client, Path.Combine(Root, "seed-demo")).Load(new Progress<DemoProgress>(), TestContext.Current.CancellationToken);
        var page = await chromium.Open(host.Address, width: 1280);
        var pieces = await host.Client.GetStringAsync("/api/garments?size=100", TestContext.Current.CancellationToken);
        var piece = JsonNode.Parse(pieces)!["items"]!.AsArray().Single(g => g!["number"]!.ToString() == "H-002")!["id"]!.ToString();

        await Take(page, "first-page", "/");
        await Take(page, "piece", $"/pieces/{piece}");
        await Take(page, "examples", "/examples?q=pin+tucks+by+hand+on+a+yoke");
        await page.GotoAsync("/worksheets");
        var sheet = await page.Locator(".lines a.name", new() { HasText = "H-002" }).First.GetAttributeAsync("href");
        await Take(page, "worksheet", sheet + "#lines");
        await Take(page, "work-it-out", "/work-it-out");
        await Take(page, "mitred-lace", Example("mitred-lace"));
        await Take(page, "spacing", Example("spacing"));
        await Take(await chromium.Open(host.Address, width: 390), "at-the-table", $"{sheet}/at-the-table?step=7");
        await Take(await chromium.Open(host.Address, width: 390), "telephone", $"/pieces/{piece}");
    }

    private static string Example(string slug) => Web.Pages.WorkItOut.SumForm.Example(Sewing.Sums.AllSums.Find(slug)!);

    private static async Task Take(IPage page, string name, string address)
    {
        await page.GotoAsync(address);
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        var picture = await page.ScreenshotAsync();
        Assert.True(picture.Length > 20_000, $"{name}: {picture.Length} bytes show nothing");
        if (Environment.GetEnvironmentVariable("HEIRLOOM_SCREENSHOTS") == "1")
        {
            var folder = Directory.CreateDirectory(Path.Combine(Root, "docs", "screenshots"));
            await File.WriteAllBytesAsync(Path.Combine(folder.FullName, name + ".png"), picture, TestContext.Current.CancellationToken);
        }
    }
}
