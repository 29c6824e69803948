using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Deque.AxeCore.Playwright;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A worksheet carried to the sewing table and back.</summary>
public sealed class WorksheetTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Steps_ticked_at_the_table_stay_ticked_on_the_sheet(bool script)
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address, script, width: 390);
        await page.GotoAsync($"/worksheets/{sheet}/at-the-table");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 1 of" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done, next step" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 2 of" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done, next step" }).ClickAsync();

        var other = await chromium.Open(host.Address, script);
        await other.GotoAsync($"/worksheets/{sheet}");
        await Expect(other.Locator(".ticked input:checked")).ToHaveCountAsync(2);
        await other.GotoAsync($"/worksheets/{sheet}/at-the-table");
        await Expect(other.GetByRole(AriaRole.Heading, new() { Name = "Step 3 of" })).ToBeVisibleAsync();
        await other.GotoAsync($"/worksheets/{sheet}/at-the-table?step=1");
        await other.GetByRole(AriaRole.Button, new() { Name = "Not done after all" }).ClickAsync();
        Assert.Equal([2], (await host.Client.GetFromJsonAsync<JsonObject>($"/api/worksheets/{sheet}/ticks", TestContext.Current.CancellationToken))!["done"]!.AsArray().Select(n => n!.GetValue<int>()));
    }

    [Fact]
    public async Task A_tick_on_the_sheet_is_kept_at_once_with_script_and_by_the_button_without()
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/worksheets/{sheet}");
        await page.Locator(".ticked input").Nth(2).CheckAsync();
        await Expect(page.Locator("[data-kept]")).ToHaveTextAsync("Kept.");

        var plain = await chromium.Open(host.Address, script: false);
        await plain.GotoAsync($"/worksheets/{sheet}");
        await Expect(plain.Locator(".ticked input").Nth(2)).ToBeCheckedAsync();
        await plain.Locator(".ticked input").Nth(0).CheckAsync();
        await plain.GetByRole(AriaRole.Button, new() { Name = "Keep the ticks" }).ClickAsync();
        await Expect(plain.Locator(".ticked input:checked")).ToHaveCountAsync(2);
    }

    [Fact]
    public async Task The_table_shows_the_lines_of_a_tuck_in_figures_a_thumb_high_and_has_no_fault()
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address, width: 360);
        await page.GotoAsync($"/worksheets/{sheet}/at-the-table?step=7");

        // 6 tucks of 1/16 in from the centre front, the first at once: lines at 0, 1/16 and 1/8 in.
        await Expect(page.Locator(".big dd")).ToHaveTextAsync(["0 in", "1/16 in", "1/8 in"]);
        Assert.True(await page.Locator(".big dd").First.EvaluateAsync<double>("d => parseFloat(getComputedStyle(d).fontSize)") >= 32);
        Assert.Empty((await page.RunAxe()).Violations);
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0);
    }

    [Fact]
    public async Task When_the_record_has_moved_on_the_page_says_so_and_offers_a_new_one()
    {
        var (dress, sheet) = await Made();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/worksheets/{sheet}");
        await Expect(page.GetByText("has moved on")).ToHaveCountAsync(0);

        using var change = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{dress.Id()}") { Content = JsonContent.Create(new JsonObject { ["name"] = "Renamed since" }) };
        change.Headers.TryAddWithoutValidation("If-Match", $"\"{dress["version"]}\"");
        (await host.Client.SendAsync(change, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();

        await page.ReloadAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a new one" }).ClickAsync();
        await Expect(page.GetByText("After Renamed since")).ToBeVisibleAsync();
        Assert.DoesNotContain(sheet, page.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_printer_that_was_measured_has_a_print_of_its_own()
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/worksheets/{sheet}");
        await page.GetByLabel("Printer").FillAsync("Sewing room");
        await page.GetByLabel("The 50 mm mark measured").FillAsync("20 mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("from 40 mm to 60 mm");
        await page.GetByLabel("The 50 mm mark measured").FillAsync("49.5 mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it", Exact = true }).ClickAsync();
        var link = await page.GetByRole(AriaRole.Link, new() { Name = "Print for Sewing room" }).First.GetAttributeAsync("href");
        Assert.Equal("%PDF-"u8.ToArray(), (await host.Client.GetByteArrayAsync(link, TestContext.Current.CancellationToken))[..5]);
    }

    private async Task<(JsonObject Dress, string Sheet)> Made()
    {
        var dress = await host.BabyDress($"T-{Guid.NewGuid():N}");
        using var answer = await host.Client.PostAsJsonAsync("/api/worksheets", new JsonObject
        {
            ["garment"] = dress.Id(), ["technique"] = dress.Tucks(),
            ["plan"] = new JsonObject { ["groups"] = new JsonArray(new JsonObject { ["tucks"] = 6, ["width"] = "1/16 in", ["space"] = "3/16 in" }) },
        });
        return (dress, (await answer.Content.ReadFromJsonAsync<JsonObject>())!["id"]!.ToString());
    }
}
