using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>All pieces as a table with her columns, and many of them changed at once.</summary>
public sealed class ManyTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Ticked_pieces_get_a_new_place_and_one_undo_takes_it_back(bool script)
    {
        var tag = $"set {script}";
        var ids = new List<string>();
        for (var i = 0; i < 4; i++)
        {
            ids.Add((await host.Enter(new() { ["name"] = $"Bib {i}", ["tags"] = new JsonArray(tag), ["place"] = new JsonObject { ["shelf"] = "Old" } })).Id());
        }

        var page = await chromium.Open(host.Address, script: script);
        await page.GotoAsync($"/pieces?as=table&tag={Uri.EscapeDataString(tag)}&sort=name&down=false");
        await Expect(page.Locator("tbody tr")).ToHaveCountAsync(4);
        await page.GetByLabel("Bib 0").CheckAsync();
        await page.GetByLabel("Bib 2").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Change the ticked pieces" }).ClickAsync();
        await Expect(page.Locator(".under")).ToHaveTextAsync("A place, tags or a kind for 2 pieces.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change 2 pieces" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Say what to change");
        await page.GetByLabel("Shelf").FillAsync("New");
        await page.GetByLabel("Tags to add").FillAsync("moved, for spring");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change 2 pieces" }).ClickAsync();
        await page.WaitForURLAsync("**/pieces/many/*-*");
        await UntilDone(page, script, "Done");
        await Expect(page.Locator("h1")).ToHaveTextAsync("Kept: shelf New; tagged moved, for spring");
        Assert.Equal(["New", "Old", "New", "Old"], await Shelves(ids));

        await host.Change(ids[2], 2, new() { ["tags"] = new JsonArray("quite other") });
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo all of it" }).Follow();
        await UntilDone(page, script, "Undone");
        Assert.Equal(["Old", "Old", "Old", "Old"], await Shelves(ids));
        await Expect(page.Locator(".lines > li")).ToContainTextAsync(["Changed since, so left alone: tags."]);
        Assert.Equal("quite other", (await host.Garment(ids[2]))["tags"]![0]!.ToString());
        Assert.Equal(tag, (await host.Garment(ids[0]))["tags"]!.AsArray().Single()!.ToString());
    }

    [Fact]
    public async Task All_that_match_are_changed_though_they_fill_several_pages()
    {
        for (var i = 0; i < 60; i++)
        {
            await host.Enter(new() { ["name"] = $"Match {i}", ["kind"] = "cap", ["tags"] = new JsonArray("all of them") });
        }

        var page = await chromium.Open(host.Address, width: 390);
        await page.GotoAsync("/pieces?as=table&tag=all+of+them");
        await Expect(page.Locator("tbody tr")).ToHaveCountAsync(50);
        await page.GetByRole(AriaRole.Button, new() { Name = "Change all 60 pieces as asked for" }).Follow();
        await page.GetByLabel("Kind", new() { Exact = true }).SelectOptionAsync("bonnet");
        await page.GetByRole(AriaRole.Button, new() { Name = "Change 60 pieces" }).ClickAsync();
        await page.WaitForURLAsync("**/pieces/many/*-*");
        await UntilDone(page, true, "Done");
        await Expect(page.Locator(".facts")).ToContainTextAsync("60");
        await page.Faultless();
        await page.GotoAsync("/pieces?as=table&tag=all+of+them&kind=cap");
        await Expect(page.Locator(".under")).ToHaveTextAsync("None is as asked for.");
        await page.GotoAsync("/pieces?as=table&tag=all+of+them&kind=bonnet&number=2");
        await Expect(page.Locator("tbody tr")).ToHaveCountAsync(10);
    }

    [Fact]
    public async Task Columns_and_order_are_hers_and_are_kept()
    {
        await host.Enter(new() { ["number"] = "K-2", ["name"] = "Second of K", ["overall"] = "weak", ["whereabouts"] = new JsonObject { ["is"] = "lent" }, ["tags"] = new JsonArray("of k") });
        await host.Enter(new() { ["number"] = "K-10", ["name"] = "Tenth of K", ["overall"] = "sound", ["tags"] = new JsonArray("of k") });
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync("/pieces?as=table&tag=of+k");
        await page.GetByRole(AriaRole.Checkbox, new() { Name = "Where it is" }).CheckAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { Name = "Kind" }).UncheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Show them" }).Follow();
        await Expect(page.GetByRole(AriaRole.Columnheader, new() { Name = "Where it is" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Columnheader, new() { Name = "Kind" })).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Link, new() { Name = "Number" }).Follow();
        await Expect(page.GetByRole(AriaRole.Rowheader)).ToHaveTextAsync(["Second of K", "Tenth of K"]);
        await page.GetByRole(AriaRole.Link, new() { Name = "Number" }).Follow();
        await Expect(page.GetByRole(AriaRole.Rowheader)).ToHaveTextAsync(["Tenth of K", "Second of K"]);
        await page.GetByRole(AriaRole.Link, new() { Name = "Where it is" }).Follow();
        await Expect(page.GetByRole(AriaRole.Rowheader)).ToHaveTextAsync(["Second of K", "Tenth of K"]);
        await Expect(page.GetByRole(AriaRole.Columnheader, new() { Name = "Where it is" })).ToHaveAttributeAsync("aria-sort", "ascending");

        await page.GotoAsync("/pieces");
        await Expect(page.GetByRole(AriaRole.Columnheader, new() { Name = "Where it is" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "As tiles" }).ClickAsync();
        await Expect(page.Locator(".tiles > li").First).ToBeVisibleAsync();
    }

    [Theory]
    [InlineData("/pieces?sort=price&columns=secret&as=chart&overall=good&number=1")]
    [InlineData("/pieces?has=%25%00'%22%3B&place=%5C_&tag=%7B%22")]
    [InlineData("/pieces/many?piece=none&piece=00000000-0000-0000-0000-000000000000")]
    [InlineData("/pieces/many?these=all&overall=good")]
    public async Task An_address_that_makes_no_sense_is_a_page_all_the_same(string address)
    {
        using var answer = await host.Client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(System.Net.HttpStatusCode.OK, answer.StatusCode);
    }

    // Without script she looks again by a press, as long as there is one; with script the page does so itself.
    private static async Task UntilDone(IPage page, bool script, string heading)
    {
        var again = page.Locator("[data-again]");
        await Wait.Until(async () =>
        {
            if (script || await again.CountAsync() == 0)
            {
                return true;
            }

            await again.Follow();
            return false;
        }, "every piece had its turn", every: 100);
        await Expect(page.Locator("#far")).ToHaveTextAsync(heading);
    }

    private async Task<IEnumerable<string>> Shelves(IEnumerable<string> ids)
    {
        var shelves = new List<string>();
        foreach (var id in ids)
        {
            shelves.Add((await host.Garment(id))["place"]!["shelf"]!.ToString());
        }

        return shelves;
    }
}
