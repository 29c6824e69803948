using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>The three journeys with the keyboard alone, and the focus seen at every stop: drawn, with contrast, and behind nothing.</summary>
public sealed class KeyboardTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    private static readonly FilePayload Picture = new()
    {
        Name = "front.png", MimeType = "image/png",
        Buffer = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg=="),
    };

    [Theory]
    [InlineData(360)]
    [InlineData(1440)]
    public async Task A_new_piece_is_written_down(int width)
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece", TestContext.Current.CancellationToken);
        var (page, keys) = await Begin(width);
        // Listened to from the beginning: one key is quicker than the listening.
        var chooser = new TaskCompletionSource<IFileChooser>();
        page.FileChooser += (_, opened) => chooser.TrySetResult(opened);
        await keys.Enter(page.GetByRole(AriaRole.Link, new() { Name = "Write it down" }));
        await page.WaitForURLAsync("**/pieces/new");
        await keys.Skip();
        await keys.Type(page.GetByLabel("Name", new() { Exact = true }), "Mull cap with a frilled edge");
        await keys.Type(page.GetByLabel("Number"), $"KEY-{width}");
        await keys.Type(page.GetByLabel("Kind", new() { Exact = true }), "petticoat");
        await keys.Reach(page.GetByLabel("The front"));
        await page.Keyboard.PressAsync("Enter");
        await (await chooser.Task.WaitAsync(TimeSpan.FromMinutes(2), TestContext.Current.CancellationToken)).SetFilesAsync(Picture);
        await keys.Reach(page.Locator("[name=overall]").First);
        await page.Keyboard.PressAsync("ArrowDown");
        await keys.Reach(page.GetByRole(AriaRole.Checkbox, new() { Name = "Mould" }));
        await page.Keyboard.PressAsync("Space");
        await keys.Enter(page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }));

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Mull cap with a frilled edge", Level = 1 })).ToBeVisibleAsync();
        var piece = await host.Garment(page.Url.Split('/')[^1].Split('#')[0]);
        Assert.Equal(($"KEY-{width}", "petticoat", "fair", "mould"), (piece["number"]!.ToString(), piece["kind"]!.ToString(), piece["overall"]!.ToString(), piece["condition"]![0]!["what"]!.ToString()));
        Assert.Single(piece["pictures"]!.AsArray());
    }

    [Theory]
    [InlineData(360)]
    [InlineData(1440)]
    public async Task An_example_is_found_and_a_worksheet_made_from_it(int width)
    {
        var dress = await host.BabyDress($"FOUND-{width}");
        var (page, keys) = await Begin(width);
        await keys.Enter(page.GetByRole(AriaRole.Link, new() { Name = "Find examples" }));
        await page.WaitForURLAsync("**/examples");
        await keys.Skip();
        await keys.Type(page.GetByLabel("What are you looking for?"), "pin tucks by hand on a yoke");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**q=pin**");
        await keys.Skip();
        await keys.Enter(page.Locator($".tile a[href^='/pieces/{dress.Id()}']"));
        await page.WaitForURLAsync("**/pieces/**");

        // The focus begins where the example's technique is shown.
        await Expect(page.Locator($"[id='{dress.Tucks()}'] h3")).ToBeInViewportAsync();
        await keys.Enter(page.Locator($"[id='{dress.Tucks()}']").GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" }));
        await page.WaitForURLAsync("**/worksheets/new**");
        await keys.Skip();
        await keys.Type(page.GetByLabel("Finished width"), "9 in");
        await keys.Enter(page.GetByRole(AriaRole.Button, new() { Name = "Make the worksheet" }).Last);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Every fold and stitching line" })).ToBeVisibleAsync();
        await Expect(page.Locator(".sums dd").First).ToContainTextAsync("9 in");
        await keys.Reach(page.GetByRole(AriaRole.Link, new() { Name = "Print with the gauge (PDF)" }));
        await keys.Reach(page.Locator(".diagram"));
        if (width < 500)
        {
            // Wider than the telephone: the arrows move it.
            await page.Keyboard.PressAsync("ArrowRight");
            await Wait.Until(() => page.Locator(".diagram").EvaluateAsync<bool>("d => d.scrollLeft > 0"), "the diagram has moved");
        }
    }

    [Fact]
    public async Task A_tick_that_answers_at_once_keeps_the_keyboard_where_it_was()
    {
        await host.BabyDress("TICKED");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/examples");
        var keys = new Keys(page);
        await keys.Skip();
        await keys.Reach(page.GetByRole(AriaRole.Group, new() { Name = "Kind of tuck" }).GetByLabel("Pin tucks"));
        await page.Keyboard.PressAsync("Space");
        await page.WaitForURLAsync("**tuckKind=pin**");
        await Expect(page.GetByRole(AriaRole.Group, new() { Name = "Kind of tuck" }).GetByLabel("Pin tucks")).ToBeFocusedAsync();
        await keys.Reach(page.GetByRole(AriaRole.Group, new() { Name = "Sewn by" }).GetByRole(AriaRole.Checkbox).First);
    }

    [Theory]
    [InlineData(360, false)]
    [InlineData(1440, true)]
    public async Task The_focus_is_seen_at_every_stop_of_the_main_pages(int width, bool dark)
    {
        var dress = await host.BabyDress($"STOPS-{width}");
        var piece = $"/pieces/{dress.Id()}";
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak" });
        var picture = await RegionTests.AddPicture(host, dress.Id());
        var sheet = await host.Sheet(dress);
        var page = await chromium.Open(host.Address, width: width, dark: dark);
        var wrong = new List<string>();
        foreach (var address in new[]
        {
            "/", "/pieces", "/pieces?as=table", "/pieces/new", "/pieces/new?depth=full", "/examples?q=pin+tucks", piece, $"{piece}/edit", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/condition/new",
            $"{piece}/look-over", $"{piece}/history/1", $"{piece}/dating", $"/pictures/{picture}", $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", sheet, $"{sheet}/at-the-table",
            "/lessons", "/questions", "/numbers", "/care", "/words?q=torchon", "/work-it-out", "/work-it-out/tucks", "/guide/measuring-a-tuck",
        })
        {
            await page.GotoAsync(address);
            wrong.AddRange((await page.UnseenStops()).Select(w => $"{address}: {w}"));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    private async Task<(IPage Page, Keys Keys)> Begin(int width)
    {
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync("/");
        var keys = new Keys(page);
        await keys.Skip();
        return (page, keys);
    }
}
