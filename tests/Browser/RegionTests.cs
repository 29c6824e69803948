using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A picture looked at closely: marks drawn with the mouse, by touch and with the keyboard, found from the list and from the piece.</summary>
public sealed class RegionTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    private const int Width = 1600, Height = 1200;

    [Fact]
    public async Task A_rectangle_drawn_with_the_mouse_is_kept_shown_in_the_list_and_on_the_piece()
    {
        var (dress, picture) = await Piece();
        var page = await Open(picture);
        var box = await Drawn(page, "Rectangle", (.3f, .3f), (.5f, .6f));
        await Expect(page.Locator("[data-said]")).ToContainTextAsync("Now say what it shows.");
        await page.GetByLabel("Pin tucks, yoke").CheckAsync();
        await Keep(page);
        var region = Assert.Single(await Regions(picture))!;
        // The whole picture is shown, fitted and centred: what was drawn in fractions of the view lies where it looked.
        var scale = Math.Min(box.Width / Width, box.Height / Height);
        var (left, top) = ((box.Width - (Width * scale)) / 2, (box.Height - (Height * scale)) / 2);
        var read = region["target"]!["selector"]!["value"]!.ToString()["xywh=".Length..].Split(',').Select(int.Parse).ToArray();
        Near(((box.Width * .3f) - left) / scale, read[0]);
        Near(((box.Height * .3f) - top) / scale, read[1]);
        Near(box.Width * .2f / scale, read[2]);
        Near(box.Height * .3f / scale, read[3]);
        await Expect(page.Locator(".marks > li.chosen")).ToContainTextAsync("Pin tucks, yoke");

        await page.GotoAsync($"/pieces/{dress.Id()}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Pin tucks, yoke, seen close" }).First.ClickAsync();
        await page.WaitForURLAsync("**/pictures/*");
        await page.GetByRole(AriaRole.Link, new() { Name = "How it was made: Pin tucks, yoke" }).ClickAsync();
        await page.WaitForURLAsync("**/pieces/*");
    }

    [Fact]
    public async Task A_rectangle_and_a_point_are_drawn_with_the_keyboard_alone()
    {
        var (_, picture) = await Piece();
        var page = await Open(picture);
        await page.GetByRole(AriaRole.Button, new() { Name = "Rectangle", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("[data-said]")).ToContainTextAsync("Enter sets it, Escape leaves");
        for (var i = 0; i < 3; i++)
        {
            await page.Keyboard.PressAsync("ArrowRight");
            await page.Keyboard.PressAsync("Shift+ArrowDown");
        }

        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(":focus")).ToHaveAttributeAsync("name", "shows");
        await page.Keyboard.PressAsync("Space");
        await Keep(page);
        var rectangle = Assert.Single(await Regions(picture))!;
        Assert.StartsWith("xywh=", rectangle["target"]!["selector"]!["value"]!.ToString(), StringComparison.Ordinal);

        await page.GetByRole(AriaRole.Button, new() { Name = "Point", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.PressAsync("ArrowLeft");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("[data-said]")).ToContainTextAsync("Now say what it shows.");
        await page.Locator("#text").FillAsync("a knot");
        await Keep(page);
        Assert.Contains("<circle", (await Regions(picture))[1]!["target"]!["selector"]!["value"]!.ToString(), StringComparison.Ordinal);

        await page.GetByRole(AriaRole.Button, new() { Name = "Rectangle", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.Locator(":focus")).ToHaveAttributeAsync("data-tool", "rectangle");
        await Expect(page.Locator("[name=x]")).ToHaveValueAsync("");
    }

    [Fact]
    public async Task A_measured_line_gives_another_its_length_and_an_outline_is_drawn_corner_by_corner()
    {
        var (_, picture) = await Piece();
        var page = await Open(picture);
        await Drawn(page, "Line", (.3f, .3f), (.5f, .3f));
        await page.Locator("#length").FillAsync("10 cm");
        await Keep(page);
        await Whole(page);
        await Drawn(page, "Line", (.4f, .5f), (.5f, .5f));
        await page.Locator("#text").FillAsync("half of it");
        await Keep(page);
        await Expect(page.Locator(".marks > li").Nth(0)).ToContainTextAsync("10 cm, measured");
        var said = await page.Locator(".marks > li").Nth(1).TextContentAsync();
        var measured = System.Text.RegularExpressions.Regex.Match(said!, @"about ([\d.]+) (mm|cm), by the picture");
        Assert.True(measured.Success, said);
        var millimetres = double.Parse(measured.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) * (measured.Groups[2].Value == "cm" ? 10 : 1);
        Assert.InRange(millimetres, 49, 51);

        await Whole(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Outline" }).ClickAsync();
        var box = await Layer(page);
        foreach (var (x, y) in new[] { (.35f, .4f), (.55f, .4f), (.5f, .6f) })
        {
            await page.Mouse.ClickAsync(box.X + (box.Width * x), box.Y + (box.Height * y));
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Set it" }).ClickAsync();
        await page.Locator("#word").FillAsync("Torchon");
        await Keep(page);
        var outline = (await Regions(picture))[2]!;
        Assert.Equal(3, outline["target"]!["selector"]!["value"]!.ToString().Split("points=\"")[1].Split('"')[0].Split(' ').Length);
        Assert.EndsWith("/api/words/laces/torchon", outline["body"]!["source"]!.ToString(), StringComparison.Ordinal);

        // Its place on the picture chooses it in the list.
        await Whole(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "1 A line" }).ClickAsync();
        await Expect(page.Locator(".marks > li.chosen")).ToContainTextAsync("A line");
        await Whole(page);
        box = await Layer(page);
        await page.Mouse.ClickAsync(box.X + (box.Width * .47f), box.Y + (box.Height * .45f));
        await Expect(page.Locator(".marks > li.chosen")).ToContainTextAsync("Torchon");
    }

    [Fact]
    public async Task On_a_telephone_a_rectangle_is_drawn_with_one_finger_and_a_point_set_by_a_touch()
    {
        var (page, picture) = await RectangleByFingers(
            ("touchStart", [(.3f, .45f)]), ("touchMove", [(.4f, .5f)]), ("touchMove", [(.6f, .55f)]), ("touchEnd", []));
        await page.GetByRole(AriaRole.Button, new() { Name = "Point", Exact = true }).TapAsync();
        var box = await Layer(page);
        await page.Touchscreen.TapAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await Expect(page.Locator("[data-said]")).ToContainTextAsync("Now say what it shows.");
        await page.Locator("#text").FillAsync("a knot");
        await Keep(page);
        Assert.Contains("<circle", (await Regions(picture))[1]!["target"]!["selector"]!["value"]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public Task A_second_finger_on_the_picture_does_not_spoil_what_the_first_draws() => RectangleByFingers(
        ("touchStart", [(.3f, .45f)]),
        ("touchMove", [(.4f, .5f)]),
        ("touchStart", [(.4f, .5f), (.7f, .4f)]), // A palm, or the start of a pinch.
        ("touchMove", [(.45f, .5f), (.8f, .3f)]),
        ("touchMove", [(.5f, .52f), (.9f, .7f)]),
        ("touchMove", [(.5f, .52f)]), // The second is no longer there, the first stays.
        ("touchMove", [(.6f, .55f)]),
        ("touchEnd", []));

    // Fingers by fractions of the view: what is kept must be the rectangle from (.3, .45) to (.6, .55).
    private async Task<(IPage Page, string Picture)> RectangleByFingers(params (string Type, (float X, float Y)[] Fingers)[] touched)
    {
        var (_, picture) = await Piece();
        var page = await chromium.Open(host.Address, width: 390, touch: true);
        await page.GotoAsync($"/pictures/{picture}");
        await page.Locator("[data-ready]").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Rectangle", Exact = true }).TapAsync();
        var box = await Layer(page);
        var touches = await page.Context.NewCDPSessionAsync(page);
        foreach (var (type, fingers) in touched)
        {
            await touches.SendAsync("Input.dispatchTouchEvent", new()
            {
                ["type"] = type, ["touchPoints"] = fingers.Select((f, n) => new { x = box.X + (box.Width * f.X), y = box.Y + (box.Height * f.Y), id = n }).ToArray(),
            });
        }

        await Expect(page.Locator("[data-said]")).ToContainTextAsync("Now say what it shows.");
        await page.Locator("#text").FillAsync("the yoke");
        await Keep(page);
        var read = Assert.Single(await Regions(picture))!["target"]!["selector"]!["value"]!.ToString()["xywh=".Length..].Split(',').Select(int.Parse).ToArray();
        var scale = Math.Min(box.Width / Width, box.Height / Height);
        var (left, top) = ((box.Width - (Width * scale)) / 2, (box.Height - (Height * scale)) / 2);
        // A finger's place is told in whole pixels of the screen, each some of the picture's.
        var near = (int)Math.Ceiling(2 / scale) + 1;
        Assert.All(new[] { ((box.Width * .3f) - left) / scale, ((box.Height * .45f) - top) / scale, box.Width * .3f / scale, box.Height * .1f / scale }.Zip(read), p => Assert.InRange(p.Second, p.First - near, p.First + near));
        return (page, picture);
    }

    [Fact]
    public async Task Without_script_a_rectangle_is_marked_by_numbers_changed_taken_away_and_put_back()
    {
        var (_, picture) = await Piece();
        var page = await chromium.Open(host.Address, script: false);
        await page.GotoAsync($"/pictures/{picture}");
        await page.Locator("#text").FillAsync("a tear by the hem");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this mark" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("fill in all four numbers");
        await Expect(page.Locator("#text")).ToHaveValueAsync("a tear by the hem");
        foreach (var (field, value) in new[] { ("x", "100"), ("y", "200"), ("width", "300"), ("height", "150") })
        {
            await page.Locator($"#{field}").FillAsync(value);
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this mark" }).ClickAsync();
        await Expect(page.Locator(".marks > li")).ToContainTextAsync("a tear by the hem");
        Assert.InRange(await page.Locator(".close img").EvaluateAsync<int>("async i => (await i.decode(), i.naturalWidth)"), 300, int.MaxValue);
        await page.GetByRole(AriaRole.Link, new() { Name = "Change mark 1" }).Follow();
        await page.Locator("#x").FillAsync("90");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the mark" }).Follow();
        Assert.Equal("xywh=90,200,300,150", Assert.Single(await Regions(picture))!["target"]!["selector"]!["value"]!.ToString());
        await page.GetByRole(AriaRole.Link, new() { Name = "Change mark 1" }).Follow();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take this mark away" }).ClickAsync();
        await Expect(page.Locator(".marks > li")).ToHaveCountAsync(0);
        await page.Locator("summary", new() { HasText = "Taken away: 1" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it back: Rectangle 1" }).ClickAsync();
        await Expect(page.Locator(".marks > li")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task Pictures_side_by_side_zoom_together_at_the_same_scale()
    {
        var (_, first) = await Piece();
        var (_, second) = await Piece();
        foreach (var (picture, length) in new[] { (first, "10 cm"), (second, "20 cm") })
        {
            var line = new JsonObject
            {
                ["target"] = new JsonObject { ["selector"] = new JsonObject { ["type"] = "SvgSelector", ["value"] = "<svg xmlns='http://www.w3.org/2000/svg'><line x1='0' y1='0' x2='1000' y2='0'/></svg>" } }, ["length"] = length,
            };
            Assert.True((await host.Client.PostAsJsonAsync($"/api/pictures/{picture}/regions", line, TestContext.Current.CancellationToken)).IsSuccessStatusCode);
        }

        foreach (var width in new[] { 1280, 390 })
        {
            var page = await chromium.Open(host.Address, width: width);
            await page.GotoAsync($"/pictures/compare?show={first}&show={second}");
            await page.Locator("[data-compare][data-ready]").WaitForAsync();
            await Expect(page.Locator("p.under")).ToContainTextAsync("same scale");
            await page.GetByRole(AriaRole.Button, new() { Name = "Closer" }).ClickAsync();
            await page.Faultless();
        }

        var bare = await chromium.Open(host.Address, script: false);
        await bare.GotoAsync($"/pictures/compare?show={first}&show={second}");
        var widths = await bare.Locator(".compared image").EvaluateAllAsync<float[]>("all => all.map(i => i.getBoundingClientRect().width)");
        // The same number of pixels shows twice as much of the second piece.
        Assert.InRange(widths[1] / widths[0], 1.98, 2.02);
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task The_page_has_no_fault_that_can_be_found_by_rule_and_breaks_no_policy(int width)
    {
        var (_, picture) = await Piece();
        var errors = new List<string>();
        var page = await chromium.Open(host.Address, width: width);
        page.Console += (_, message) =>
        {
            if (message.Type == "error") errors.Add(message.Text);
        };
        await page.GotoAsync($"/pictures/{picture}");
        await page.Locator("[data-ready]").WaitForAsync();
        await Drawn(page, "Rectangle", (.3f, .3f), (.5f, .6f));
        await page.Locator("#text").FillAsync("the yoke");
        await Keep(page);
        await page.Faultless();
        await page.GetByRole(AriaRole.Button, new() { Name = "Point", Exact = true }).ClickAsync();
        await page.Faultless();
        await page.Fits();
        Assert.Empty(errors);
    }

    private async Task<IPage> Open(string picture)
    {
        var page = await chromium.Open(host.Address);
        await page.GotoAsync($"/pictures/{picture}");
        await page.Locator("[data-ready]").WaitForAsync();
        return page;
    }

    private static async Task<LocatorBoundingBoxResult> Layer(IPage page)
    {
        await page.Locator(".over.drawing").EvaluateAsync("l => l.scrollIntoView({ block: 'center' })");
        return (await page.Locator(".over.drawing").BoundingBoxAsync())!;
    }

    private static async Task<LocatorBoundingBoxResult> Drawn(IPage page, string tool, (float X, float Y) from, (float X, float Y) to)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = tool, Exact = true }).ClickAsync();
        var box = await Layer(page);
        await page.Mouse.MoveAsync(box.X + (box.Width * from.X), box.Y + (box.Height * from.Y));
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + (box.Width * to.X), box.Y + (box.Height * to.Y), new() { Steps = 4 });
        await page.Mouse.UpAsync();
        return box;
    }

    private static async Task Keep(IPage page)
    {
        var before = page.Url;
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this mark" }).ClickAsync();
        await page.WaitForURLAsync(url => url != before && url.Contains("region=", StringComparison.Ordinal));
        await page.Locator("[data-ready]").WaitForAsync();
    }

    // At once, so that what is drawn next lies where it looks.
    private static async Task Whole(IPage page)
    {
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await page.ReloadAsync();
        await page.Locator("[data-ready]").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Whole", Exact = true }).ClickAsync();
        await Wait.Until(
            () => page.EvaluateAsync<bool>("(() => { const v = OpenSeadragon.getViewer(document.querySelector('[data-deep]')).viewport; return Math.abs(v.getZoom(true) / v.getHomeZoom() - 1) < 1e-4; })()"),
            "the whole picture is shown");
    }

    private static void Near(float expected, int seen) => Assert.InRange(seen, expected - 6, expected + 6);

    private async Task<JsonArray> Regions(string picture) =>
        (await host.Client.GetFromJsonAsync<JsonObject>($"/api/pictures/{picture}/regions"))!["items"]!.AsArray();

    private async Task<(JsonObject Dress, string Picture)> Piece()
    {
        var dress = await host.BabyDress($"R-{Guid.NewGuid():N}");
        return (dress, await AddPicture(host, dress.Id()));
    }

    internal static async Task<string> AddPicture(ArchiveHost host, string garment)
    {
        using var file = new ByteArrayContent(Made.Png(Width, Height));
        file.Headers.ContentType = new MediaTypeHeaderValue("image/png");
        using var form = new MultipartFormDataContent { { file, "file", "a.png" }, { new StringContent("The whole dress"), "caption" } };
        using var taken = await host.Client.PostAsync($"/api/garments/{garment}/pictures", form);
        Assert.True(taken.IsSuccessStatusCode, await taken.Content.ReadAsStringAsync());
        return (await taken.Content.ReadFromJsonAsync<JsonArray>())![0]!["id"]!.ToString();
    }
}
