using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Every page, by day and by night, on a telephone and on a desk.</summary>
public sealed class PageTests(ArchiveHost host, Chromium chromium, PostgresServer postgres) : IClassFixture<ArchiveHost>
{
    private static readonly string[] Plain =
    [
        "/", "/pieces", "/pieces?as=table&columns=number&columns=kind&columns=changed&sort=name&overall=fair", "/pieces?as=tiles&has=nothing+of+the+kind", "/pieces/many", "/pieces/many?these=all", "/pieces/new", "/pieces/new?depth=full", "/examples", "/examples?q=pin+tucks+by+hand&tuckKind=pin", "/examples?q=nothing+of+the+kind", "/worksheets", "/worksheets/new", "/worksheets/new/side-by-side",
        "/lessons", "/lessons/add", "/questions", "/questions?q=pin+tucks&to=1909", "/numbers",
        "/work-it-out", "/work-it-out/tucks?groups[0].tucks=5&groups[0].width=1/8+in&groups[0].space=1/4+in",
        "/work-it-out/fit?finished=12+in&tucks.from=6&tucks.to=20&width.from=1/8+in&width.to=1/8+in&space.from=1/8+in&space.to=1/2+in&ends.from=1+in&ends.to=3+in&finest=1/16+in",
        "/work-it-out/fit?finished=1+in&tucks.from=20&tucks.to=20&width.from=1/8+in&width.to=1/8+in&space.from=1/8+in&space.to=1/8+in&ends.from=1+in&ends.to=1+in&finest=1/16+in",
        "/offline", "/guide", "/guide/measuring-a-tuck", "/guide/keeping-antique-cloth", "/guide/for-programs", "/words", "/words?q=torchon", "/words/own", "/words/own?facet=laces&label=Ladder+lace", "/tape", "/pictures/compare", "/pictures/untagged", "/pictures/check", "/care", "/care?list=away", "/care?list=light", "/no-such-page",
    ];

    [Fact]
    public async Task An_empty_archive_says_what_to_do_first()
    {
        await using var empty = await ArchiveHost.Start(postgres);
        var page = await chromium.Open(empty.Address);
        await page.GotoAsync("/");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What to do first" })).ToBeVisibleAsync();
        await page.Faultless("/");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task No_page_has_a_fault_that_can_be_found_by_rule(bool dark)
    {
        var page = await chromium.Open(host.Address, dark: dark);
        foreach (var address in await All())
        {
            await page.GotoAsync(address);
            await page.Faultless(address);
        }
    }

    /// <summary>Also where the letters do not come in time: those of the machine take another width.</summary>
    [Theory]
    [InlineData(360, true)]
    [InlineData(360, false)]
    [InlineData(768, true)]
    [InlineData(768, false)]
    [InlineData(1440, true)]
    [InlineData(1440, false)]
    public async Task No_page_scrolls_sideways(int width, bool letters)
    {
        var page = await chromium.Open(host.Address, width: width);
        if (!letters) await page.Context.RouteAsync("**/*.woff2", route => route.AbortAsync());
        foreach (var address in await All())
        {
            await page.GotoAsync(address);
            await page.Fits();
            if (!letters) Assert.False(await page.EvaluateAsync<bool>("[...document.fonts].some(f => f.status === 'loaded')"), $"{address}: letters came all the same");
        }
    }

    [Fact]
    public async Task No_page_needs_anything_from_elsewhere_or_breaks_its_own_policy()
    {
        var page = await chromium.Open(host.Address);
        var wrong = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("404", StringComparison.Ordinal)) wrong.Add($"{page.Url}: {message.Text}");
        };
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(host.Address.ToString(), StringComparison.Ordinal)) wrong.Add($"{page.Url} asks for {request.Url}");
        };
        foreach (var address in await All())
        {
            var answer = await page.GotoAsync(address);
            Assert.Contains("default-src 'self'", answer!.Headers["content-security-policy"], StringComparison.Ordinal);
        }

        Assert.Empty(wrong);
    }

    [Fact]
    public async Task The_keyboard_reaches_the_work_past_the_navigation_and_shows_where_it_is()
    {
        var page = await chromium.Open(host.Address);
        await page.GotoAsync("/pieces/new");
        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the page", await page.EvaluateAsync<string>("document.activeElement.textContent"));
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**#work");
        for (var presses = 0; presses < 3; presses++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string>("document.activeElement.name ?? ''") == "name") break;
        }

        Assert.Equal("name", await page.EvaluateAsync<string>("document.activeElement.name ?? ''"));
        Assert.NotEqual("none", await page.EvaluateAsync<string>("getComputedStyle(document.activeElement).outlineStyle"));
    }

    // Those of one piece, its forms and a worksheet of it besides the plain ones.
    private async Task<IReadOnlyList<string>> All()
    {
        var dress = await host.BabyDress($"A-{Guid.NewGuid():N}");
        var (piece, sheet) = ($"/pieces/{dress.Id()}", await host.Sheet(dress));
        return
        [
            .. Plain, piece, $"{piece}/edit", $"{piece}/techniques/new", $"{piece}/techniques/new?kind=tucks", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/condition/new", $"{piece}/condition",
            $"{piece}/repairs/new", $"{piece}/examinations/new", $"{piece}/look-over", $"{piece}/history", $"{piece}/like", $"{piece}/like?technique={dress.Tucks()}&proportions=true", await Changed(dress), await ManyDone(dress), $"{piece}/dating", $"{piece}/dating?seen=zip-coil&seen=press-stud", $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", sheet, $"{sheet}/at-the-table", $"{sheet}/made-up", $"/worksheets/new/side-by-side?garment={dress.Id()}",
            .. await Lesson(dress, sheet), .. await Pictures(dress),
        ];
    }

    // A version that is not the last, to be compared with now.
    private async Task<string> Changed(JsonObject dress)
    {
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak", ["tags"] = new JsonArray("spring class"), ["place"] = new JsonObject { ["shelf"] = "7" } });
        return $"/pieces/{dress.Id()}/history/1";
    }

    private async Task<string> ManyDone(JsonObject dress)
    {
        var answer = await host.Client.PostAsJsonAsync("/api/many", new JsonObject { ["pieces"] = new JsonArray(dress.Id()), ["tags"] = new JsonObject { ["add"] = new JsonArray("autumn class") } });
        return answer.Headers.Location!.ToString().Replace("/api/many", "/pieces/many", StringComparison.Ordinal);
    }

    private async Task<IReadOnlyList<string>> Lesson(JsonObject dress, string sheet)
    {
        JsonObject Entry(string what, string list) => new() { ["garment"] = dress.Id(), [what] = dress[list]![0]!["id"]!.ToString(), ["note"] = "Look closely." };
        var answer = await host.Client.PostAsJsonAsync("/api/lessons", new JsonObject
        {
            ["name"] = "Pin tucks by hand", ["pupils"] = 8, ["eachNeeds"] = "1/4 yd of lawn",
            ["entries"] = new JsonArray(Entry("technique", "techniques"), Entry("finding", "condition"), Entry("repair", "repairs"), new JsonObject { ["garment"] = dress.Id() }, new JsonObject { ["worksheet"] = sheet.Split('/')[^1] }),
            ["given"] = new JsonArray(new JsonObject { ["date"] = "2026-03-02", ["out"] = new JsonArray(dress.Id()), ["needlesOut"] = 12, ["needlesBack"] = 11 }, new JsonObject { ["date"] = "2026-03-09", ["out"] = new JsonArray(dress.Id()) }),
        });
        var lesson = answer.Headers.Location!.ToString().Replace("/api", "", StringComparison.Ordinal);
        return [lesson, $"{lesson}/edit", $"{lesson}/fetch", $"{lesson}/given", $"{lesson}/hand-out", $"/lessons/add?e={dress.Id()}&e={dress.Id()}:technique:{dress.Tucks()}"];
    }

    private async Task<IReadOnlyList<string>> Pictures(JsonObject dress)
    {
        var picture = await RegionTests.AddPicture(host, dress.Id());
        return [$"/pictures/{picture}", $"/pictures/compare?show={picture}"];
    }
}
