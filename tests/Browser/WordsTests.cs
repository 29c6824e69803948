using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Her own words: made of what she typed, used in a form, merged and set apart, with and without script.</summary>
public sealed class WordsTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(true, "Cricket lace")]
    [InlineData(false, "Grasshopper lace")]
    public async Task What_she_typed_becomes_a_word_counts_as_another_and_is_set_apart_again(bool script, string typed)
    {
        var garment = await host.Enter(new() { ["name"] = $"Collar of {typed}", ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "lace", ["lace"] = new JsonObject { ["own"] = typed } }) });
        var page = await chromium.Open(host.Address, script, width: 390);
        var link = page.GetByRole(AriaRole.Link, new() { Name = $"Make “{typed}” a word" });
        await Wait.Until(
            async () =>
            {
                await page.GotoAsync("/words/own");
                return await link.CountAsync() > 0;
            },
            "what she typed is listed");
        await link.ClickAsync();
        await Expect(page.GetByLabel("The word")).ToHaveValueAsync(typed);
        await page.GetByLabel("What it means").FillAsync("As her aunt called it.");
        await page.GetByLabel("Other names").FillAsync("torchon");
        await page.GetByLabel("A kind of").SelectOptionAsync("Bobbin lace");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it a word" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("already");
        await Expect(page.GetByLabel("What it means")).ToHaveValueAsync("As her aunt called it.");
        await page.GetByLabel("Other names").FillAsync($"{typed} of the garden");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it a word" }).ClickAsync();
        await Expect(page.Locator($"#laces-bobbin #laces-{typed.ToLowerInvariant().Replace(' ', '-')} > dt")).ToBeVisibleAsync();

        await page.GotoAsync($"/pieces/{garment.Id()}/techniques/new?kind=lace");
        await page.Locator("select[name=lace]").SelectOptionAsync(typed);

        await page.GotoAsync("/words/own");
        await page.GetByRole(AriaRole.Link, new() { Name = $"Change {typed}" }).ClickAsync();
        await page.GetByLabel("Counts as").SelectOptionAsync("Crochet lace");
        await page.GetByRole(AriaRole.Button, new() { Name = "Let it count as that" }).ClickAsync();
        await Expect(page.GetByText("counts as Crochet lace").First).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = $"Change {typed}" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Set it apart again" }).ClickAsync();
        await Expect(page.Locator($"#laces-bobbin #laces-{typed.ToLowerInvariant().Replace(' ', '-')} > dt")).ToBeVisibleAsync();

        await page.GotoAsync("/words/own");
        await page.GetByRole(AriaRole.Link, new() { Name = $"Change {typed}" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it off" }).ClickAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/words/own$"));
    }
}
