using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>The three journeys, each with script and without.</summary>
public sealed class JourneyTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    // A picture of one white pixel is a picture.
    private static readonly byte[] Picture = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg==");

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_new_piece_comes_in_with_its_tucks_its_lace_and_a_picture(bool script)
    {
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Write it down" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "All of it, part by part" }).Follow();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Lawn dress with a tucked skirt");
        await page.GetByLabel("Number").FillAsync($"J-{(script ? 1 : 2)}");
        await page.GetByLabel("Kind", new() { Exact = true }).SelectOptionAsync("childs-dress");
        await page.GetByLabel("Dated", new() { Exact = true }).FillAsync("1905~");

        await page.Locator("#lower > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:tucks:skirt']").Follow();
        await page.Locator("[name='techniques[0].tuckKind']").SelectOptionAsync("growth");
        await Expect(page.Locator("[name='techniques[0].part']")).ToHaveValueAsync("skirt");
        await page.Locator("[name='techniques[0].groups[0].tucks']").FillAsync("3");
        await page.Locator("[name='techniques[0].groups[0].width']").FillAsync("1/2 in");
        await page.Locator("[name='techniques[0].groups[0].space']").FillAsync("1/4 in");
        await page.Locator("[name='techniques[0].measuredFrom']").SelectOptionAsync("hem");
        await page.Locator("[name='techniques[0].turned']").SelectOptionAsync("down");
        await page.Locator("#lower > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:lace:skirt']").Follow();
        await page.Locator("[name='techniques[1].lace']").SelectOptionAsync("torchon");
        await page.Locator("button[value='condition::skirt']").Follow();
        await page.Locator("[name='condition[0].what']").SelectOptionAsync("rust-mark");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Lawn dress with a tucked skirt", Level = 1 })).ToBeVisibleAsync();
        await Expect(page.GetByText("about 1905").First).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Growth tucks, skirt" })).ToBeVisibleAsync();
        await Expect(page.Locator("svg.swatch")).ToHaveCountAsync(1);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Torchon lace" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Rust mark" })).ToBeVisibleAsync();

        await page.GetByLabel("From the telephone or this computer").SetInputFilesAsync(new FilePayload { Name = "front.png", MimeType = "image/png", Buffer = Picture });
        await page.GetByLabel("What they show").FillAsync("The front, by daylight");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByAltText("The front, by daylight")).ToBeVisibleAsync();

        var garment = await host.Garment(page.Url.Split('/')[^1].Split('#')[0]);
        // From the hem and turned down: the folds lie towards the start of the row.
        Assert.Equal("towards-start", garment["techniques"]![0]!["lies"]!.ToString());
        Assert.Equal(12.7m, garment["techniques"]![0]!["groups"]![0]!["width"]!["mm"]!.GetValue<decimal>());
        Assert.Equal("keep-apart", garment["handling"]!.ToString());
        Assert.Single(garment["pictures"]!.AsArray());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Examples_are_found_as_one_says_it_narrowed_down_and_a_part_taken_away(bool script)
    {
        var number = $"E-{(script ? 1 : 2)}";
        var dress = await host.BabyDress(number);
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync("/examples");
        await page.GetByLabel("What are you looking for?").FillAsync("pin tucks by hand on a yoke, with torchon");
        await page.GetByRole(AriaRole.Button, new() { Name = "Find", Exact = true }).ClickAsync();

        var parts = page.Locator(".chips li");
        await Expect(parts).ToHaveCountAsync(4);
        await Expect(page.Locator($".tile a[href^='/pieces/{dress.Id()}']")).ToHaveCountAsync(1);
        await page.GetByRole(AriaRole.Link, new() { Name = "Torchon" }).Follow();
        await Expect(parts).ToHaveCountAsync(3);

        await page.GetByRole(AriaRole.Group, new() { Name = "Kind of tuck" }).GetByLabel("Pin tucks").CheckAsync();
        if (!script)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Show these" }).ClickAsync();
        }

        await page.WaitForURLAsync("**tuckKind=pin**");
        await page.Locator($".tile a[href^='/pieces/{dress.Id()}']").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Pin tucks, yoke" })).ToBeVisibleAsync();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_run_is_made_again_and_when_nothing_fits_the_nearest_is_one_press_away(bool script)
    {
        var dress = await host.BabyDress($"W-{(script ? 1 : 2)}");
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Make a worksheet" }).ClickAsync();

        // Eight tucks of 1/16 in with seven spaces of 3/16 in and 1/2 in at each end are 2 13/16 in: never 9, and that is the nearest.
        await page.GetByLabel("Finished width").FillAsync("9 in");
        foreach (var (name, from, to) in ((string, string, string)[])[("tucks", "6", "8"), ("space", "3/16 in", "3/16 in"), ("ends", "1/2 in", "1/2 in")])
        {
            await page.Locator($"[name='onto.{name}.from']").FillAsync(from);
            await page.Locator($"[name='onto.{name}.to']").FillAsync(to);
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Make the worksheet" }).Last.ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Nothing fits" })).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Finished width")).ToHaveValueAsync("9 in");
        await page.Locator("button[name=nearest][value='finished=2 13/16 in']").ClickAsync();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Every fold and stitching line" })).ToBeVisibleAsync();
        await Expect(page.Locator(".drawn")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order of work" })).ToBeVisibleAsync();
        var pdf = await page.GetByRole(AriaRole.Link, new() { Name = "Print with the gauge (PDF)" }).GetAttributeAsync("href");
        var print = await host.Client.GetByteArrayAsync(pdf, TestContext.Current.CancellationToken);
        Assert.Equal("%PDF-"u8.ToArray(), print[..5]);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_sum_with_nothing_recorded_shows_its_lines_and_can_be_kept(bool script)
    {
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync("/work-it-out");
        await page.GetByRole(AriaRole.Link, new() { Name = "A run of tucks" }).ClickAsync();
        await page.Locator("[name='groups[0].tucks']").FillAsync("5");
        await page.Locator("[name='groups[0].width']").FillAsync("1/8 in");
        await page.Locator("[name='groups[0].space']").FillAsync("1/4 in");
        await page.Locator("[name='lead']").FillAsync("1 in");
        await page.Locator("[name='trail']").FillAsync("1 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).Last.ClickAsync();

        // 1 + 5 × 1/8 + 4 × 1/4 + 1 in finished; twice 5/8 in taken up.
        await Expect(page.Locator(".sums dd")).ToHaveTextAsync(["3 5/8 in (≈ 92.1 mm)", "4 7/8 in (≈ 123.8 mm)", "1 1/4 in (≈ 31.8 mm)", "5"]);
        await Expect(page.Locator("table tbody tr")).ToHaveCountAsync(5);
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it as a worksheet" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Order of work" })).ToBeVisibleAsync();
    }
}
