using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A finding is followed over three examinations, two of them are compared, it is mended and over; at the desk and on the telephone.</summary>
public sealed class ConditionTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(1280, true)]
    [InlineData(390, true)]
    [InlineData(390, false)]
    public async Task A_tear_is_followed_over_three_examinations_compared_mended_and_over(int width, bool script)
    {
        var gown = await host.Enter(new() { ["name"] = "A gown to watch", ["kind"] = "christening-gown" });
        var piece = $"/pieces/{gown.Id()}";
        var page = await chromium.Open(host.Address, script, width);
        await LookOver(page, piece, "2024-05-10", "arrival");
        await page.GotoAsync(piece);
        await page.GetByRole(AriaRole.Link, new() { Name = "Add a finding" }).ClickAsync();
        await page.GetByLabel("What is found", new() { Exact = true }).SelectOptionAsync("tear");
        await page.GetByLabel("Where on the piece", new() { Exact = true }).SelectOptionAsync("hem");
        await See(page, "2024-05-10", "slight", "watch", "1/2 in");

        await LookOver(page, piece, "2025-05-12", "yearly");
        await LookAgain(page, piece, "2025-05-12", "moderate", "soon", "1 in");
        await LookOver(page, piece, "2026-05-11", "before-loan");
        await LookAgain(page, piece, "2026-05-11", "severe", "before-handling", "2 in");

        // One thing, three looks, in words and drawn.
        var followed = page.Locator(".followed");
        await Expect(followed).ToHaveCountAsync(1);
        await Expect(followed.Locator("ol.seen li")).ToHaveTextAsync(["10 May 2024: slight, 1/2 in", "12 May 2025: moderate, 1 in", "11 May 2026: severe, 2 in"]);
        await Expect(followed.Locator("svg.time-line .tl-severe")).ToHaveCountAsync(1);
        await Expect(followed.Locator(".tags")).ToContainTextAsync("See to it before handling");
        await Expect(followed.Locator(".tags")).ToContainTextAsync("Worse than before");

        // The first and the last examination.
        await page.GetByRole(AriaRole.Link, new() { Name = "Condition over time" }).ClickAsync();
        await page.GetByLabel("The first").SelectOptionAsync("10 May 2024, arrival");
        await page.GetByLabel("The second").SelectOptionAsync("11 May 2026, before loan");
        await page.GetByRole(AriaRole.Button, new() { Name = "Compare them" }).ClickAsync();
        await Expect(page.Locator("#differences")).ToContainTextAsync("Worse");
        await Expect(page.Locator("#differences")).ToContainTextAsync("Tear, hem: slight, 1/2 in, then severe, 2 in");
        await page.Fits();

        // What needs care first, over all pieces.
        await page.GotoAsync("/care?list=before-handling");
        await page.GetByRole(AriaRole.Link, new() { Name = "A gown to watch" }).First.ClickAsync();
        await page.WaitForURLAsync(u => u.Contains("/pieces/", StringComparison.Ordinal));

        // Mended, and over.
        await page.GotoAsync(piece);
        await page.GetByRole(AriaRole.Link, new() { Name = "It is mended: Tear, hem" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Tear, hem: mended" })).ToBeVisibleAsync();
        await page.GetByLabel("Way of mending", new() { Exact = true }).SelectOptionAsync("darn");
        await Save(page);
        await Expect(page.GetByText("Mended: Darn, hem")).ToBeVisibleAsync();
        await page.Locator(".ending summary").ClickAsync();
        await page.GetByLabel("Over since").FillAsync("2026-06-01");
        await page.GetByRole(AriaRole.Button, new() { Name = "Over and done with" }).ClickAsync();
        await Expect(page.GetByText("1 finding over and done with")).ToBeVisibleAsync();
        await page.Fits();

        var findings = (await host.Garment(gown.Id()))["condition"]!.AsArray();
        Assert.Equal([null, findings[0]!["id"]!.ToString(), findings[1]!["id"]!.ToString()], findings.Select(f => f!["continues"]?.ToString()));
        Assert.All(findings, f => Assert.Equal("2026-06-01", f!["ended"]!["date"]!.ToString()));
        Assert.Equal((await host.Garment(gown.Id()))["repairs"]![0]!["id"]!.ToString(), findings[2]!["ended"]!["repair"]!.ToString());
        if (script)
        {
            await page.Faultless(piece);
            await page.GotoAsync($"{piece}/condition");
            await page.Faultless("condition over time");
        }
    }

    [Fact]
    public async Task The_keyboard_alone_looks_again_and_ends_it()
    {
        var gown = await host.Enter(new() { ["name"] = "By keyboard", ["condition"] = new JsonArray(new JsonObject { ["what"] = "stain", ["part"] = "neck", ["date"] = "2025-01-01" }) });
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{gown.Id()}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Look at it again: Stain, neck" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync(u => u.Contains("continues=", StringComparison.Ordinal));
        await Expect(page.GetByLabel("Where on the piece", new() { Exact = true })).ToHaveValueAsync("neck");
        await page.GetByLabel("How much").FocusAsync();
        await page.Keyboard.TypeAsync("3 in");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync(u => u.EndsWith(gown.Id(), StringComparison.Ordinal) || u.Contains($"{gown.Id()}#", StringComparison.Ordinal));
        await page.Locator(".ending summary").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".ending")).ToHaveAttributeAsync("open", "");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(":focus")).ToHaveAttributeAsync("name", "date");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByText("1 finding over and done with")).ToBeVisibleAsync();
        Assert.Equal(2, (await host.Garment(gown.Id()))["condition"]!.AsArray().Count(f => f!["ended"] is not null));
    }

    [Fact]
    public async Task What_is_private_is_folded_away_and_not_on_paper()
    {
        var gown = await host.Enter(new() { ["name"] = "Private matters", ["acquired"] = new JsonObject { ["price"] = "40 pounds" } });
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{gown.Id()}");
        await Expect(page.Locator("#private").GetByText("40 pounds")).ToBeHiddenAsync();
        await page.GetByText("Private: how it came").ClickAsync();
        await Expect(page.Locator("#private").GetByText("40 pounds")).ToBeVisibleAsync();
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(page.Locator("#private").GetByText("40 pounds")).ToBeHiddenAsync();
    }

    private static async Task LookOver(IPage page, string piece, string date, string why)
    {
        await page.GotoAsync($"{piece}/examinations/new");
        await page.GetByLabel("Date", new() { Exact = true }).FillAsync(date);
        var more = page.Locator("[name='why']");
        if (!await more.IsVisibleAsync())
        {
            await page.GetByText("More about it").First.ClickAsync();
        }

        await more.SelectOptionAsync(why);
        await Save(page);
    }

    private static async Task LookAgain(IPage page, string piece, string date, string severity, string attention, string extent)
    {
        await page.GotoAsync(piece);
        await page.GetByRole(AriaRole.Link, new() { Name = "Look at it again: Tear, hem" }).ClickAsync();
        await Expect(page.GetByText("How it was before")).ToBeVisibleAsync();
        await Expect(page.GetByLabel("What is found", new() { Exact = true })).ToHaveValueAsync("tear");
        await See(page, date, severity, attention, extent);
    }

    private static async Task See(IPage page, string date, string severity, string attention, string extent)
    {
        await page.GetByLabel("Date", new() { Exact = true }).First.FillAsync(date);
        await page.GetByLabel("Severity", new() { Exact = true }).SelectOptionAsync(severity);
        await page.GetByLabel("Attention", new() { Exact = true }).SelectOptionAsync(attention);
        await page.GetByLabel("How much").FillAsync(extent);
        await Save(page);
    }

    private static async Task Save(IPage page)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Condition", Exact = true })).ToBeVisibleAsync();
    }
}
