using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>The drawing of a piece: choosing a part on it, and what is marked there.</summary>
public sealed class OutlineTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    [Theory]
    [InlineData(1280)]
    [InlineData(360)]
    public async Task A_touch_on_the_drawing_chooses_the_part_and_the_side(int width)
    {
        var dress = await host.BabyDress($"O-{Guid.NewGuid():N}");
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync($"/pieces/{dress.Id()}/repairs/new");
        await Touch(page.GetByRole(AriaRole.Button, new() { Name = "Sleeve, left" }).First);
        await Expect(page.Locator("[name=part]")).ToHaveValueAsync("sleeve");
        await Expect(page.Locator("[name=side]")).ToHaveValueAsync("left");
        await Expect(page.Locator(".outline-said")).ToHaveTextAsync("Chosen: Sleeve, left.");
        await Expect(page.Locator("a[data-part=sleeve][data-side=left]").First).ToHaveAttributeAsync("aria-pressed", "true");
        await Expect(page.Locator("a[data-part=sleeve][data-side=right]").First).ToHaveAttributeAsync("aria-pressed", "false");

        await page.Locator("[name=part]").SelectOptionAsync("hem");
        await Expect(page.Locator("a[data-part=hem]").First).ToHaveAttributeAsync("aria-pressed", "true");
        await page.GetByLabel("Way of mending", new() { Exact = true }).SelectOptionAsync("darn");
        await Touch(page.Locator("a[data-part=yoke]").First);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.Follow();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Nainsook baby dress with a tucked yoke");
        var darn = (await host.Garment(dress.Id()))["repairs"]!.AsArray()[^1]!;
        Assert.Equal("yoke", darn["part"]!.ToString());
        Assert.Null(darn["side"]);
    }

    [Fact]
    public async Task The_same_touch_twice_takes_it_back()
    {
        var dress = await host.BabyDress("O-1");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}/condition/new");
        await Touch(page.Locator("a[data-part=cuff][data-side=right]").First);
        await Touch(page.Locator("a[data-part=cuff][data-side=right]").First);
        await Expect(page.Locator("[name=part]")).ToHaveValueAsync("");
        await Expect(page.Locator("[name=side]")).ToHaveValueAsync("");
        await Expect(page.Locator(".outline-said")).ToHaveTextAsync("");
    }

    [Fact]
    public async Task The_keyboard_walks_over_the_parts_and_takes_one()
    {
        var dress = await host.BabyDress("O-2");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}/condition/new");
        Assert.Equal(2, await page.Locator("a[data-part][tabindex='0']").CountAsync());
        await page.Locator("summary", new() { HasText = "Choose the part on a drawing" }).FocusAsync();
        await page.Keyboard.PressAsync("Tab");
        var first = await page.EvaluateAsync<string>("document.activeElement.dataset.part");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
        var there = await page.EvaluateAsync<string>("document.activeElement.dataset.part");
        Assert.False(string.IsNullOrEmpty(there));
        Assert.NotEqual(first, there);
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("[name=part]")).ToHaveValueAsync(there);
        await page.Keyboard.PressAsync("ArrowLeft");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("[name=part]")).ToHaveValueAsync(await page.EvaluateAsync<string>("document.activeElement.dataset.part"));
    }

    [Fact]
    public async Task Without_script_a_part_is_a_link_that_opens_the_form_with_it()
    {
        var dress = await host.BabyDress("O-3");
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pieces/{dress.Id()}/techniques/new?kind=tucks");
        await Touch(page.GetByRole(AriaRole.Link, new() { Name = "Cuff, right" }).First);
        await Expect(page.Locator("[name=part]")).ToHaveValueAsync("cuff");
        await Expect(page.Locator("[name=side]")).ToHaveValueAsync("right");
        await Expect(page.Locator("[name=tuckKind]")).ToHaveCountAsync(1);
        await Expect(page.Locator(".outline-said")).ToHaveTextAsync("Chosen: Cuff, right.");
        await Expect(page.Locator("a[aria-current=true]").First).ToHaveAttributeAsync("data-part", "cuff");
    }

    [Fact]
    public async Task An_unusual_part_is_taken_and_said_to_be_unusual()
    {
        var dress = await host.BabyDress("O-4");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}/condition/new");
        await page.Locator("[name=part]").SelectOptionAsync("crown");
        await Expect(page.Locator(".outline-said")).ToContainTextAsync("Crown is not usual for this kind of piece (baby dress)");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).Last.ClickAsync();
        await Expect(page.Locator("#part-crown")).ToContainTextAsync("Crown is not usual");
    }

    [Fact]
    public async Task Marks_stand_at_their_parts_and_the_list_says_the_same()
    {
        var dress = await host.BabyDress("O-5");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await Expect(page.Locator("#part-yoke > p").First).ToHaveTextAsync("Yoke: 1 technique");
        await Expect(page.Locator("#part-hem > p").First).ToHaveTextAsync("Hem: 1 technique, 1 finding");
        await Expect(page.Locator("#part-sleeve > p").First).ToHaveTextAsync("Sleeve: 1 repair");
        var front = page.Locator(".outline-face").First;
        await Expect(front.Locator("[data-marks=hem] .mark-condition")).ToHaveCountAsync(1);
        await Expect(front.Locator("[data-marks=hem] .mark-techniques")).ToHaveCountAsync(1);
        await Expect(front.Locator("[data-marks=sleeve] .mark-repairs")).ToHaveCountAsync(2);
        await Expect(front.Locator("[data-marks=skirt]")).ToHaveCountAsync(0);

        // The spot lies on its part, as it is drawn.
        Assert.True(await page.EvaluateAsync<bool>("""
            [...document.querySelectorAll('.outline-face [data-marks]')].every(mark => {
              const spot = mark.querySelector('.spot').getBoundingClientRect();
              const region = [...mark.closest('svg').querySelectorAll('a[data-part]')].find(a => a.dataset.part === mark.dataset.marks && (a.dataset.side ?? '') === (mark.dataset.side ?? ''));
              const box = region.getBoundingClientRect(), x = spot.x + spot.width / 2, y = spot.y + spot.height / 2;
              return x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
            })
            """));
        await Touch(front.Locator("a[data-part=hem]"));
        await page.WaitForURLAsync("**#part-hem");
        await page.Locator("#part-hem a").First.ClickAsync();
        await Expect(page.Locator(":target")).ToHaveClassAsync("entry");
    }

    [Fact]
    public async Task The_drawing_is_not_read_twice_and_an_entry_without_a_part_is_listed()
    {
        var petticoat = await host.Enter(new()
        {
            ["name"] = "A petticoat", ["kind"] = "petticoat", ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "hem" }),
        });
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{petticoat.Id()}");
        await Expect(page.Locator(".outline-face svg[aria-hidden=true]")).ToHaveCountAsync(2);
        await Expect(page.Locator(".outline-face a:not([tabindex='-1'])")).ToHaveCountAsync(0);
        await Expect(page.Locator("#part-none > p").First).ToHaveTextAsync("No part named: 1 technique");
    }

    [Theory]
    [InlineData("dress")]
    [InlineData("bonnet")]
    [InlineData("undersleeves")]
    [InlineData("lace-length")]
    public async Task Pieces_of_every_make_have_faultless_pages_by_day_and_by_night_on_every_screen(string kind)
    {
        var piece = await host.Enter(new()
        {
            ["name"] = "A piece", ["kind"] = kind, ["techniques"] = new JsonArray(new JsonObject { ["kind"] = "lace", ["part"] = "hem" }, new JsonObject { ["kind"] = "tucks", ["part"] = "cuff", ["side"] = "left" }),
            ["condition"] = new JsonArray(new JsonObject { ["what"] = "stain", ["part"] = "neck" }, new JsonObject { ["what"] = "hole" }),
        });
        foreach (var (width, dark) in new[] { (360, false), (1280, true) })
        {
            var page = await chromium.Open(host.Address, width: width, dark: dark);
            foreach (var address in new[] { $"/pieces/{piece.Id()}", $"/pieces/{piece.Id()}/condition/new?part=hem" })
            {
                await page.GotoAsync(address);
                await page.Faultless($"{address}, {width}");
                await page.Fits();
            }
        }
    }

    [Fact]
    public async Task On_paper_the_drawing_is_black_lines_on_white()
    {
        var dress = await host.BabyDress("O-6");
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        var face = page.Locator(".outline-face").First;
        await Expect(face.Locator(".strokes path").First).ToHaveCSSAsync("stroke", "rgb(0, 0, 0)");
        await Expect(face).ToHaveCSSAsync("background-color", "rgb(255, 255, 255)");
        await Expect(face.Locator(".mark-condition").First).ToBeVisibleAsync();
    }

    // A finger on the part itself: the middle of its box may lie on another one.
    private static async Task Touch(ILocator region)
    {
        await region.ScrollIntoViewIfNeededAsync();
        var at = await region.EvaluateAsync<float[]>("""
            region => {
              const path = region.querySelector('path'), box = path.getBBox(), to = path.getScreenCTM();
              const within = (x, y) => path.isPointInFill(new DOMPoint(x, y));
              for (let y = box.y + 1; y < box.y + box.height; y += .5)
                for (let x = box.x + 1; x < box.x + box.width; x += .5)
                  if ([[0, 0], [2, 0], [-2, 0], [0, 2], [0, -2]].every(([dx, dy]) => within(x + dx, y + dy))) {
                    const point = new DOMPoint(x, y).matrixTransform(to);
                    return [point.x, point.y];
                  }
              return [-1, -1];
            }
            """);
        await region.Page.Mouse.ClickAsync(at[0], at[1]);
    }
}
