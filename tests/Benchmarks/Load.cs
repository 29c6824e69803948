using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Benchmarks;

/// <summary>
/// The running service under load: start, save and search, each beside a yardstick measured in the same run
/// (an empty answer of the same host, a single committed row of the same PostgreSQL through it).
/// </summary>
public static class Load
{
    private const int Asked = 500;

    /// <summary>Starts the built host on an empty folder, enters <paramref name="garments"/> pieces, measures, stops, starts again.</summary>
    public static async Task Run(int garments)
    {
        using var folder = new TemporaryFolder();
        var port = RunningArchive.FreePort();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{port}"), Timeout = TimeSpan.FromMinutes(2) };
        var (host, empty) = await Start(folder.Path, port, client);
        Console.WriteLine($"start on an empty folder                {empty.TotalSeconds,8:0.00} s");
        await Enter(client, garments);
        await Measure(client, garments);
        await Stop(host);
        (host, var existing) = await Start(folder.Path, port, client);
        Console.WriteLine($"start on a folder of {garments} pieces     {existing.TotalSeconds,8:0.00} s   {existing / empty:0.00} x the start on an empty one");
        await Stop(host);
    }

    private static async Task Enter(HttpClient client, int garments)
    {
        var clock = Stopwatch.StartNew();
        await Parallel.ForAsync(0, garments, new ParallelOptions { MaxDegreeOfParallelism = 8 }, async (i, ct) =>
        {
            using var answer = await client.PostAsJsonAsync("/api/garments", Pieces.Make(i), ct);
            answer.EnsureSuccessStatusCode();
        });
        Console.WriteLine($"{garments} pieces entered by 8 at once    {garments / clock.Elapsed.TotalSeconds,8:0} a second");
    }

    private static async Task Measure(HttpClient client, int garments)
    {
        var nothing = await Times(i => client.GetAsync(new Uri("/health/live", UriKind.Relative)));
        var save = await Times(i => client.PostAsJsonAsync("/api/garments", Pieces.Make(garments + i)));
        var search = await Times(i => client.GetAsync(new Uri("/api/search?" + Pieces.Questions[i % Pieces.Questions.Count], UriKind.Relative)));
        Console.WriteLine($"an empty answer                         {P95(nothing),8:0.00} ms p95");
        Console.WriteLine($"a save                                  {P95(save),8:0.00} ms p95   {P95(save) / P95(nothing):0.0} x an empty answer");
        Console.WriteLine($"a search over {garments} pieces            {P95(search),8:0.00} ms p95   {P95(search) / P95(nothing):0.0} x an empty answer");
    }

    internal static async Task<List<double>> Times(Func<int, Task<HttpResponseMessage>> call, int asked = Asked)
    {
        var first = asked / 10;
        var times = new List<double>(asked);
        for (var i = 0; i < asked + first; i++)
        {
            var start = Stopwatch.GetTimestamp();
            using var answer = await call(i);
            answer.EnsureSuccessStatusCode();
            await answer.Content.ReadAsByteArrayAsync();
            if (i >= first)
            {
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        }

        return times;
    }

    internal static double Median(List<double> times) => times.Order().ElementAt(times.Count / 2);

    internal static double P95(List<double> times) => times.Order().ElementAt((int)(times.Count * 0.95));

    internal static async Task<(Process Host, TimeSpan Took)> Start(string folder, int port, HttpClient client)
    {
        var clock = Stopwatch.StartNew();
        var host = Process.Start(new ProcessStartInfo("dotnet",
            [HostPath(), "--urls", $"http://127.0.0.1:{port}", $"--Archive:Folder={folder}"]) { RedirectStandardOutput = true })!;
        host.OutputDataReceived += (_, _) => { };
        host.BeginOutputReadLine();
        while (!await Ready(client))
        {
            if (host.HasExited || clock.Elapsed > TimeSpan.FromMinutes(2))
            {
                throw new InvalidOperationException("The host did not become ready.");
            }

            await Task.Delay(20);
        }

        return (host, clock.Elapsed);
    }

    private static async Task<bool> Ready(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync(new Uri("/health/ready", UriKind.Relative));
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    internal static async Task Stop(Process host)
    {
        using var kill = Process.Start("kill", ["-TERM", host.Id.ToString(CultureInfo.InvariantCulture)]);
        await host.WaitForExitAsync();
        host.Dispose();
    }

    private static string HostPath() => Path.Combine(AppContext.BaseDirectory, "HeirloomArchive.Web.dll");
}

/// <summary>Invented pieces and questions, the same in every run.</summary>
public static class Pieces
{
    private static readonly string[] Kinds = ["christening-gown", "baby-dress", "petticoat", "tea-gown", "blouse", "cap", "chemise", "drawers"];
    private static readonly string[] Parts = ["yoke", "skirt", "sleeve", "hem", "bodice-front", "cuff"];
    private static readonly string[] Tucks = ["pin", "plain", "growth", "blind", "nuns"];
    private static readonly string[] Sewn = ["hand", "machine", "machine-lockstitch", "machine-chainstitch", "not-determined"];
    private static readonly string[] Laces = ["valenciennes", "torchon", "cluny", "crochet", "tatting"];
    private static readonly string[] Cloth = ["lawn", "nainsook", "batiste", "muslin"];

    /// <summary>What she asks for.</summary>
    public static IReadOnlyList<string> Questions { get; } =
    [
        "tuckKind=pin&sewn=hand&part=yoke&lace=torchon&to=1909",
        "q=pin%20tucks%20by%20hand%20on%20a%20yoke",
        "q=torchon",
        "kind=petticoat&condition=tear",
        "widthFrom=1/16%20in&widthTo=1/8%20in&sewn=machine",
        "q=nainsook%20dress&decade=1900s",
        "repair=darn&repairSewn=hand",
        "q=lawn%20cap%20with%20val",
    ];

    /// <summary>Piece <paramref name="i"/>, always the same.</summary>
    public static JsonObject Make(int i)
    {
        var random = new Random(i);
        string Of(string[] words) => words[random.Next(words.Length)];
        var kind = Of(Kinds);
        var cloth = Of(Cloth);
        return new JsonObject
        {
            ["number"] = $"L-{i:000000}",
            ["name"] = $"{cloth} {kind.Replace('-', ' ')} {i}",
            ["kind"] = kind,
            ["dated"] = $"{random.Next(1870, 1930)}~",
            ["overall"] = "fair",
            ["description"] = "White work with tucks and lace, the hem let down once; a narrow placket at the back closes with two buttons.",
            ["materials"] = new JsonArray(new JsonObject { ["word"] = cloth }),
            ["techniques"] = new JsonArray(
                new JsonObject
                {
                    ["kind"] = "tucks", ["tuckKind"] = Of(Tucks), ["part"] = Of(Parts), ["sewn"] = Of(Sewn),
                    ["groups"] = new JsonArray(new JsonObject { ["tucks"] = random.Next(3, 12), ["width"] = $"{random.Next(1, 9)}/16 in", ["space"] = "1/4 in" }),
                },
                new JsonObject { ["kind"] = "tucks", ["tuckKind"] = Of(Tucks), ["part"] = Of(Parts), ["sewn"] = Of(Sewn) },
                new JsonObject { ["kind"] = "lace", ["lace"] = Of(Laces), ["part"] = Of(Parts), ["form"] = "edging", ["laceMade"] = "machine", ["width"] = "3/4 in" }),
            ["condition"] = new JsonArray(new JsonObject { ["what"] = random.Next(2) == 0 ? "tear" : "yellowing", ["part"] = Of(Parts), ["severity"] = "slight" }),
            ["repairs"] = new JsonArray(new JsonObject { ["method"] = "darn", ["sewn"] = "hand", ["part"] = Of(Parts) }),
        };
    }
}
