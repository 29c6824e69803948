using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Pictures come in from a telephone and a desk, over a line that drops, and get their words.</summary>
public sealed class UploadTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    private static readonly FilePayload[] Three = [NoisePicture.Named("front.png"), NoisePicture.Named("back.png"), NoisePicture.Named("yoke.png")];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task Several_at_once_each_with_its_bar(int width)
    {
        var (dress, page) = await OnPiece(width);
        // Halfway all of them are held until the page has been looked at.
        var seen = new TaskCompletionSource();
        await page.RouteAsync("**/api/uploads/*", async route =>
        {
            if (IsLater(route.Request)) await seen.Task;
            await route.ContinueAsync();
        });
        await Choose(page, Three);
        await page.GetByLabel("From where").FillAsync("reverse side");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Progressbar)).ToHaveCountAsync(3);
        await Expect(page.GetByRole(AriaRole.Progressbar, new() { Name = "yoke.png" })).ToBeVisibleAsync();
        await Expect(page.Locator("[data-uploads-said]")).ToContainTextAsync("of 3 pictures are here");
        await page.Faultless();
        await page.Fits();
        seen.SetResult();
        await Expect(page.Locator(".thumbs li")).ToHaveCountAsync(2);
        var pictures = (await host.Garment(dress.Id()))["pictures"]!.AsArray();
        Assert.All(pictures, p => Assert.Equal("detail-wrong-side", p!["view"]!.ToString()));
        Assert.Equal(3, pictures.Count);
    }

    [Fact]
    public async Task A_connection_dropped_in_the_middle_goes_on_from_where_it_was()
    {
        var (dress, page) = await OnPiece(390);
        var offsets = Offsets(page);
        var (dropped, gone) = (false, false);
        await page.RouteAsync("**/api/uploads/*", async route =>
        {
            if (IsLater(route.Request) && !dropped)
            {
                (dropped, gone) = (true, true);
                await page.Context.SetOfflineAsync(true);
            }

            await (gone ? route.AbortAsync("internetdisconnected") : route.ContinueAsync());
        });
        await Choose(page, Three[0]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.Locator("[data-uploads-said]")).ToContainTextAsync("connection is lost");
        gone = false;
        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
        Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
        Assert.Single(offsets, "0");
    }

    [Fact]
    public async Task A_host_gone_and_come_again_in_the_middle_is_waited_for()
    {
        var (dress, page) = await OnPiece(1280);
        var halfway = new TaskCompletionSource();
        var gone = new TaskCompletionSource();
        await page.RouteAsync("**/api/uploads/*", async route =>
        {
            if (IsLater(route.Request) && halfway.TrySetResult())
            {
                await gone.Task;
            }

            await route.ContinueAsync();
        });
        await Choose(page, Three[1]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await halfway.Task.WaitAsync(TimeSpan.FromMinutes(2), Stop);
        await host.StopAsync();
        gone.SetResult();
        await Expect(page.Locator("[data-uploads-said]")).ToContainTextAsync("connection is lost");
        await host.StartAsync();
        await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
        Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
    }

    [Fact]
    public async Task A_page_closed_in_the_middle_goes_on_when_the_file_is_chosen_again()
    {
        var path = Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.png");
        await File.WriteAllBytesAsync(path, Three[2].Buffer, Stop);
        try
        {
            var (dress, page) = await OnPiece(1280);
            var sent = new TaskCompletionSource();
            await page.RouteAsync("**/api/uploads/*", async route =>
            {
                if (IsLater(route.Request))
                {
                    sent.TrySetResult();
                    return;
                }

                await route.ContinueAsync();
            });
            await page.Locator("#file").SetInputFilesAsync(path);
            await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
            await sent.Task.WaitAsync(TimeSpan.FromMinutes(2), Stop);
            var context = page.Context;
            await page.CloseAsync();
            page = await context.NewPageAsync();
            var offsets = Offsets(page);
            await page.GotoAsync($"/pieces/{dress.Id()}");
            await page.Locator("#file").SetInputFilesAsync(path);
            await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
            await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
            Assert.NotEmpty(offsets);
            Assert.DoesNotContain("0", offsets);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public async Task A_file_that_is_no_picture_says_so_beside_its_name_and_the_others_are_kept()
    {
        var (dress, page) = await OnPiece(390);
        await Choose(page, new FilePayload { Name = "notes.jpg", MimeType = "image/jpeg", Buffer = "not a picture"u8.ToArray() }, Three[0]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("notes.jpg: ");
        await Expect(page.Locator("[data-uploads-said]")).ToHaveTextAsync("1 of 2 pictures are here.");
        Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
        await page.Faultless();

        // What was refused holds up nothing that comes after it.
        await Choose(page, Three[1]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.Locator(".thumbs li")).ToHaveCountAsync(1);
        Assert.Equal(2, (await host.Garment(dress.Id()))["pictures"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_full_disk_is_told_as_it_is_and_what_had_come_is_not_sent_again()
    {
        var path = Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.png");
        await File.WriteAllBytesAsync(path, Three[2].Buffer, Stop);
        try
        {
            var (dress, page) = await OnPiece(390);
            var isFull = true;
            await page.RouteAsync("**/api/uploads/*", route => isFull && IsLater(route.Request)
                ? route.FulfillAsync(new() { Status = 507, ContentType = "application/problem+json", Body = """{"title":"The disk is full.","detail":"Make room on the disk."}""" })
                : route.ContinueAsync());
            await page.Locator("#file").SetInputFilesAsync(path);
            await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
            await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Make room on the disk.");

            isFull = false;
            var offsets = Offsets(page);
            await page.Locator("#file").SetInputFilesAsync(path);
            await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
            await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
            Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
            Assert.NotEmpty(offsets);
            Assert.DoesNotContain("0", offsets);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public async Task Where_too_much_is_sent_at_once_it_waits_as_long_as_it_is_told()
    {
        var (dress, page) = await OnPiece(390);
        var times = 0;
        await page.RouteAsync("**/api/uploads/*", route => IsLater(route.Request) && Interlocked.Increment(ref times) <= 2
            ? route.FulfillAsync(new() { Status = 429, ContentType = "application/problem+json", Body = "{}", Headers = [KeyValuePair.Create("Retry-After", "1")] })
            : route.ContinueAsync());
        var offsets = Offsets(page);
        await Choose(page, Three[0]);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
        Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
        Assert.Single(offsets, "0");
        Assert.True(times > 2, "Nothing was refused.");
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task Pictures_of_a_new_piece_come_while_she_types_and_outlive_the_page(int width)
    {
        await host.Client.DeleteAsync("/api/drafts/new-piece", Stop);
        var page = await chromium.Open(host.Address, width: width);
        await page.GotoAsync("/pieces/new");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Mull jabot");
        await page.GetByLabel("The front").SetInputFilesAsync(NoisePicture.Named("f.png"));
        await page.GetByLabel("One detail, close to").SetInputFilesAsync(NoisePicture.Named("d.png"));
        await Expect(page.Locator("[data-uploads-said]")).ToHaveTextAsync("2 of 2 pictures are here.");
        await Expect(page.Locator("[data-draft-said]")).ToHaveTextAsync("Kept as a draft.");
        await page.Faultless();
        await Wait.Until(() => page.EvaluateAsync<bool>("localStorage.getItem('draft new-piece') === null"), "the archive has all of the draft");

        var context = page.Context;
        await page.CloseAsync();
        page = await context.NewPageAsync();
        await page.GotoAsync("/pieces/new");
        await Expect(page.GetByRole(AriaRole.Checkbox, new() { Name = "f.png (front)" })).ToBeCheckedAsync();
        await page.GetByLabel("The back").SetInputFilesAsync(NoisePicture.Named("b.png"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Save the piece" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Mull jabot");
        var garment = await host.Garment(page.Url.Split('/')[^1].Split('#')[0]);
        Assert.Equal(["front", "back", "detail-right-side"], garment["pictures"]!.AsArray().Select(p => p!["view"]!.ToString()));
        Assert.DoesNotContain(Directory.EnumerateFiles(Path.Combine(host.Folder, "pictures", "unfinished"), "*.json"), f => File.ReadAllText(f).Contains("\"f.png\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Files_can_be_dropped_where_there_is_a_mouse()
    {
        var (dress, page) = await OnPiece(1280);
        await Expect(page.Locator("[data-drop]")).ToBeVisibleAsync();
        var base64 = Convert.ToBase64String(Three[0].Buffer);
        await page.Locator("#add-pictures").EvaluateAsync("""
            (form, base64) => {
              const files = new DataTransfer();
              files.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], 'dropped.png', { type: 'image/png' }));
              form.dispatchEvent(new DragEvent('drop', { dataTransfer: files, bubbles: true, cancelable: true }));
            }
            """, base64);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.Locator("img.shown.whole:not(.drawn)")).ToBeVisibleAsync();
        Assert.Single((await host.Garment(dress.Id()))["pictures"]!.AsArray());
    }

    [Fact]
    public async Task Without_script_the_plain_form_does_it_and_a_synonym_is_understood()
    {
        var (dress, page) = await OnPiece(390, script: false);
        await Choose(page, Three[0], Three[1]);
        await page.GetByLabel("From where").FillAsync("Backlit");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add them" }).ClickAsync();
        await Expect(page.Locator(".thumbs li")).ToHaveCountAsync(1);
        Assert.All((await host.Garment(dress.Id()))["pictures"]!.AsArray(), p => Assert.Equal("light-from-behind", p!["view"]!.ToString()));
    }

    [Theory]
    [InlineData(390, true)]
    [InlineData(1280, false)]
    public async Task Pictures_without_words_get_them_one_after_another(int width, bool script)
    {
        var dress = await host.BabyDress($"T-{width}");
        using var form = new MultipartFormDataContent();
        foreach (var file in Three)
        {
            form.Add(new ByteArrayContent(file.Buffer), "file", file.Name);
        }

        (await host.Client.PostAsync($"/api/garments/{dress.Id()}/pictures", form, Stop)).EnsureSuccessStatusCode();
        var page = await chromium.Open(host.Address, script, width);
        await page.GotoAsync("/pictures/untagged");
        foreach (var (view, tags, caption) in new[] { ("Front", "for class, laid out", "The dress laid out"), ("wrong side", "stitches", ""), ("no such view", "for class", "") })
        {
            await page.GetByLabel("From where").FillAsync(view);
            await page.GetByLabel("Tags").FillAsync(tags);
            if (script && tags == "stitches")
            {
                await page.GetByLabel("Tags").FillAsync("stitches, ");
                await Expect(page.Locator("#all-tags option[value='stitches, for class']")).ToHaveCountAsync(1);
                await page.GetByLabel("Tags").FillAsync("stitches");
            }

            await page.GetByLabel("What it shows").FillAsync(caption);
            await page.GetByRole(AriaRole.Button, new() { Name = "Save, and the next" }).Follow();
        }

        var pictures = (await host.Garment(dress.Id()))["pictures"]!.AsArray();
        Assert.Equal(["front", "detail-wrong-side", """{"own":"no such view"}"""], pictures.Select(p => p!["view"] is JsonObject own ? own.ToJsonString() : p["view"]!.ToString()));
        Assert.Equal(["for class", "laid out"], pictures[0]!["tags"]!.AsArray().Select(t => t!.ToString()));
        Assert.Null(pictures[1]!["caption"]);
        if (script)
        {
            await page.Faultless();
        }
    }

    [Fact]
    public async Task The_originals_are_looked_at_when_she_asks()
    {
        var page = await chromium.Open(host.Address, width: 390);
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Are the pictures whole?" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Look at all of them now" }).ClickAsync();
        await Expect(page.GetByText("Every one is there, as it came in.")).ToBeVisibleAsync();
        await page.Faultless();
    }

    private async Task<(JsonObject Dress, IPage Page)> OnPiece(int width, bool script = true)
    {
        var dress = await host.BabyDress($"U-{Guid.NewGuid():N}");
        var page = await chromium.Open(host.Address, script, width);
        await page.GotoAsync($"/pieces/{dress.Id()}");
        return (dress, page);
    }

    private static Task Choose(IPage page, params FilePayload[] files) => page.GetByLabel("From the telephone or this computer").SetInputFilesAsync(files);

    private static bool IsLater(IRequest request) => request.Method == "PATCH" && request.Headers["upload-offset"] != "0";

    private static ConcurrentBag<string> Offsets(IPage page)
    {
        var offsets = new ConcurrentBag<string>();
        page.Response += (_, answer) =>
        {
            if (answer.Request.Method == "PATCH" && answer.Ok) offsets.Add(answer.Request.Headers["upload-offset"]);
        };
        return offsets;
    }
}
