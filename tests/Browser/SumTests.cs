using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Every sum tried as she would: its example filled in, wide and narrow, by day and by night.</summary>
public sealed class SumTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    /// <summary>On a telephone by day all rules; on a desk by night, where nothing but room and colours is another, those about colours.</summary>
    [Fact]
    public async Task Every_sum_shows_its_answer_and_its_drawing_without_a_fault()
    {
        var page = await chromium.Open(host.Address, width: 360);
        var wrong = new List<string>();
        foreach (var sum in AllSums.InOrder)
        {
            await page.SetViewportSizeAsync(360, 780);
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
            await page.GotoAsync($"/work-it-out/{sum.Slug}");
            await page.GetByRole(AriaRole.Link, new() { Name = "Fill in an example" }).Follow();
            if (!await page.GetByRole(AriaRole.Heading, new() { Name = "What it comes to" }).IsVisibleAsync() || !await page.Locator("svg.drawn").IsVisibleAsync())
            {
                wrong.Add($"{sum.Slug}: no answer or no drawing");
                continue;
            }

            await Drawn(sum);
            await page.Faultless(sum.Slug);
            await page.SetViewportSizeAsync(1280, 900);
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
            await Drawn(sum);
            await page.Faultless($"{sum.Slug} by night", "color-contrast", "link-in-text-block");
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));

        // Nothing runs out of the window, and no text of a drawing out of it, as fonts really measure.
        async Task Drawn(Sum sum)
        {
            await page.Fits();
            if (await page.EvaluateAsync<string>(
                "(() => { const s = document.querySelector('svg.drawn').getBoundingClientRect(); const t = [...document.querySelectorAll('svg.drawn text')].find(t => { const b = t.getBoundingClientRect(); return b.left < s.left - 1 || b.right > s.right + 1 || b.top < s.top - 1 || b.bottom > s.bottom + 1; }); return t ? t.textContent : ''; })()") is { Length: > 0 } text)
            {
                wrong.Add($"{sum.Slug}: “{text}” runs out of the drawing");
            }
        }
    }

    [Fact]
    public async Task Every_sum_stands_on_its_shelf()
    {
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/work-it-out");
        foreach (var sum in AllSums.InOrder)
        {
            Assert.Equal(1, await page.Locator($".shelf a[href='/work-it-out/{sum.Slug}']").CountAsync());
        }
    }

    [Fact]
    public async Task What_is_wrong_stands_at_its_field_and_nothing_typed_is_lost()
    {
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync("/work-it-out/growth");
        await page.GetByLabel("Tucks", new() { Exact = true }).FillAsync("three");
        await page.GetByLabel("Width of a tuck", new() { Exact = true }).FillAsync("1/2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).Last.ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("2 things need another look");
        await Assertions.Expect(page.GetByLabel("Tucks", new() { Exact = true })).ToHaveValueAsync("three");
        await Assertions.Expect(page.GetByLabel("Width of a tuck", new() { Exact = true })).ToHaveAttributeAsync("aria-invalid", "true");
    }
}
