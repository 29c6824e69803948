using System.Text.Json.Nodes;
using HeirloomArchive.Browser.Tests;
using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Benchmarks;

/// <summary>
/// The demonstration's pages as a browser gets them for the first time: first paint beside that of a page with nothing on it,
/// script as it comes over the line, and how far what is seen moves while it loads (Cumulative Layout Shift).
/// </summary>
internal static class PageFigures
{
    // The zoom viewer is brought when a picture is opened, so it counts for no page of these.
    private const string Look = """
        () => new Promise((done) => {
          let shift = 0;
          new PerformanceObserver((list) => { for (const e of list.getEntries()) if (!e.hadRecentInput) shift += e.value; }).observe({ type: 'layout-shift', buffered: true });
          const things = performance.getEntriesByType('resource').filter((e) => /\.js(\?|$)/.test(e.name));
          const told = () => done([performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? -1, things.reduce((sum, e) => sum + e.encodedBodySize, 0), shift]);
          setTimeout(told, 300);
        })
        """;

    public static async Task Run()
    {
        using var folder = new TemporaryFolder();
        await using var archive = RunningArchive.Start(folder.Path, ["--demo", "--Archive:Folder=" + folder.Path]);
        await Wait.Until(archive.IsReady, "the demonstration is ready", TimeSpan.FromMinutes(10), every: 500);
        await using var chromium = new Chromium();
        await chromium.InitializeAsync();
        foreach (var width in new[] { 360, 1440 })
        {
            var nothing = Median(await Seen(chromium, archive.Address, "/health/live", width), 0);
            Console.WriteLine($"== {width} px wide; the first paint of a page with one word on it {nothing:0} ms");
            foreach (var path in await Paths(archive.Client))
            {
                var seen = await Seen(chromium, archive.Address, path, width);
                Console.WriteLine($"{Name(path),-34} first paint {Median(seen, 0),5:0} ms  {Median(seen, 0) / nothing,5:0.0} x   script {seen.Max(s => s[1]) / 1024,5:0.0} KiB   shift {seen.Max(s => s[2]),6:0.000}");
            }
        }
    }

    // Each time on a device of its own, which has been nowhere.
    private static async Task<List<double[]>> Seen(Chromium chromium, Uri archive, string path, int width)
    {
        var seen = new List<double[]>();
        for (var i = 0; i < 5; i++)
        {
            var page = await chromium.Open(archive, width: width);
            await page.GotoAsync(path, new() { WaitUntil = WaitUntilState.Load });
            seen.Add(await page.EvaluateAsync<double[]>(Look));
            await page.Context.CloseAsync();
        }

        return seen;
    }

    private static async Task<List<string>> Paths(HttpClient client)
    {
        var piece = (await Get(client, "/api/garments?page=1&size=1"))["items"]![0]!["id"]!.ToString();
        var sheet = (await Get(client, "/api/worksheets"))["items"]![0]!["id"]!.ToString();
        var lesson = (await Get(client, "/api/lessons"))["items"]![0]!["id"]!.ToString();
        return
        [
            "/", "/pieces", $"/pieces/{piece}", "/pieces/new", "/pieces/new?depth=full", "/examples", "/examples?q=pin+tucks+by+hand", "/worksheets/new", $"/worksheets/{sheet}",
            $"/worksheets/{sheet}/at-the-table", $"/lessons/{lesson}", "/numbers", "/words", "/work-it-out", "/work-it-out/tucks", "/guide", "/guide/measuring-a-tuck",
        ];
    }

    private static string Name(string path) => string.Join('/', path.Split('/').Select(p => Guid.TryParse(p, out _) ? "…" : p));

    private static double Median(List<double[]> seen, int which) => seen.Select(s => s[which]).Order().ElementAt(seen.Count / 2);

    private static async Task<JsonNode> Get(HttpClient client, string path) => JsonNode.Parse(await client.GetStringAsync(new Uri(path, UriKind.Relative)))!;
}
