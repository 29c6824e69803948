using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>At the table with the archive gone: the pages that are worked from open all the same, what is done there is kept, and sent when it is back.</summary>
public sealed class OfflineTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>, IAsyncDisposable
{
    private bool isGone;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_worksheet_goes_on_without_the_archive_and_ticks_made_elsewhere_stay()
    {
        var sheet = await Made();
        var page = await chromium.Open(host.Address, width: 390);
        await page.GotoAsync($"/worksheets/{sheet}/at-the-table?step=1");
        await Kept(page, [.. Enumerable.Range(1, 4).Select(n => $"/worksheets/{sheet}/at-the-table?step={n}")]);
        using (await host.Client.PutAsJsonAsync($"/api/worksheets/{sheet}/ticks", new JsonObject { ["done"] = new JsonArray(4) }, Stop))
        {
            await Go();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Done, next step" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 2 of" })).ToBeVisibleAsync();
        await Expect(Told(page)).ToContainTextAsync("does not answer");
        await page.GetByRole(AriaRole.Button, new() { Name = "Done, next step" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 3 of" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Step before" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 2 of" })).ToContainTextAsync("done, not sent yet");

        await ComeBack();
        await Expect(Told(page)).ToContainTextAsync("Sent from this device: step 1, 2");
        Assert.Equal([1, 2, 4], await Done(sheet));
    }

    [Fact]
    public async Task A_tick_on_the_whole_worksheet_waits_on_the_device_and_is_sent_when_the_archive_is_back()
    {
        var sheet = await Made();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/worksheets/{sheet}");
        using (await host.Client.PatchAsJsonAsync($"/api/worksheets/{sheet}/ticks", new JsonObject { ["done"] = new JsonArray(4) }, Stop))
        {
            await Go();
        }

        await page.Locator(".ticked input").Nth(0).CheckAsync();
        await Expect(page.Locator("[data-kept]")).ToContainTextAsync("kept on this device");
        await page.Locator(".ticked input").Nth(1).CheckAsync();
        await page.Locator(".ticked input").Nth(0).UncheckAsync();
        await ComeBack();
        await Expect(Told(page)).ToContainTextAsync("Sent from this device: step 2");
        await Expect(page.Locator("[data-kept]")).ToHaveTextAsync("Kept.");
        Assert.Equal([2, 4], await Done(sheet));
    }

    [Fact]
    public async Task A_new_piece_is_opened_written_down_and_pressed_without_the_archive_and_saved_once_when_it_is_back()
    {
        var page = await chromium.Open(host.Address, width: 390);
        await page.GotoAsync("/pieces/new");
        await Kept(page, "/pieces/new");
        var before = await host.Count();
        await Go();

        var context = page.Context;
        await page.CloseAsync();
        page = await context.NewPageAsync();
        await page.GotoAsync("/pieces/new");
        await Expect(Told(page)).ToContainTextAsync("does not answer");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Cambric cap found in the attic");
        // A reload loses nothing either.
        await page.ReloadAsync();
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("Cambric cap found in the attic");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("[data-draft-said]")).ToContainTextAsync("saved as soon as it answers");

        await ComeBack();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Cambric cap found in the attic", Level = 1 })).ToBeVisibleAsync();
        Assert.Equal(before + 1, await host.Count());
    }

    [Fact]
    public async Task A_page_that_is_not_kept_says_so_in_plain_words_with_a_way_out()
    {
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/pieces/new");
        await Kept(page, "/pieces/new");
        await Go();
        await page.GotoAsync("/lessons");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("The archive does not answer");
        await page.GetByRole(AriaRole.Link, new() { Name = "Write down a new piece" }).ClickAsync();
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToBeVisibleAsync();
        await ComeBack();
        await page.GotoAsync("/lessons");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Lessons");
    }

    /// <summary>Whatever came of a test, the next one finds the archive there.</summary>
    public async ValueTask DisposeAsync() => await ComeBack();

    private async Task<string> Made()
    {
        var dress = await host.BabyDress($"O-{Guid.NewGuid():N}");
        using var made = await host.Client.PostAsJsonAsync("/api/worksheets", new JsonObject
        {
            ["garment"] = dress.Id(), ["technique"] = dress.Tucks(),
            ["plan"] = new JsonObject { ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 6, ["width"] = "1/16 in", ["space"] = "3/16 in" }) },
        }, Stop);
        return (await made.Content.ReadFromJsonAsync<JsonObject>(Stop))!["id"]!.ToString();
    }

    private async Task<IEnumerable<int>> Done(string sheet) =>
        (await host.Client.GetFromJsonAsync<JsonObject>($"/api/worksheets/{sheet}/ticks", Stop))!["done"]!.AsArray().Select(n => n!.GetValue<int>()).Order();

    private async Task Go()
    {
        await host.StopAsync();
        isGone = true;
    }

    private async Task ComeBack()
    {
        if (isGone)
        {
            await host.StartAsync();
            isGone = false;
        }
    }

    private static ILocator Told(IPage page) => page.Locator("[data-connection]");

    // Until the browser has put the pages by, and serves them by itself from now on.
    private static Task Kept(IPage page, params string[] addresses) => Wait.Until(
        () => page.EvaluateAsync<bool>(
            """
            async addresses => Boolean(navigator.serviceWorker.controller) && (await Promise.all([...addresses,
              ...performance.getEntriesByType('resource').map(e => e.name).filter(n => /\/(css|js|fonts|drawings)\//.test(n))]
              .map(async n => await caches.match(n, { ignoreVary: true }) !== undefined))).every(Boolean)
            """,
            addresses),
        "the browser keeps the pages");
}
