using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>Everything twice and four times as large (WCAG 2.2, 1.4.4 and 1.4.10), with a reader's own spacing (1.4.12), and on a device that asks for no motion (2.3.3).</summary>
public sealed class ComfortTests(ArchiveHost host, Chromium chromium) : IClassFixture<ArchiveHost>
{
    /// <summary>A window of 1280 px at 200 % and at 400 %: what remains is 640 and 320 px wide, and as much less high.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    public async Task Enlarged_nothing_is_cut_off_and_every_button_comes_into_reach(int zoom)
    {
        var page = await chromium.Open(host.Address, width: 1280 / zoom, zoom: zoom);
        var wrong = new List<string>();
        foreach (var address in await Main($"ZOOM-{zoom}"))
        {
            await page.GotoAsync(address);
            await page.Fits();
            wrong.AddRange((await page.CutOff()).Select(w => $"{address}: {w}"));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public async Task With_the_spacing_that_a_reader_may_set_nothing_is_cut_off()
    {
        var page = await chromium.Open(host.Address, width: 360);
        var wrong = new List<string>();
        foreach (var address in await Main("SPACED"))
        {
            await page.GotoAsync(address);
            await Style(page, "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }");
            await page.Fits();
            wrong.AddRange((await page.CutOff()).Select(w => $"{address}: {w}"));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public async Task Where_no_motion_is_asked_for_nothing_moves_whatever_a_style_would_move()
    {
        var page = await chromium.Open(host.Address, still: true);
        foreach (var address in await Main("STILL"))
        {
            await page.GotoAsync(address);
            Assert.True(await Moving(page) == 0, $"{address} moves");
            await Wave(page);
            Assert.True(await Moving(page) == 0, $"{address} would move");
        }

        // With motion the same styles do move: what was looked for is found where it is.
        var lively = await chromium.Open(host.Address);
        await lively.GotoAsync("/");
        await Wave(lively);
        Assert.NotEqual(0, await Moving(lively));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_picture_comes_closer_at_once_where_no_motion_is_asked_for_and_glides_else(bool still)
    {
        var dress = await host.BabyDress($"GLIDE-{still}");
        var picture = await RegionTests.AddPicture(host, dress.Id());
        var page = await chromium.Open(host.Address, still: still);
        await page.GotoAsync($"/pictures/{picture}");
        await page.Locator("[data-ready]").WaitForAsync();

        // Closer and further again, looked at in every frame: how often it was on its way.
        var between = await page.EvaluateAsync<int>(
            """
            async () => {
              const viewport = OpenSeadragon.getViewer(document.querySelector('[data-deep]')).viewport;
              let between = 0;
              for (const look of ['in', 'out', 'in', 'out', 'in']) {
                const from = viewport.getZoom(true);
                document.querySelector(`[data-look=${look}]`).click();
                const to = viewport.getZoom(false);
                if (Math.abs(to / from - 1) < .2) return -1;
                for (let frame = 0; Math.abs(viewport.getZoom(true) / to - 1) > .001 && frame < 1000; frame++) {
                  await new Promise(requestAnimationFrame);
                  const now = viewport.getZoom(true);
                  if (Math.min(Math.abs(now / from - 1), Math.abs(now / to - 1)) > .001) between++;
                }
              }
              return between;
            }
            """);
        Assert.True(still ? between == 0 : between > 0, $"{between} times between");
    }

    // Running animations, and smooth scrolling, which is none of them.
    private static Task<int> Moving(IPage page) => page.EvaluateAsync<int>(
        "document.getAnimations().length + [...document.querySelectorAll('*')].filter(e => getComputedStyle(e).scrollBehavior === 'smooth').length");

    // A style that moves everything, as a later change might bring one.
    private static async Task Wave(IPage page) => await Style(page, "@keyframes wave { from { opacity: .5 } } .page, .button, .sheet { animation: wave 3s infinite; transition: opacity 3s; } html { scroll-behavior: smooth; }");

    private static async Task Style(IPage page, string style) => await page.EvaluateAsync(
        "style => { const sheet = new CSSStyleSheet(); sheet.replaceSync(style); document.adoptedStyleSheets = [sheet]; document.body.getBoundingClientRect(); }", style);

    private async Task<IReadOnlyList<string>> Main(string number)
    {
        var dress = await host.BabyDress(number);
        var (piece, sheet) = ($"/pieces/{dress.Id()}", await host.Sheet(dress));
        await host.Change(dress.Id(), 1, new() { ["overall"] = "weak" });
        return
        [
            "/", "/pieces", "/pieces?as=table", "/pieces/new", "/pieces/new?depth=full", "/examples?q=pin+tucks", piece, $"{piece}/edit", $"{piece}/techniques/{dress.Tucks()}", $"{piece}/look-over", $"{piece}/condition",
            $"{piece}/history/1", $"{piece}/dating", $"/pictures/{await RegionTests.AddPicture(host, dress.Id())}", $"/worksheets/new?garment={dress.Id()}&technique={dress.Tucks()}", sheet, $"{sheet}/at-the-table?step=7", $"{sheet}/made-up",
            "/lessons", "/questions", "/numbers", "/care", "/words?q=torchon", "/work-it-out", "/work-it-out/tucks?groups[0].tucks=5&groups[0].width=1/8+in&groups[0].space=1/4+in", "/guide/measuring-a-tuck", "/offline",
        ];
    }
}
