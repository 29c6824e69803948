using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>What a page is on paper, where nothing can be unfolded.</summary>
public sealed class PaperTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Fact]
    public async Task Cautions_are_printed_also_where_they_are_folded_away_and_no_fold_leaves_its_name_alone()
    {
        var dress = await host.BabyDress("PAPER");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        var keeping = page.Locator("details", new() { HasText = "Putting it away" }).GetByText("put away unstarched");
        await Expect(keeping).ToBeHiddenAsync();
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(keeping).ToBeVisibleAsync();
        await page.GotoAsync(await host.Sheet(dress));
        await Expect(page.GetByText("Other ways of marking")).ToBeHiddenAsync();
        Assert.Empty(await page.EvaluateAsync<string[]>("[...document.querySelectorAll('main details:not([open]) > summary')].filter(s => s.checkVisibility() && !s.parentElement.matches('.notice')).map(s => s.textContent)"));
    }
}
