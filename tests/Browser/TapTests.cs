using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>
/// The three journeys in few taps, on a telephone, a tablet and at a desk, counted as <see cref="Fingers"/> says: everything the
/// quick form asks in 25, from the first page to the technique of an example in 6, from there to a worksheet in 8.
/// </summary>
public sealed class TapTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(360)]
    [InlineData(768)]
    [InlineData(1440)]
    public async Task A_new_piece_with_everything_the_quick_form_asks_takes_at_most_25(int width)
    {
        var (page, hand) = await Begin(width);
        await hand.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Write it down" }));
        await hand.Type(page.GetByLabel("Name", new() { Exact = true }), "Cambric petticoat with a tucked flounce");
        await hand.Type(page.GetByLabel("Number"), $"TAP-{width}");
        await hand.Choose(page.GetByLabel("Kind", new() { Exact = true }), "petticoat");
        foreach (var side in new[] { "The front", "The back", "One detail, close to" })
        {
            await hand.Give(page.GetByLabel(side), new() { Name = $"{side}.png", MimeType = "image/png", Buffer = Made.Png(64 + side.Length, 64) });
        }

        await hand.Tap(page.GetByText("worn, but holds"));
        await hand.Tap(page.GetByText("Mould", new() { Exact = true }));
        await hand.Tap(page.Locator("label.tap:has([name=handling][value=photograph-only])"));
        await hand.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }));

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Cambric petticoat with a tucked flounce", Level = 1 })).ToBeVisibleAsync();
        await page.Fits();
        var piece = await host.Garment(page.Url.Split('/')[^1].Split('#')[0]);
        Assert.Equal(($"TAP-{width}", "petticoat", "fair", "photograph-only"), (piece["number"]!.ToString(), piece["kind"]!.ToString(), piece["overall"]!.ToString(), piece["handling"]!.ToString()));
        Assert.Equal(3, piece["pictures"]!.AsArray().Count);
        Assert.InRange(hand.Count, 1, 25);
    }

    [Theory]
    [InlineData(360)]
    [InlineData(768)]
    [InlineData(1440)]
    public async Task An_example_asked_for_as_one_says_it_takes_at_most_6_and_a_worksheet_from_it_at_most_8(int width)
    {
        var dress = await host.BabyDress($"SAID-{width}");
        var (page, hand) = await Begin(width);
        await hand.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Find examples" }));
        await hand.Type(page.GetByLabel("What are you looking for?"), "pin tucks by hand on a yoke, with torchon, before 1910");
        await hand.Press("Enter");
        await Expect(page.Locator(".chips li")).ToHaveCountAsync(5);
        await hand.Tap(page.Locator($".tile a[href^='/pieces/{dress.Id()}']"));
        await Shown(page, dress.Tucks());
        Assert.InRange(hand.Count, 1, 6);

        // From here on for a worksheet: her own width, made, and the sheet to print.
        var on = new Fingers(page, width < 1000);
        await on.Tap(page.Locator($"[id='{dress.Tucks()}']").GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" }));
        await on.Type(page.GetByLabel("Finished width"), "9 in");
        await on.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Make the worksheet" }).Last);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Every fold and stitching line" })).ToBeVisibleAsync();
        await Expect(page.Locator(".sums dd").First).ToContainTextAsync("9 in");
        await page.Fits();
        var print = await page.RunAndWaitForResponseAsync(() => on.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Print with the gauge (PDF)" })), "**/*.pdf");
        Assert.Equal((200, "application/pdf"), (print.Status, print.Headers["content-type"]));
        Assert.InRange(on.Count, 1, 8);
    }

    [Theory]
    [InlineData(360)]
    [InlineData(1440)]
    public async Task An_example_narrowed_down_by_ticks_takes_at_most_6_and_made_as_recorded_at_most_8(int width)
    {
        var dress = await host.BabyDress($"TICK-{width}");
        var (page, hand) = await Begin(width);
        await hand.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Find examples" }));
        if (width < 900)
        {
            await hand.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Narrow it down" }));
        }

        await hand.Tap(page.GetByRole(AriaRole.Group, new() { Name = "Kind of tuck" }).GetByLabel("Pin tucks"));
        await page.WaitForURLAsync("**tuckKind=pin**");
        await hand.Tap(page.Locator($".tile a[href^='/pieces/{dress.Id()}']"));
        await Shown(page, dress.Tucks());
        Assert.InRange(hand.Count, 1, 6);

        var on = new Fingers(page, width < 1000);
        await on.Tap(page.Locator($"[id='{dress.Tucks()}']").GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" }));
        await on.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Make it exactly as recorded" }));
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Every fold and stitching line" })).ToBeVisibleAsync();
        await page.Fits();
        Assert.InRange(on.Count, 1, 8);
    }

    private static async Task Shown(IPage page, string technique)
    {
        var entry = page.Locator($"[id='{technique}']");
        await Expect(entry.GetByRole(AriaRole.Heading, new() { Name = "Pin tucks, yoke" })).ToBeInViewportAsync();
        await Expect(entry.GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" })).ToBeInViewportAsync();
    }

    // From the first page, as if nobody had begun anything; telephone and tablet are used with the fingers.
    private async Task<(IPage Page, Fingers Hand)> Begin(int width)
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece", TestContext.Current.CancellationToken);
        var touch = width < 1000;
        var page = await chromium.Open(host.Address, width: width, touch: touch);
        await page.GotoAsync("/");
        return (page, new(page, touch));
    }
}
