using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Two people write about one piece at once, in two browsers: each field that differs is chosen, nothing typed is lost.</summary>
public sealed class MergeTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Fields_that_one_has_changed_are_chosen_already_and_those_of_both_are_asked(bool script)
    {
        var dress = await host.BabyDress($"M-{script}");
        var (mine, other) = (await Open(dress, "edit", script), await Open(dress, "edit", script));
        await other.GetByLabel("Overall state").SelectOptionAsync("weak");
        await other.GetByLabel("Dated", new() { Exact = true }).FillAsync("1910");
        await Save(other, $"/pieces/{dress.Id()}");

        await mine.GetByLabel("Overall state").SelectOptionAsync("sound");
        await mine.GetByLabel("Description").FillAsync("Long, with three rows\nof insertion.");
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();

        await Expect(mine.GetByRole(AriaRole.Alert)).ToContainTextAsync("saved by somebody else while you were writing");
        await Expect(mine.Locator(".met legend")).ToHaveTextAsync(["Overall state both have changed it", "Dated", "Description"], new() { UseInnerText = true });
        await Expect(Met(mine, "Overall state").GetByText("When you began")).ToHaveTextAsync("When you began: Fair");
        await Expect(Met(mine, "Overall state").GetByRole(AriaRole.Radio, new() { Name = "Yours: Sound" })).Not.ToBeCheckedAsync();
        await Expect(Met(mine, "Overall state").GetByRole(AriaRole.Radio, new() { Name = "There now: Weak" })).Not.ToBeCheckedAsync();
        await Expect(Met(mine, "Dated").GetByRole(AriaRole.Radio, new() { Name = "There now: 1910" })).ToBeCheckedAsync();
        await Expect(Met(mine, "Description").GetByRole(AriaRole.Radio, new() { Name = "Yours: Long" })).ToBeCheckedAsync();
        await Expect(mine.GetByLabel("Description")).ToHaveValueAsync("Long, with three rows\nof insertion.");

        await mine.GetByRole(AriaRole.Button, new() { Name = "Save as chosen" }).First.ClickAsync();
        await Expect(mine.GetByRole(AriaRole.Alert)).ToContainTextAsync("still needs a choice");
        await Met(mine, "Overall state").GetByRole(AriaRole.Radio, new() { Name = "Yours: Sound" }).CheckAsync();
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save as chosen" }).First.ClickAsync();
        await mine.WaitForURLAsync($"**/pieces/{dress.Id()}");

        var now = await host.Garment(dress.Id());
        Assert.Equal(("sound", "1910", "Long, with three rows\nof insertion."), (now["overall"]!.ToString(), now["dated"]!.ToString(), now["description"]!.ToString()));
        Assert.Equal(3, now["version"]!.GetValue<long>());
    }

    [Fact]
    public async Task Saved_again_meanwhile_it_asks_again_about_what_was_changed_again()
    {
        var dress = await host.BabyDress("M-again");
        var mine = await Open(dress, "edit", script: false);
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak" });
        await mine.GetByLabel("Name", new() { Exact = true }).FillAsync("Mine");
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(Met(mine, "Overall state").GetByRole(AriaRole.Radio, new() { Name = "There now: Weak" })).ToBeCheckedAsync();

        await host.Change(dress.Id(), 2, new() { ["overall"] = "fragile", ["tags"] = new JsonArray("theirs") });
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save as chosen" }).First.ClickAsync();
        await Expect(Met(mine, "Overall state").GetByRole(AriaRole.Radio, new() { Name = "There now: Fragile" })).ToBeCheckedAsync();
        await Expect(Met(mine, "Tags").GetByRole(AriaRole.Radio, new() { Name = "There now: theirs" })).ToBeCheckedAsync();
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save as chosen" }).First.ClickAsync();
        await mine.WaitForURLAsync($"**/pieces/{dress.Id()}");
        var now = await host.Garment(dress.Id());
        Assert.Equal(("Mine", "fragile", "theirs"), (now["name"]!.ToString(), now["overall"]!.ToString(), now["tags"]![0]!.ToString()));
    }

    [Fact]
    public async Task A_technique_is_merged_field_by_field_too()
    {
        var dress = await host.BabyDress("M-entry");
        var (mine, other) = (await Open(dress, $"techniques/{dress.Tucks()}", script: false), await Open(dress, $"techniques/{dress.Tucks()}", script: false));
        await other.GetByLabel("Sewn by").SelectOptionAsync("machine-lockstitch");
        await Save(other, $"/pieces/{dress.Id()}*");
        await mine.Locator("[name='groups[0].width']").FillAsync("1/8 in");
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(Met(mine, "Sewn by").GetByRole(AriaRole.Radio, new() { Name = "There now: Machine lockstitch" })).ToBeCheckedAsync();
        await Expect(Met(mine, "Groups of tucks").GetByRole(AriaRole.Radio, new() { Name = "Yours:" })).ToBeCheckedAsync();
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save as chosen" }).First.ClickAsync();
        await mine.WaitForURLAsync($"**/pieces/{dress.Id()}*");
        var tucks = (await host.Garment(dress.Id()))["techniques"]![0]!;
        Assert.Equal(("machine-lockstitch", "1/8 in"), (tucks["sewn"]!.ToString(), tucks["groups"]![0]!["width"]!["text"]!.ToString()));
    }

    [Fact]
    public async Task An_entry_that_was_taken_out_meanwhile_can_be_written_down_again()
    {
        var dress = await host.BabyDress("M-gone");
        var mine = await Open(dress, $"condition/{dress["condition"]![0]!["id"]}", script: false);
        await host.Change(dress.Id(), 1, new() { ["condition"] = new JsonArray() });
        await mine.GetByLabel("How much").FillAsync("7 in");
        await mine.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(mine.GetByRole(AriaRole.Alert)).ToContainTextAsync("taken out of the record while you were writing");
        await Expect(mine.GetByLabel("How much")).ToHaveValueAsync("7 in");
        await mine.GetByRole(AriaRole.Button, new() { Name = "Write it down again" }).ClickAsync();
        await mine.WaitForURLAsync($"**/pieces/{dress.Id()}#*");
        var finding = Assert.Single((await host.Garment(dress.Id()))["condition"]!.AsArray())!;
        Assert.Equal(("7 in", "lace-come-away"), (finding["extent"]!.ToString(), finding["what"]!.ToString()));
    }

    [Fact]
    public async Task New_entries_of_two_stand_beside_each_other()
    {
        var dress = await host.BabyDress("M-both");
        var (one, two) = (await Open(dress, "repairs/new", script: false), await Open(dress, "look-over", script: false));
        await two.Locator("button[name=add][value^='condition::']").First.ClickAsync();
        await two.Locator("[name='condition[0].extent']").FillAsync("of the second");
        await one.GetByLabel("Way of mending", new() { Exact = true }).SelectOptionAsync("darn");
        await Save(one, $"/pieces/{dress.Id()}*");
        await Save(two, $"/pieces/{dress.Id()}");
        var now = await host.Garment(dress.Id());
        Assert.Equal(["patch", "darn"], now["repairs"]!.AsArray().Select(r => r!["method"]!.ToString()));
        Assert.Equal(["4 in", "of the second"], now["condition"]!.AsArray().Select(c => c!["extent"]!.ToString()));
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task The_choice_has_no_fault_that_can_be_found_by_rule_and_fits(int width)
    {
        var dress = await host.BabyDress($"M-{width}");
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync($"/pieces/{dress.Id()}/edit");
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak", ["description"] = new string('w', 300), ["place"] = new JsonObject { ["shelf"] = "7" } });
        await page.GetByLabel("Overall state").SelectOptionAsync("sound");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToBeFocusedAsync();
        await page.Faultless();
        await page.Fits();
    }

    [Fact]
    public async Task A_version_is_compared_with_now_and_one_field_of_it_put_back()
    {
        var dress = await host.BabyDress("M-back");
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak", ["name"] = "Renamed" });
        var page = await Open(dress, "history", script: false);
        await Expect(page.Locator(".history > li")).ToHaveCountAsync(2);
        await Expect(page.Locator(".history > li").First).ToContainTextAsync("Changed name, overall state");
        await Expect(page.Locator(".history > li").First).ToContainTextAsync("Fair");
        await page.GetByRole(AriaRole.Link, new() { Name = "Compare" }).ClickAsync();
        await Expect(page.Locator("section:has(#d-overall) dd")).ToHaveTextAsync(["Fair", "Weak"]);
        await page.Locator("section:has(#d-overall)").GetByRole(AriaRole.Button, new() { Name = "Put this back" }).ClickAsync();
        await Expect(page.Locator(".history > li").First).ToContainTextAsync("Put back overall state of version 1");
        var now = await host.Garment(dress.Id());
        Assert.Equal(("fair", "Renamed"), (now["overall"]!.ToString(), now["name"]!.ToString()));

        await page.GotoAsync($"/pieces/{dress.Id()}/history/1");
        await host.Change(dress.Id(), 3, new() { ["tags"] = new JsonArray("meanwhile") });
        await page.GetByRole(AriaRole.Button, new() { Name = "Put the whole record back" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Nothing was put back");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put the whole record back" }).ClickAsync();
        await page.WaitForURLAsync($"**/pieces/{dress.Id()}");
        now = await host.Garment(dress.Id());
        Assert.Equal((dress["name"]!.ToString(), 0), (now["name"]!.ToString(), now["tags"]!.AsArray().Count));
    }

    private static ILocator Met(IPage page, string field) => page.Locator(".met").Filter(new() { Has = page.Locator("legend", new() { HasTextString = field }) });

    private async Task<IPage> Open(JsonObject dress, string form, bool script)
    {
        var page = await chromium.Open(host.Address, script: script);
        await page.GotoAsync($"/pieces/{dress.Id()}/{form}");
        return page;
    }

    private static async Task Save(IPage page, string to)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await page.WaitForURLAsync("**" + to);
    }
}
