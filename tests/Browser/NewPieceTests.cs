using System.IO.Compression;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A new piece comes in at both depths, on the telephone and at the desk, and nothing typed is lost on the way.</summary>
public sealed class NewPieceTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>, IAsyncLifetime
{
    // A picture of one white pixel is a picture.
    private static readonly FilePayload Picture = new()
    {
        Name = "front.png", MimeType = "image/png",
        Buffer = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg=="),
    };

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Each test begins without what the one before has left, and with a piece to count on from.
    public async ValueTask InitializeAsync()
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece", Stop);
        await host.Client.DeleteAsync("/api/drafts/new-piece:full", Stop);
        if ((await host.Count()) == 0)
        {
            await host.BabyDress("G-014");
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <summary>Telephone and desk, with script and without.</summary>
    public static TheoryData<int, bool> Everywhere => new() { { 390, true }, { 390, false }, { 1280, true }, { 1280, false } };

    [Theory]
    [MemberData(nameof(Everywhere))]
    public async Task The_first_things_are_written_down_with_its_pictures_and_the_page_says_what_is_missing(int width, bool script)
    {
        var page = await chromium.Open(host.Address, script, width);
        await page.GotoAsync("/pieces/new");
        var number = await page.GetByLabel("Number").InputValueAsync();
        Assert.Matches("^G-0(1[5-9]|[2-9][0-9])$", number);
        await Expect(page.GetByRole(AriaRole.Radio, new() { Name = "Keep apart" })).ToBeCheckedAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Cambric petticoat");
        await page.GetByLabel("Kind", new() { Exact = true }).SelectOptionAsync("petticoat");
        await page.GetByLabel("The front").SetInputFilesAsync(Picture);
        await page.GetByText("worn, but holds").ClickAsync();
        await page.GetByText("Mould", new() { Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Cambric petticoat", Level = 1 })).ToBeVisibleAsync();
        var missing = page.GetByRole(AriaRole.Region, new() { Name = "Still to write down" }).GetByRole(AriaRole.Link);
        await Expect(missing.Filter(new() { HasText = "A picture of the back" })).ToHaveCountAsync(1);
        await Expect(missing.Filter(new() { HasText = "A picture of the front" })).ToHaveCountAsync(0);
        await page.WaitForLoadStateAsync();
        foreach (var link in await missing.AllAsync())
        {
            using var there = await host.Client.GetAsync((await link.GetAttributeAsync("href"))!.Split('#')[0], Stop);
            Assert.True(there.IsSuccessStatusCode, await link.InnerTextAsync());
        }

        var garment = await host.Garment(IdOf(page));
        Assert.Equal((number, "petticoat", "fair", "keep-apart"), (garment["number"]!.ToString(), garment["kind"]!.ToString(), garment["overall"]!.ToString(), garment["handling"]!.ToString()));
        Assert.Equal("front", Assert.Single(garment["pictures"]!.AsArray())!["view"]!.ToString());
        var mould = Assert.Single(garment["condition"]!.AsArray())!;
        Assert.Equal(("mould", "before-handling"), (mould["what"]!.ToString(), mould["attention"]!.ToString()));
        Assert.Null(await host.Draft("new-piece"));
    }

    [Theory]
    [MemberData(nameof(Everywhere))]
    public async Task All_of_it_is_written_down_part_by_part_and_each_step_can_be_undone(int width, bool script)
    {
        var page = await chromium.Open(host.Address, script, width);
        await page.GotoAsync("/pieces/new?depth=full");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Nainsook nightgown");
        await page.Locator("#top > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:tucks:neck']").Follow();
        await page.Locator("[name='techniques[0].groups[0].tucks']").FillAsync("6");
        await page.Locator("[name='techniques[0].groups[0].width']").FillAsync("1/16 in");
        await page.Locator("#lower button[value='repairs::skirt']").Follow();
        await page.Locator("[name='repairs[0].method']").SelectOptionAsync("darn");
        await page.Locator("#lower button[value='condition::skirt']").Follow();
        await Expect(page.Locator("[name='condition[0].part']")).ToHaveValueAsync("skirt");

        // One press each: the row added last, then the way of mending.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).Follow();
        await Expect(page.Locator("[name='condition[0].part']")).ToHaveCountAsync(0);
        await Expect(page.Locator("[name='repairs[0].method']")).ToHaveValueAsync("darn");
        await Expect(page.Locator("#top [name='techniques[0].groups[0].tucks']")).ToHaveValueAsync("6");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).Follow();
        await Expect(page.Locator("[name='repairs[0].method']")).ToHaveValueAsync("");
        await page.Locator("[name='repairs[0].method']").SelectOptionAsync("patch");

        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Nainsook nightgown", Level = 1 })).ToBeVisibleAsync();
        var garment = await host.Garment(IdOf(page));
        Assert.Equal("neck", Assert.Single(garment["techniques"]!.AsArray())!["part"]!.ToString());
        Assert.Equal(("skirt", "patch"), (garment["repairs"]![0]!["part"]!.ToString(), garment["repairs"]![0]!["method"]!.ToString()));
        Assert.Null(await host.Draft("new-piece:full"));
    }

    [Theory]
    [InlineData(390, "")]
    [InlineData(1280, "?depth=full")]
    public async Task With_the_connection_dropped_in_the_middle_nothing_typed_is_lost(int width, string depth)
    {
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync("/pieces/new" + depth);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Lawn slip");
        await Expect(Said(page)).ToHaveTextAsync("Kept as a draft.");
        await page.Context.SetOfflineAsync(true);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Lawn slip with a beaded waist");
        await Expect(Said(page)).ToContainTextAsync("does not answer");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(Said(page)).ToContainTextAsync("Not saved yet");
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("Lawn slip with a beaded waist");

        // The battery dies; what only this browser has comes in with the next look at the form.
        var context = page.Context;
        await page.CloseAsync();
        await context.SetOfflineAsync(false);
        page = await context.NewPageAsync();
        await page.GotoAsync("/pieces/new" + depth);
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("Lawn slip with a beaded waist");
        await Expect(page.GetByText("Your draft of a new piece is here")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Lawn slip with a beaded waist");
        await page.GotoAsync("/pieces/new" + depth);
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("");
    }

    [Theory]
    [InlineData(390, "")]
    [InlineData(1280, "?depth=full")]
    public async Task With_the_server_gone_and_come_again_in_the_middle_it_goes_on_by_itself(int width, string depth)
    {
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync("/pieces/new" + depth);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Mull fichu");
        await Expect(Said(page)).ToHaveTextAsync("Kept as a draft.");
        await host.StopAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Mull fichu, darned");
        await Expect(Said(page)).ToContainTextAsync("does not answer");
        await host.StartAsync();
        await Expect(Said(page)).ToHaveTextAsync("Kept as a draft.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Mull fichu, darned");
    }

    [Theory]
    [InlineData(390, "", "new-piece")]
    [InlineData(1280, "?depth=full", "new-piece:full")]
    public async Task Without_script_a_press_keeps_the_draft_through_a_server_that_was_gone(int width, string depth, string form)
    {
        var page = await chromium.Open(host.Address, script: false, width);
        await page.GotoAsync("/pieces/new" + depth);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Swiss bonnet");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep as a draft" }).ClickAsync();
        await Expect(page.GetByText("Your draft of a new piece is here")).ToBeVisibleAsync();
        await host.StopAsync();
        await host.StartAsync();
        await page.GotoAsync("/pieces/new" + depth);
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("Swiss bonnet");

        // Begun afresh, and that is undone too.
        await page.GetByRole(AriaRole.Button, new() { Name = "Start afresh" }).ClickAsync();
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).Follow();
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("Swiss bonnet");

        // A save that is refused keeps what was typed as well, for a browser that is closed now.
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("");
        await page.GetByLabel("Number").FillAsync("B-7");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToBeVisibleAsync();
        Assert.Equal("B-7", (await host.Draft(form))!["number"]!.ToString());
    }

    [Fact]
    public async Task Without_script_and_connection_the_browser_sends_again_what_was_typed()
    {
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Dimity apron");
        await page.Context.SetOfflineAsync(true);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("form")).ToHaveCountAsync(0);
        await page.Context.SetOfflineAsync(false);
        await page.ReloadAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Dimity apron");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_number_taken_meanwhile_is_told_with_the_next_one_and_chosen_pictures_stay(bool script)
    {
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync("/pieces/new");
        var number = await page.GetByLabel("Number").InputValueAsync();
        await host.BabyDress(number);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A bib");
        await page.GetByLabel("The front").SetInputFilesAsync(Picture);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync($"{number} is the number of");
        Assert.Equal(script ? 1 : 0, await page.GetByLabel("The front").EvaluateAsync<int>("input => input.files.length"));
        if (!script)
        {
            await Expect(page.GetByText("choose them once more")).ToBeVisibleAsync();
        }

        await page.Locator("button[name=use]").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("A bib");
        Assert.Equal(script ? 1 : 0, (await host.Garment(IdOf(page)))["pictures"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_file_that_is_no_picture_leaves_no_piece_behind()
    {
        var before = await host.Count();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A collar");
        await page.GetByLabel("The back").SetInputFilesAsync(new FilePayload { Name = "back.jpg", MimeType = "image/jpeg", Buffer = "not a picture"u8.ToArray() });
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("back.jpg");
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("A collar");
        Assert.Equal(before, await host.Count());
    }

    [Fact]
    public async Task What_was_begun_short_is_gone_on_with_in_full()
    {
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A tea gown");
        await page.GetByText("Mould", new() { Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Write all of it down now" }).ClickAsync();
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("A tea gown");
        await Expect(page.Locator("#elsewhere [name='condition[0].what']")).ToHaveValueAsync("mould");
    }

    [Fact]
    public async Task A_piece_that_is_there_is_looked_over_part_by_part_and_keeps_what_it_has()
    {
        var dress = await host.BabyDress("P-1");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}/look-over");
        await Expect(page.Locator("#body").GetByRole(AriaRole.Link, new() { Name = "Pin tucks" })).ToHaveCountAsync(1);
        await page.Locator("#sleeves > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:insertion:sleeve']").Follow();
        await page.Locator("[name='techniques[0].width']").FillAsync("3/8");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        await Expect(page.Locator("[name='techniques[0].width'][aria-invalid=true]")).ToHaveValueAsync("3/8");
        await page.Locator("[name='techniques[0].width']").FillAsync("3/8 in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Nainsook baby dress with a tucked yoke");
        var techniques = (await host.Garment(dress.Id()))["techniques"]!.AsArray();
        Assert.Equal(["tucks", "lace", "insertion"], techniques.Select(t => t!["kind"]!.ToString()));
        Assert.Equal(dress.Tucks(), techniques[0]!["id"]!.ToString());
    }

    [Theory]
    [InlineData(390, "")]
    [InlineData(390, "?depth=full")]
    [InlineData(1280, "")]
    [InlineData(1280, "?depth=full")]
    public async Task Neither_depth_has_a_fault_that_can_be_found_by_rule_with_a_draft_in_it(int width, string depth)
    {
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync("/pieces/new" + depth);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A guimpe");
        await Expect(Said(page)).ToHaveTextAsync("Kept as a draft.");
        await page.ReloadAsync();
        await Expect(page.GetByText("Your draft of a new piece is here")).ToBeVisibleAsync();
        await page.Faultless();
    }

    [Theory]
    [InlineData("/pieces/new")]
    [InlineData("/pieces/new?depth=full")]
    public async Task The_page_of_a_new_piece_is_light(string address)
    {
        var page = await chromium.Open(host.Address);
        List<string> parts = [];
        page.Request += (_, request) => parts.Add(request.Url);
        await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.NetworkIdle });
        long all = 0;
        foreach (var part in parts.Distinct().Where(p => !p.EndsWith(".woff2", StringComparison.Ordinal)))
        {
            using var zipped = new MemoryStream();
            await using (var zip = new GZipStream(zipped, CompressionLevel.Optimal, leaveOpen: true))
            {
                await zip.WriteAsync(await host.Client.GetByteArrayAsync(part, Stop), Stop);
            }

            all += zipped.Length;
        }

        Assert.True(parts.Count > 5, "only the page itself was counted");
        Assert.True(all < 150_000, $"{address} weighs {all} bytes compressed");
    }

    private static ILocator Said(IPage page) => page.Locator("[data-draft-said]");

    private static string IdOf(IPage page) => page.Url.Split('/')[^1].Split('#')[0];
}
