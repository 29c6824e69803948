using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A day without script: read, written down, found, made and printed; and no page offers what would do nothing.</summary>
public sealed class PlainTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task A_piece_is_written_down_read_found_by_technique_and_facets_and_made_again(int width)
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece", TestContext.Current.CancellationToken);
        var dress = await host.BabyDress($"PLAIN-{width}");
        var page = await chromium.Open(host.Address, script: false, width: width);
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Write it down" }).ClickAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Batiste bonnet");
        await page.GetByLabel("Number").FillAsync($"BONNET-{width}");
        await page.GetByLabel("Kind", new() { Exact = true }).SelectOptionAsync("bonnet");
        await page.GetByText("gives way if pulled").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Batiste bonnet", Level = 1 })).ToBeVisibleAsync();

        // Read: its facts, its drawing, and its history unfolded.
        await Expect(page.GetByText($"BONNET-{width}").First).ToBeVisibleAsync();
        await Expect(page.Locator("img.whole.drawn")).ToBeVisibleAsync();
        await page.Locator(".history summary").First.ClickAsync();
        await Expect(page.Locator(".history details[open] li, .history details[open] dd, .history details[open] p").First).ToBeVisibleAsync();

        // Found: a technique typed, a facet ticked, a year given.
        await page.GetByRole(AriaRole.Link, new() { Name = "Examples", Exact = true }).ClickAsync();
        await page.GetByLabel("What are you looking for?").FillAsync("pin tucks by hand");
        await page.GetByRole(AriaRole.Button, new() { Name = "Find", Exact = true }).Follow();
        await page.Locator("[name=part][value=yoke]").CheckAsync();
        await page.Locator("summary", new() { HasText = "The piece" }).ClickAsync();
        await page.GetByLabel("Until the year").FillAsync("1910");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show these" }).ClickAsync();
        await page.WaitForURLAsync("**part=yoke**");
        await page.Locator($".tile a[href^='/pieces/{dress.Id()}']").ClickAsync();
        await Expect(page.Locator($"[id='{dress.Tucks()}'] h3")).ToBeInViewportAsync();
        await Expect(page.Locator($"[id='{dress.Tucks()}'] svg.swatch")).ToBeVisibleAsync();

        // Made, seen and printed: on paper without the navigation, with the diagram and the steps.
        await page.Locator($"[id='{dress.Tucks()}']").GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" }).ClickAsync();
        await page.GetByLabel("Finished width").FillAsync("9 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the worksheet" }).Last.Follow();
        await Expect(page.Locator(".diagram svg")).ToBeVisibleAsync();
        Assert.True(await page.Locator(".diagram svg line, .diagram svg path").CountAsync() > 10, "the diagram has no lines");
        var print = await page.RunAndWaitForResponseAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "Print with the gauge (PDF)" }).ClickAsync(), "**/*.pdf");
        Assert.Equal((200, "application/pdf"), (print.Status, print.Headers["content-type"]));
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(page.Locator("nav")).ToBeHiddenAsync();
        await Expect(page.Locator(".diagram svg")).ToBeVisibleAsync();
        await Expect(page.Locator(".steps.ticked li").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task No_page_offers_a_button_that_only_script_would_answer()
    {
        var dress = await host.BabyDress("DEAD");
        var (piece, sheet, picture) = ($"/pieces/{dress.Id()}", await host.Sheet(dress), await RegionTests.AddPicture(host, dress.Id()));
        var page = await chromium.Open(host.Address, script: false);
        var wrong = new List<string>();
        foreach (var address in new[]
        {
            "/", "/pieces", "/pieces?as=table", "/pieces/many", "/pieces/new", "/pieces/new?depth=full", "/examples", piece, $"{piece}/edit", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/look-over", $"{piece}/history", $"{piece}/dating",
            $"/pictures/{picture}", $"/pictures/compare?show={picture}", "/pictures/untagged", "/pictures/check", $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", sheet, $"{sheet}/at-the-table", "/lessons", "/questions", "/words/own", "/work-it-out/tucks", "/tape",
        })
        {
            await page.GotoAsync(address);
            var idle = await page.EvaluateAsync<string[]>("[...document.querySelectorAll('button')].filter(b => b.checkVisibility() && (b.type === 'button' || !b.form)).map(b => b.textContent)");
            wrong.AddRange(idle.Select(b => $"{address}: {b}"));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }
}
