using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Pages in the states one rarely looks at, by day and by night: with faults, unfolded, met by a later save, taken up again, empty.</summary>
public sealed class StateTests(ArchiveHost host, Chromium chromium, PostgresServer postgres) : IClassFixture<ArchiveHost>
{
    [Fact]
    public async Task A_form_with_faults_has_none_that_can_be_found_by_rule()
    {
        var dress = await host.BabyDress("FAULT");
        var (piece, sheet) = ($"/pieces/{dress.Id()}", await host.Sheet(dress));
        await Nothing();
        var page = await chromium.Open(host.Address, width: 360);

        // A number that is taken: the next free one is offered.
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Number").FillAsync("FAULT");
        await Refused(page, "Save the piece");

        // A date and measures that can't be read.
        await page.GotoAsync("/pieces/new?depth=full");
        await page.GetByLabel("Dated", new() { Exact = true }).FillAsync("19th of never");
        await page.Locator("#lower > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:tucks:skirt']").ClickAsync();
        await page.Locator("[name='techniques[0].groups[0].width']").FillAsync("3/8");
        await Refused(page, "Save the piece");
        await page.GotoAsync($"{piece}/techniques/new?kind=tucks");
        await page.Locator("[name='groups[0].tucks']").FillAsync("four");
        await page.Locator("[name='groups[0].width']").FillAsync("3/8");
        await Refused(page, "Save");
        await page.GotoAsync($"{piece}/condition/new");
        await page.GetByLabel("Date", new() { Exact = true }).First.FillAsync("never");
        await Refused(page, "Save");

        // A worksheet: measures that can't be read, and such as fit nothing.
        var again = $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}";
        await page.GotoAsync(again);
        await page.GetByLabel("Finished width").FillAsync("nine");
        await page.Locator("[name='onto.space.to']").FillAsync("3/8");
        await Refused(page, "Make the worksheet");
        await page.GotoAsync(again);
        await page.GetByLabel("Finished width").FillAsync("1/8 in");
        await Refused(page, "Make the worksheet");
        await page.GotoAsync($"{sheet}/made-up");
        await page.GetByLabel("It measures").FillAsync("5 yards");
        await Refused(page, "Keep it");
        await page.GotoAsync(sheet);
        await page.GetByLabel("The 50 mm mark measured").FillAsync("20 mm");
        await Refused(page, "Keep it");

        // What is asked for by its address.
        foreach (var address in new[]
        {
            "/work-it-out/tucks?groups[0].tucks=five&groups[0].width=1/8&groups[0].space=1/4+in", "/work-it-out/fit?finished=twelve&tucks.from=20&tucks.to=6&width.from=1/8&width.to=1/8+in",
            "/work-it-out/growth?tucks=three&width=1/2", "/examples?from=long+ago&widthFrom=1/8",
        })
        {
            await page.GotoAsync(address);
            await Expect(page.GetByRole(AriaRole.Alert)).ToBeVisibleAsync();
            await Sound(page, address);
        }
    }

    [Fact]
    public async Task What_is_folded_away_has_no_fault_once_it_is_unfolded()
    {
        var dress = await host.BabyDress("FOLD");
        var (piece, sheet) = ($"/pieces/{dress.Id()}", await host.Sheet(dress));
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak", ["place"] = new JsonObject { ["shelf"] = "7" }, ["acquired"] = new JsonObject { ["price"] = "40 pounds" } });
        await Nothing();
        var page = await chromium.Open(host.Address, width: 360);
        foreach (var address in new[]
        {
            piece, $"{piece}/edit", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/repairs/new", $"{piece}/examinations/new", $"{piece}/look-over", $"{piece}/history", "/pieces/new?depth=full", "/pieces", "/examples?q=pin+tucks",
            $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", "/worksheets/new/side-by-side", sheet, "/work-it-out/tucks", "/work-it-out/fit", "/words/own", "/numbers", "/care",
            $"/pictures/{await RegionTests.AddPicture(host, dress.Id())}",
        })
        {
            await page.GotoAsync(address);
            await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => { d.open = true; })");
            await Sound(page, $"{address}, unfolded");
        }
    }

    [Fact]
    public async Task A_draft_taken_up_a_save_that_was_met_and_a_piece_set_aside_have_no_fault()
    {
        var dress = await host.BabyDress("MET");
        var piece = $"/pieces/{dress.Id()}";
        await Nothing();
        var page = await chromium.Open(host.Address, width: 360);
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A guimpe");
        await Expect(page.Locator("[data-draft-said]")).ToHaveTextAsync("Kept as a draft.");
        await page.GotoAsync("/pieces/new");
        await Expect(page.GetByText("Your draft of a new piece is here")).ToBeVisibleAsync();
        await Sound(page, "a draft taken up");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start afresh" }).ClickAsync();
        await Expect(page.GetByText("Begun afresh")).ToBeVisibleAsync();
        await Sound(page, "begun afresh");

        await page.GotoAsync($"{piece}/techniques/{dress.Tucks()}");
        await host.Change(dress.Id(), 1, new() { ["techniques"] = Sewn(dress, "machine-lockstitch") });
        await page.Locator("[name='sewn']").SelectOptionAsync("not-determined");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("saved by somebody else while you were writing");
        await Sound(page, "a technique met by a later save");

        await page.GotoAsync(piece);
        await page.GetByRole(AriaRole.Button, new() { Name = "Set this entry aside" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This entry is set aside" })).ToBeVisibleAsync();
        await Sound(page, "set aside");
    }

    [Fact]
    public async Task No_page_of_an_empty_archive_has_a_fault_that_can_be_found_by_rule()
    {
        await using var empty = await ArchiveHost.Start(postgres);
        var page = await chromium.Open(empty.Address, width: 360);
        foreach (var address in new[]
        {
            "/", "/pieces", "/pieces?as=table", "/pieces/many", "/pieces/new", "/examples", "/examples?q=pin+tucks", "/worksheets", "/lessons", "/lessons/add", "/questions", "/numbers", "/care",
            "/pictures/untagged", "/pictures/check", "/pictures/compare", "/words/own",
        })
        {
            await page.GotoAsync(address);
            await Sound(page, address);
        }
    }

    [Fact]
    public async Task The_page_that_holds_what_she_typed_while_the_record_is_away_has_no_fault()
    {
        using var folder = new TemporaryFolder();
        await using var record = await EmbeddedPostgres.Start(folder.Path, cancel: TestContext.Current.CancellationToken);
        await using var archive = new ArchiveHost(postgres) { ConnectionString = record.ConnectionString };
        await archive.InitializeAsync();
        var page = await chromium.Open(archive.Address, width: 360);
        var draft = await page.Context.NewPageAsync();
        await draft.GotoAsync("/pieces/new");
        await page.GotoAsync("/lessons");
        await record.DisposeAsync();

        // A form that is kept as a draft says on its own page that it is tried again.
        await draft.GetByLabel("Name", new() { Exact = true }).FillAsync("Camisole of nainsook, with beading");
        await draft.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(draft.GetByText("What you typed is kept in this browser, and it is tried again.")).ToBeVisibleAsync();
        await Sound(draft, "tried again while the record is away");

        // Any other is held on the page that tells it.
        await page.GetByLabel("Name").FillAsync("Beading, threaded");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it" }).Follow();
        await Expect(page.GetByText("held on this page")).ToBeVisibleAsync();
        await Expect(page.Locator("input[name='name']")).ToHaveValueAsync("Beading, threaded");
        await Sound(page, "held while the record is away");
    }

    private static JsonArray Sewn(JsonObject dress, string how)
    {
        var techniques = dress["techniques"]!.DeepClone().AsArray();
        techniques[0]!["sewn"] = how;
        techniques[0]!.AsObject().Remove("handStitch");
        return techniques;
    }

    // Pressed, it comes back with what is wrong, and stands up to being looked at.
    private static async Task Refused(IPage page, string button)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).Last.ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert).First).ToBeVisibleAsync();
        await Sound(page, $"{page.Url} refused");
    }

    private static async Task Sound(IPage page, string where)
    {
        await page.Faultless(where);
        await page.Fits();
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        await page.Faultless($"{where}, by night", "color-contrast");
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
    }

    // No draft of a test before.
    private async Task Nothing()
    {
        foreach (var form in new[] { "new-piece", "new-piece:full" })
        {
            await host.Client.DeleteAsync($"/api/drafts/{form}", TestContext.Current.CancellationToken);
        }
    }
}
