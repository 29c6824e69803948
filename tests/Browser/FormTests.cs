using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Forms keep what was typed and say what is wrong beside the field.</summary>
public sealed class FormTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Faults_stand_beside_their_fields_and_nothing_typed_is_lost(bool script)
    {
        var page = await NewPiece(script);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A petticoat, half looked at");
        await page.GetByLabel("Description").FillAsync("Two flounces.\nThe lower one is later.");
        await page.Locator("#lower > details > summary").ClickAsync();
        await page.Locator("button[value='techniques:tucks:skirt']").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Add another group of tucks" }).ClickAsync();
        await page.Locator("[name='techniques[0].groups[1].tucks']").FillAsync("four");
        await page.Locator("[name='techniques[0].groups[1].width']").FillAsync("3/8");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();

        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("2 things need another look");
        var width = page.Locator("[name$='.width'][aria-invalid=true]");
        await Expect(width).ToHaveValueAsync("3/8");
        var says = await page.Locator($"#{(await width.GetAttributeAsync("aria-describedby"))!.Split(' ')[0]}").InnerTextAsync();
        Assert.Contains("3/8", says, StringComparison.Ordinal);
        Assert.Contains("in", says, StringComparison.Ordinal);
        await Expect(page.Locator("[name$='.tucks'][aria-invalid=true]")).ToHaveValueAsync("four");
        await Expect(page.GetByLabel("Description")).ToHaveValueAsync("Two flounces.\nThe lower one is later.");
        await Expect(page.GetByLabel("Name", new() { Exact = true })).ToHaveValueAsync("A petticoat, half looked at");
    }

    [Fact]
    public async Task A_summary_leads_to_the_field_it_speaks_of()
    {
        var page = await NewPiece(script: false);
        await page.GetByLabel("Dated", new() { Exact = true }).FillAsync("19th of never");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        var links = page.GetByRole(AriaRole.Alert).GetByRole(AriaRole.Link);
        await Expect(links).ToHaveCountAsync(2);
        foreach (var link in await links.AllAsync())
        {
            await Expect(page.Locator((await link.GetAttributeAsync("href"))!)).ToHaveCountAsync(1);
        }
    }

    [Fact]
    public async Task A_tape_once_chosen_stands_beside_every_length_and_is_kept_with_it()
    {
        var id = (await host.Enter(new() { ["name"] = "A piece measured with a metric tape" })).Id();
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{id}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Your tape" }).ClickAsync();
        await page.WaitForURLAsync("**/tape?**");
        await page.GetByLabel("A length without a unit is in").SelectOptionAsync("mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await page.WaitForURLAsync($"**/pieces/{id}");

        await page.GotoAsync($"/pieces/{id}/techniques/new?kind=lace");
        await page.GetByLabel("Width in millimetres").FillAsync("18,5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        await page.WaitForURLAsync($"**/pieces/{id}#**");
        var width = (await host.Garment(id))["techniques"]![0]!["width"]!;
        Assert.Equal(("18,5 mm", 18.5m), (width["text"]!.ToString(), width["mm"]!.GetValue<decimal>()));
    }

    [Theory]
    [InlineData("about 1900", "1900~", "about 1900")]
    [InlineData("before 1910", "../1909", "until 1909")]
    [InlineData("1890s", "189X", "1890s")]
    public async Task Words_for_a_date_are_offered_as_it_is_recorded_and_kept_as_they_were_said(string typed, string recorded, string shown)
    {
        var page = await NewPiece(script: false);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("A dated piece");
        await page.GetByLabel("Dated", new() { Exact = true }).FillAsync(typed);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = $"Use {recorded}" }).Follow();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator(".top .under")).ToContainTextAsync(shown);

        var garment = await host.Garment(page.Url.Split('/')[^1]);
        Assert.Equal(recorded, garment["dated"]!.ToString());
        Assert.Equal(typed, garment["datedText"]!.ToString());
    }

    [Fact]
    public async Task An_entry_is_added_changed_and_taken_out_and_keeps_what_the_form_does_not_show()
    {
        var dress = await host.BabyDress("D-1");
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}/repairs/new");
        await page.GetByLabel("Way of mending", new() { Exact = true }).SelectOptionAsync("darn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Nainsook baby dress with a tucked yoke");
        await page.Locator(".entry").GetByRole(AriaRole.Link, new() { Name = "Darn", Exact = true }).Follow();
        await page.GetByLabel("Does it hold?").SelectOptionAsync("holds");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        var repairs = (await host.Garment(dress.Id()))["repairs"]!.AsArray();
        Assert.Equal(2, repairs.Count);
        Assert.Equal("holds", repairs[1]!["holds"]!.ToString());

        await page.Locator(".entry").GetByRole(AriaRole.Link, new() { Name = "Darn", Exact = true }).Follow();
        await page.GetByRole(AriaRole.Button, new() { Name = "out of the record" }).Follow();
        await Expect(page.Locator(".entry").GetByRole(AriaRole.Link, new() { Name = "Darn", Exact = true })).ToHaveCountAsync(0);

        await page.GotoAsync($"/pieces/{dress.Id()}/techniques/{dress.Tucks()}");
        await page.Locator("[name='note']").FillAsync("Knots at both ends.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        var tucks = (await host.Garment(dress.Id()))["techniques"]![0]!;
        Assert.Equal("Knots at both ends.", tucks["note"]!.ToString());
        Assert.Equal("3/16 in", tucks["groups"]![0]!["space"]!["text"]!.ToString());
        Assert.Equal("running", tucks["handStitch"]!.ToString());
    }

    [Fact]
    public async Task A_piece_set_aside_leaves_the_lists_and_comes_back()
    {
        var dress = await host.BabyDress("S-1");
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set this entry aside" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This entry is set aside" })).ToBeVisibleAsync();
        await page.GotoAsync("/pieces");
        await Expect(page.Locator($".tile a[href='/pieces/{dress.Id()}']")).ToHaveCountAsync(0);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it back" }).Follow();
        await page.GotoAsync("/pieces");
        await Expect(page.Locator($".tile a[href='/pieces/{dress.Id()}']")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task A_file_that_is_no_picture_is_refused_in_plain_words()
    {
        var dress = await host.BabyDress("P-1");
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByLabel("From the telephone or this computer").SetInputFilesAsync(new FilePayload { Name = "front.jpg", MimeType = "image/jpeg", Buffer = "not a picture"u8.ToArray() });
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("JPEG");
        Assert.Empty((await host.Garment(dress.Id()))["pictures"]!.AsArray());
    }

    // A test before may have left its draft.
    private async Task<IPage> NewPiece(bool script)
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece:full", TestContext.Current.CancellationToken);
        var page = await chromium.Open(host.Address, script);
        await page.GotoAsync("/pieces/new?depth=full");
        return page;
    }
}
