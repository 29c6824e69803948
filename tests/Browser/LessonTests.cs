using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A lesson from a search to the class and back.</summary>
public sealed class LessonTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_lesson_is_made_of_what_was_found_put_in_order_and_handed_out(bool script)
    {
        var name = $"Pin tucks {Guid.NewGuid():N}";
        await host.BabyDress($"L-{Guid.NewGuid():N}");
        await Piece("Lawn blouse", """ "techniques":[{"kind":"tucks","tuckKind":"pin","part":"yoke","sewn":"machine-lockstitch"}] """);
        var page = await chromium.Open(host.Address, script, width: 390);
        await page.GotoAsync("/examples?tuckKind=pin&part=yoke");
        var ticks = page.GetByRole(AriaRole.Checkbox, new() { Name = "For a lesson" });
        await ticks.Nth(0).CheckAsync();
        await ticks.Nth(1).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Put the ticked ones in a lesson" }).ClickAsync();
        await page.WaitForURLAsync("**/lessons/add?**");

        // Without a name it is refused, and nothing chosen is lost.
        if (await page.GetByLabel("To the lesson").CountAsync() > 0) await page.GetByLabel("To the lesson").SelectOptionAsync("new");
        await page.GetByLabel("In class there is").SelectOptionAsync("piece");
        await page.GetByLabel("Note").FillAsync("Look for the knots.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("needs a name");
        await Expect(page.GetByLabel("Note")).ToHaveValueAsync("Look for the knots.");
        await page.GetByLabel("new lesson called").FillAsync(name);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = name })).ToBeVisibleAsync();
        await Expect(page.Locator("#in-order > li")).ToHaveCountAsync(2);

        var second = await page.Locator("#in-order > li").Nth(1).GetAttributeAsync("data-entry");
        await page.GetByRole(AriaRole.Button, new() { Name = "Earlier" }).Nth(1).Follow();
        await Expect(page.Locator("#in-order > li").First).ToHaveAttributeAsync("data-entry", second!);
        if (script)
        {
            await page.Faultless();
            await page.Fits();
        }

        await page.GetByRole(AriaRole.Link, new() { Name = "Hand-out as a page" }).Follow();
        await Expect(page.GetByText("Look for the knots.").First).ToBeVisibleAsync();
        var print = await page.GetByRole(AriaRole.Link, new() { Name = "As a PDF" }).GetAttributeAsync("href");
        Assert.Equal("%PDF-"u8.ToArray(), (await host.Client.GetByteArrayAsync(print, Stop))[..5]);

        await page.GotoAsync(print!.Replace(".pdf", "", StringComparison.Ordinal));
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it out" }).First.ClickAsync();
        await Expect(page.Locator("#in-order > li")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task An_entry_is_dragged_with_a_mouse()
    {
        var dress = await host.BabyDress($"D-{Guid.NewGuid():N}");
        var lesson = await Lesson(new JsonArray(Of(dress, "technique", "techniques"), Of(dress, "repair", "repairs"), Of(dress)));
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/lessons/{lesson}");
        var before = await Order(page);
        await page.Follow(() => page.Locator("[data-handle]").Nth(2).DragToAsync(page.Locator("#in-order > li").First, new() { TargetPosition = new() { X = 8, Y = 8 } }));
        await Expect(page.Locator("#in-order > li").First).ToHaveAttributeAsync("data-entry", before[2]);
        await page.ReloadAsync();
        Assert.Equal([before[2], before[0], before[1]], await Order(page));
    }

    [Fact]
    public async Task A_drag_given_up_by_Escape_changes_nothing()
    {
        var dress = await host.BabyDress($"D-{Guid.NewGuid():N}");
        var lesson = await Lesson(new JsonArray(Of(dress, "technique", "techniques"), Of(dress, "repair", "repairs"), Of(dress)));
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/lessons/{lesson}");
        var before = await Order(page);
        var first = page.Locator("#in-order > li").First;
        await page.Locator("[data-handle]").Nth(2).HoverAsync();
        await page.Mouse.DownAsync();
        await first.HoverAsync(new() { Position = new() { X = 8, Y = 8 } });
        await first.HoverAsync(new() { Position = new() { X = 9, Y = 9 } });
        await Expect(first).ToHaveAttributeAsync("data-entry", before[2]);
        await page.Keyboard.PressAsync("Escape");
        await Expect(first).ToHaveAttributeAsync("data-entry", before[0]);
        await page.Mouse.UpAsync();
        await page.ReloadAsync();
        Assert.Equal(before, await Order(page));
    }

    [Fact]
    public async Task What_may_not_go_to_the_class_is_marked_with_why()
    {
        var (apart, away, sound) = (await Piece("Mouldy gown", """ "handling":"keep-apart","place":{"shelf":"Z"} """), await Piece("Lent cap", """ "whereabouts":{"is":"lent","to":"Aunt Perpetua"} """), await Piece("Sound slip", """ "handling":"handle-in-class","place":{"shelf":"B","box":"7"} """));
        var lesson = await Lesson(new JsonArray(Of(apart), Of(away), Of(sound), new JsonObject { ["garment"] = (await Piece("Only its picture", """ "number":null """)).Id(), ["show"] = "photograph" }));
        var page = await chromium.Open(host.Address, script: false, width: 390);
        await page.GotoAsync($"/lessons/{lesson}/fetch");
        await Expect(page.Locator(".fetch > li")).ToHaveCountAsync(3);
        await Expect(page.Locator(".fetch > li", new() { HasText = "Mouldy gown" })).ToContainTextAsync("kept apart: never in class");
        await Expect(page.Locator(".fetch > li", new() { HasText = "Lent cap" })).ToContainTextAsync("it is not here: lent");
        await Expect(page.Locator(".fetch > li", new() { HasText = "Sound slip" })).ToContainTextAsync("shelf B, box 7");
        await Expect(page.Locator(".fetch > li", new() { HasText = "Sound slip" }).Locator(".wrong-text")).ToHaveCountAsync(0);
        await Expect(page.GetByText("1 more entry is shown by a photograph")).ToBeVisibleAsync();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_needle_that_did_not_come_back_is_pointed_out(bool script)
    {
        var dress = await host.BabyDress($"N-{Guid.NewGuid():N}");
        var lesson = await Lesson(new JsonArray(Of(dress, "technique", "techniques")));
        var page = await chromium.Open(host.Address, script, width: 390);
        await page.GotoAsync($"/lessons/{lesson}/given");
        await page.GetByLabel("Date").FillAsync("someday");
        await page.GetByLabel("Group").FillAsync("Tuesday");
        await page.GetByLabel("Needles and pins before").FillAsync("12");
        await page.GetByRole(AriaRole.Button, new() { Name = "It goes out" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("someday");
        await Expect(page.GetByLabel("Group")).ToHaveValueAsync("Tuesday");
        await page.GetByLabel("Date").FillAsync("2026-03-02");
        await page.GetByRole(AriaRole.Button, new() { Name = "It goes out" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "2 March 2026, Tuesday" })).ToBeVisibleAsync();

        await page.GetByLabel("Needles and pins after").FillAsync("11");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep what came back" }).Follow();
        await Expect(page.GetByRole(AriaRole.Note)).ToContainTextAsync("1 is missing");
        await Expect(page.GetByRole(AriaRole.Note)).ToContainTextAsync("is not back");
        await page.GetByLabel("Needles and pins after").FillAsync("12");
        await page.Locator("input[name=back]").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep what came back" }).Follow();
        await Expect(page.GetByRole(AriaRole.Note)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_lesson_taken_away_is_brought_back_from_the_list()
    {
        var lesson = await Lesson([]);
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/lessons/{lesson}/edit");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take this lesson away" }).ClickAsync();
        await page.GetByText("Taken away (").ClickAsync();
        await page.Locator($"form:has(input[value='{lesson}'])").GetByRole(AriaRole.Button).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Nothing is in it yet" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_question_is_kept_and_marks_what_is_new_and_every_number_is_a_search()
    {
        var tag = $"t{Guid.NewGuid():N}";
        await Piece("First slip", $$""" "tags":["{{tag}}"],"dated":"1905","kind":"slip" """);
        var page = await chromium.Open(host.Address, script: false, width: 390);
        await page.GotoAsync($"/examples?tag={tag}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Keep this question" }).ClickAsync();
        await page.GetByLabel("Its name").FillAsync($"Slips {tag}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        var kept = page.Locator("li", new() { HasText = $"Slips {tag}" });
        await Expect(kept).ToContainTextAsync("1 piece fits");
        await Expect(kept.Locator(".fresh")).ToHaveCountAsync(0);
        await Piece("Second slip", $$""" "tags":["{{tag}}"],"dated":"1906","kind":"slip" """);
        await page.ReloadAsync();
        await Expect(kept.Locator(".fresh")).ToContainTextAsync("1 new: Second slip");
        await kept.GetByRole(AriaRole.Button, new() { Name = "Look at them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "2 pieces" })).ToBeVisibleAsync();
        await page.GotoAsync("/questions");
        await Expect(kept.Locator(".fresh")).ToHaveCountAsync(0);

        await page.GotoAsync("/numbers");
        var bar = page.Locator("section:has(#c-kind) svg a[href*='kind=slip']");
        var count = await bar.Locator(".count").TextContentAsync();
        await page.GotoAsync((await bar.GetAttributeAsync("href"))!);
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = $"{count} pieces" })).ToBeVisibleAsync();
    }

    private async Task<string> Lesson(JsonArray entries)
    {
        var answer = await host.Client.PostAsJsonAsync("/api/lessons", new JsonObject { ["name"] = $"Lesson {Guid.NewGuid():N}", ["entries"] = entries }, Stop);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Stop));
        return answer.Headers.Location!.ToString().Split('/')[^1];
    }

    private Task<JsonObject> Piece(string name, string more) => host.Enter(JsonNode.Parse($$"""{"name":"{{name}}",{{more}}}""")!.AsObject());

    private static JsonObject Of(JsonObject piece, string? what = null, string list = "") =>
        what is null ? new() { ["garment"] = piece.Id() } : new() { ["garment"] = piece.Id(), [what] = piece[list]![0]!["id"]!.ToString() };

    private static async Task<string[]> Order(IPage page) =>
        await page.Locator("#in-order > li").EvaluateAllAsync<string[]>("entries => entries.map(e => e.dataset.entry)");
}
