using System.Net.Http.Json;
using System.Text.Json.Nodes;
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
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Step 3 of" })).ToBeVisibleAsync();

        var other = await chromium.Open(host.Address, script);
        await other.GotoAsync($"/worksheets/{sheet}");
        await Expect(other.Locator(".ticked input:checked")).ToHaveCountAsync(2);
        await other.GotoAsync($"/worksheets/{sheet}/at-the-table");
        await Expect(other.GetByRole(AriaRole.Heading, new() { Name = "Step 3 of" })).ToBeVisibleAsync();
        await other.GotoAsync($"/worksheets/{sheet}/at-the-table?step=1");
        await other.GetByRole(AriaRole.Button, new() { Name = "Not done after all" }).Follow();
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

        // 6 tucks of 1/16 in with 1/4 in between, from the centre front, the last of them sewn first: 5 × (1/8 + 1/4 in) lie before it.
        await Expect(page.Locator(".big dd")).ToHaveTextAsync(["1 7/8 in", "1 15/16 in", "2 in"]);
        Assert.True(await page.Locator(".big dd").First.EvaluateAsync<double>("d => parseFloat(getComputedStyle(d).fontSize)") >= 32);
        await page.Faultless();
        await page.Fits();
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

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_came_of_it_is_written_down_and_corrects_the_next_one(bool script)
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address, script, width: 390);
        await page.GotoAsync($"/worksheets/{sheet}");
        await page.GetByRole(AriaRole.Link, new() { Name = "What came of it" }).ClickAsync();
        await page.GetByLabel("It measures").FillAsync("5 yards");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToBeVisibleAsync();
        await Expect(page.GetByLabel("It measures")).ToHaveValueAsync("5 yards");

        // 6 tucks of 1/16 in with 3/16 in between: 1 5/16 in planned from 2 1/16 in. It came out 1/8 in less.
        await page.GetByLabel("It measures").FillAsync("1 3/16 in");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Cloth" }).FillAsync("stiff lawn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.Locator(".sums dd").Nth(2)).ToHaveTextAsync("-1/8 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a worksheet corrected" }).ClickAsync();
        await Expect(page.GetByText("Corrected by a strip")).ToBeVisibleAsync();
        await Expect(page.Locator(".sums dd").First).ToContainTextAsync("1 5/16 in");
    }

    [Fact]
    public async Task The_strips_result_makes_the_corrected_version_and_what_is_wrong_is_kept_as_typed()
    {
        var (_, sheet) = await Made();
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/worksheets/{sheet}");
        await page.GetByText("The strip is sewn: enter what it measured").ClickAsync();
        await page.GetByLabel("Tucks on the strip").FillAsync("10");
        await page.GetByLabel("As marked").FillAsync("1/16");
        await page.GetByLabel("Strip when flat").FillAsync("4 in");
        await page.GetByLabel("Strip when sewn and pressed").FillAsync("2 5/8 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the corrected worksheet" }).Follow();
        await Expect(page.GetByLabel("As marked")).ToHaveValueAsync("1/16");
        await page.GetByLabel("As marked").FillAsync("1/16 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the corrected worksheet" }).Follow();
        await Expect(page.GetByText("Corrected by a strip")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_front_of_several_things_is_made_from_the_form_and_mirrored()
    {
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync("/worksheets/new/side-by-side");
        await page.Locator("[name='sections[0].plan.groups[0].tucks']").FillAsync("3");
        await page.Locator("[name='sections[0].plan.groups[0].width']").FillAsync("1/16 in");
        await page.Locator("[name='sections[0].plan.groups[0].space']").FillAsync("1/4 in");
        await page.Locator("[name='sections[0].plan.lead']").FillAsync("1/2 in");
        await page.Locator("[name='sections[0].plan.trail']").FillAsync("1/2 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add an insertion" }).ClickAsync();
        await page.Locator("[name='sections[1].insertion.width']").FillAsync("1 in");
        await page.GetByLabel("Mirrored?").SelectOptionAsync("true");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the worksheet" }).Last.ClickAsync();

        // Twice the half: 1/2 + 3 × 1/16 + 2 × 1/4 + 1/2 + 1 in.
        await Expect(page.Locator(".sums dd").First).ToContainTextAsync("5 3/8 in");
        await Expect(page.GetByRole(AriaRole.Group, new() { Name = "Table of insertions" })).ToBeVisibleAsync();
        var seen = await chromium.Open(host.Address, width: 390);
        await seen.GotoAsync(page.Url);
        await seen.Faultless();
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
