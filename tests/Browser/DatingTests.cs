using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>How old a piece is, what it measures, and what was understood of a run; all without script.</summary>
public sealed class DatingTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Fact]
    public async Task A_date_in_figures_is_asked_back_and_the_month_she_means_is_kept()
    {
        var page = await chromium.Open(host.Address, script: false);
        var dress = await host.BabyDress("D-1");
        await page.GotoAsync($"/pieces/{dress.Id()}/edit");
        await page.GetByLabel("Dated", new() { Exact = true }).FillAsync("12/5/1905");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.GetByText("Which is the month?")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Use 1905-05-12" }).Follow();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.Locator(".top .under")).ToContainTextAsync("12 May 1905");
        Assert.Equal("12/5/1905", (await host.Garment(dress.Id()))["datedText"]!.ToString());
    }

    [Fact]
    public async Task A_zip_on_a_dress_of_1880_is_asked_about_on_its_page_and_the_date_stays()
    {
        var dress = await host.Enter(new()
        {
            ["name"] = "A dress with a zip", ["kind"] = "dress", ["dated"] = "1880",
            ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "fastening", ["fastening"] = "zip", ["part"] = "opening" }),
        });
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await Expect(page.GetByText("not before 1913, and the piece is dated 1880")).ToBeVisibleAsync();
        Assert.Equal("1880", (await host.Garment(dress.Id()))["dated"]!.ToString());
    }

    [Fact]
    public async Task What_she_ticks_narrows_the_span_with_its_reason_and_is_taken_over_when_she_says_so()
    {
        var dress = await host.Enter(new() { ["name"] = "A gown", ["kind"] = "nightgown", ["dated"] = "1880/1910" });
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByRole(AriaRole.Link, new() { Name = "How old is it?" }).ClickAsync();
        await page.GetByLabel("A hook with a hump that keeps it closed").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "What does it say?" }).ClickAsync();
        await Expect(page.GetByText("not before 1889").First).ToBeVisibleAsync();
        Assert.Equal("1880/1910", (await host.Garment(dress.Id()))["dated"]!.ToString());
        await page.GetByLabel("Write the reasons into its description").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Date it 1889 to 1910" }).ClickAsync();
        await Expect(page.Locator(".top .under")).ToContainTextAsync("1889 to 1910");
        var saved = await host.Garment(dress.Id());
        Assert.Equal("1889/1910", saved["dated"]!.ToString());
        Assert.Contains("hump", saved["description"]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_usual_measures_of_its_kind_come_as_rows_and_those_left_empty_are_not_kept()
    {
        var petticoat = await host.Enter(new() { ["name"] = "A petticoat", ["kind"] = "petticoat" });
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{petticoat.Id()}/edit");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add rows for the usual measures (4)" }).ClickAsync();
        await Expect(page.Locator("[name='measures[3].name']")).ToHaveValueAsync("hem-round");
        await page.Locator("[name='measures[0].length']").FillAsync("20 in");
        await page.Locator("[name='measures[3].length']").FillAsync("30 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.GetByText("Was half of the hem measured?")).ToBeVisibleAsync();
        var saved = await host.Garment(petticoat.Id());
        Assert.Equal(["waist", "hem-round"], saved["measures"]!.AsArray().Select(m => m!["name"]!.ToString()));
    }

    [Fact]
    public async Task What_was_understood_of_a_run_is_shown_before_anything_is_saved()
    {
        var dress = await host.BabyDress("D-2");
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}/techniques/new?kind=tucks");
        await page.Locator("[name='groups[0].tucks']").FillAsync("5");
        await page.Locator("[name='groups[0].width']").FillAsync("1/8 in");
        await page.Locator("[name='groups[0].space']").FillAsync("1/4 in");
        await page.Locator("[name='measuredFrom']").SelectOptionAsync("hem");
        await page.Locator("[name='turned']").SelectOptionAsync("down");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what I understood" }).ClickAsync();
        await Expect(page.GetByText("so the tucks lie towards the start of the row")).ToBeVisibleAsync();
        await Expect(page.Locator("svg.swatch")).ToHaveCountAsync(1);
        await Expect(page.Locator("[name='groups[0].tucks']")).ToHaveValueAsync("5");
        Assert.Equal(2, (await host.Garment(dress.Id()))["techniques"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_run_measured_over_all_shows_its_mean_and_the_error()
    {
        var dress = await host.Enter(new()
        {
            ["name"] = "A skirt", ["kind"] = "petticoat",
            ["techniques"] = new JsonArray(new JsonObject
            {
                ["kind"] = "tucks", ["over"] = new JsonObject { ["run"] = "3 1/2 in", ["tucks"] = 10, ["widthLeast"] = "1/8 in", ["widthMost"] = "1/8 in" },
            }),
        });
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        // 3 1/2 = 9 repeats and a width of 1/8: the repeat is 3/8.
        await Expect(page.GetByText("10 tucks over 3 1/2 in: on the mean width 0.125 in ±")).ToBeVisibleAsync();
        await Expect(page.GetByText("stitching to stitching 0.375 in ±")).ToBeVisibleAsync();
    }
}
