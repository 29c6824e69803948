using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Every page, by day and by night, on a telephone and on a desk.</summary>
public sealed class PageTests(ArchiveHost host, Chromium chromium, PostgresServer postgres) : IClassFixture<ArchiveHost>
{
    [Fact]
    public async Task An_empty_archive_says_what_to_do_first()
    {
        await using var empty = await ArchiveHost.Start(postgres);
        var page = await chromium.Open(empty.Address);
        await page.GotoAsync("/");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What to do first" })).ToBeVisibleAsync();
        await page.Faultless("/");
    }

    /// <summary>By day all rules; by night, where nothing but the colours is another, those about colours.</summary>
    [Fact]
    public async Task No_page_has_a_fault_that_can_be_found_by_rule()
    {
        var page = await chromium.Open(host.Address);
        foreach (var address in await EveryPage.Of(host))
        {
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
            await page.GotoAsync(address);
            await page.Faultless(address);
            var day = await Ground(page);
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
            Assert.NotEqual(day, await Ground(page));
            await page.Faultless($"{address} by night", "color-contrast", "link-in-text-block");
        }

        static Task<string> Ground(IPage page) => page.EvaluateAsync<string>("getComputedStyle(document.body).color");
    }

    /// <summary>Opened on a telephone and then widened; also where the letters do not come in time: those of the machine take another width.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task No_page_scrolls_sideways(bool letters)
    {
        var page = await chromium.Open(host.Address, width: 360);
        if (!letters) await page.Context.RouteAsync("**/*.woff2", route => route.AbortAsync());
        foreach (var address in await EveryPage.Of(host))
        {
            await page.SetViewportSizeAsync(360, 780);
            await page.GotoAsync(address);
            await page.Fits(360, 768, 1440);
            if (!letters) Assert.False(await page.EvaluateAsync<bool>("[...document.fonts].some(f => f.status === 'loaded')"), $"{address}: letters came all the same");
        }
    }

    [Fact]
    public async Task No_page_needs_anything_from_elsewhere_or_breaks_its_own_policy()
    {
        var page = await chromium.Open(host.Address);
        var wrong = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("404", StringComparison.Ordinal)) wrong.Add($"{page.Url}: {message.Text}");
        };
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(host.Address.ToString(), StringComparison.Ordinal)) wrong.Add($"{page.Url} asks for {request.Url}");
        };
        foreach (var address in await EveryPage.Of(host))
        {
            var answer = await page.GotoAsync(address);
            Assert.Contains("default-src 'self'", answer!.Headers["content-security-policy"], StringComparison.Ordinal);
        }

        Assert.Empty(wrong);
    }

    [Fact]
    public async Task The_keyboard_reaches_the_work_past_the_navigation_and_shows_where_it_is()
    {
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/pieces/new");
        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the page", await page.EvaluateAsync<string>("document.activeElement.textContent"));
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**#work");
        for (var presses = 0; presses < 3; presses++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string>("document.activeElement.name ?? ''") == "name") break;
        }

        Assert.Equal("name", await page.EvaluateAsync<string>("document.activeElement.name ?? ''"));
        Assert.NotEqual("none", await page.EvaluateAsync<string>("getComputedStyle(document.activeElement).outlineStyle"));
    }
}
