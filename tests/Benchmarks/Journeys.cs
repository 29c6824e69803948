using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Support;

namespace HeirloomArchive.Benchmarks;

/// <summary>
/// Sixty-four clients at once at the running service, each going from one thing to another as people do, with a moment's pause between:
/// no answer may be an error, the times of each journey are told, and the host's memory may not creep up.
/// </summary>
public static class Journeys
{
    private const int Clients = 64, Pieces = 1_000, Pictures = 40;

    private static readonly string[] Typed = ["tor", "pin%20tu", "nains", "yok", "chris", "val"];

    // How often each is taken, of a hundred.
    private static readonly (string Name, int Share, Func<Visitor, Task> Take)[] All =
    [
        ("the list of all, as a page", 10, v => v.Get("/pieces")),
        ("the list of all, by the API", 8, v => v.Get($"/api/garments?page={v.Chance.Next(1, 40)}&size=20")),
        ("find, with facets", 18, v => v.Get("/api/search?" + Benchmarks.Pieces.Questions[v.Chance.Next(Benchmarks.Pieces.Questions.Count)])),
        ("find, as a page", 8, v => v.Get("/examples?" + Benchmarks.Pieces.Questions[v.Chance.Next(Benchmarks.Pieces.Questions.Count)])),
        ("half-typed words", 8, v => v.Get("/api/suggest?q=" + Typed[v.Chance.Next(Typed.Length)])),
        ("a piece, as a page", 14, v => v.Get("/pieces/" + v.Any())),
        ("a new piece", 7, v => v.Enter()),
        ("a piece changed", 7, v => v.Change()),
        ("a picture sent", 2, v => v.Send()),
        ("a picture looked at", 13, v => v.Look()),
        ("a worksheet made", 4, v => v.Make()),
        ("a worksheet printed", 1, v => v.Print()),
    ];

    /// <summary>Fills an empty archive, then lets all go about for so long. Of five minutes the second and the last are compared; of less, the second fifth and the last.</summary>
    public static async Task Run(TimeSpan time)
    {
        using var folder = new TemporaryFolder();
        var port = RunningArchive.FreePort();
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 2 * Clients }) { BaseAddress = new Uri($"http://127.0.0.1:{port}"), Timeout = TimeSpan.FromMinutes(2) };
        var (host, _) = await Load.Start(folder.Path, port, client);
        var archive = new Shared(client);
        await archive.Fill(Pieces, Pictures);
        var memory = new List<(TimeSpan At, double MiB)>();
        var clock = Stopwatch.StartNew();
        var going = Enumerable.Range(0, Clients).Select(n => Task.Run(() => Go(new Visitor(archive, n), clock, time))).ToList();
        while (clock.Elapsed < time)
        {
            memory.Add((clock.Elapsed, Resident(host.Id)));
            await Task.Delay(1_000);
        }

        await Task.WhenAll(going);
        Tell(archive, memory, time);
        await Load.Stop(host);
    }

    private static async Task Go(Visitor visitor, Stopwatch clock, TimeSpan time)
    {
        while (clock.Elapsed < time)
        {
            await Task.Delay(visitor.Chance.Next(500, 1_500));
            var pick = visitor.Chance.Next(All.Sum(j => j.Share));
            var journey = All.First(j => (pick -= j.Share) < 0);
            var start = Stopwatch.GetTimestamp();
            try
            {
                await journey.Take(visitor);
                visitor.Archive.Times.GetOrAdd(journey.Name, _ => []).Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
            catch (Exception e) when (e is HttpRequestException or TaskCanceledException or IOException)
            {
                visitor.Archive.Errors.Add($"{journey.Name}: {e.Message}");
            }
        }
    }

    private static void Tell(Shared archive, List<(TimeSpan At, double MiB)> memory, TimeSpan time)
    {
        var part = time / 5;
        double Mean(TimeSpan from) => memory.Where(m => m.At >= from && m.At < from + part).Average(m => m.MiB);
        var (second, last) = (Mean(part), Mean(time - part));
        Console.WriteLine($"{Clients} clients for {time.TotalSeconds:0} s over {Pieces} pieces on {Environment.ProcessorCount} cores: {archive.Times.Values.Sum(t => t.Count)} journeys, {archive.Errors.Count} errors");
        Console.WriteLine("\n| journey | taken | median | 95 of 100 | 99 of 100 |\n|---|---|---|---|---|");
        foreach (var (name, _, _) in All.Where(j => archive.Times.ContainsKey(j.Name)))
        {
            var times = archive.Times[name].Order().ToList();
            string At(double share) => Math.Round(times[(int)((times.Count - 1) * share)]).ToString(CultureInfo.InvariantCulture) + " ms";
            Console.WriteLine($"| {name} | {times.Count} | {At(0.5)} | {At(0.95)} | {At(0.99)} |");
        }

        Console.WriteLine($"\nThe host's memory: {second:0} MiB in the second {part.TotalSeconds:0} s, {last:0} MiB in the last ({(last / second) - 1:+0.0 %;-0.0 %}), {memory.Max(m => m.MiB):0} MiB at most");
        foreach (var error in archive.Errors.GroupBy(e => e).OrderByDescending(e => e.Count()).Take(10))
        {
            Console.WriteLine($"{error.Count()} x {error.Key}");
        }

        Environment.ExitCode = archive.Errors.IsEmpty && Math.Abs((last / second) - 1) <= 0.10 ? 0 : 1;
    }

    // What the system counts as the process's own in memory, as /proc tells it.
    private static double Resident(int process)
    {
        using var host = Process.GetProcessById(process);
        return host.WorkingSet64 / 1024.0 / 1024.0;
    }

    /// <summary>The archive as all of them know it.</summary>
    private sealed class Shared(HttpClient client)
    {
        public HttpClient Client => client;
        public ConcurrentDictionary<string, ConcurrentBag<double>> Times { get; } = new();
        public ConcurrentBag<string> Errors { get; } = [];
        public List<string> Garments { get; } = [];
        public ConcurrentBag<string> Pictures { get; } = [];
        public int Entered;

        public async Task Fill(int pieces, int pictures)
        {
            var entered = new ConcurrentBag<string>();
            await Parallel.ForAsync(0, pieces, new ParallelOptions { MaxDegreeOfParallelism = 8 }, async (i, _) => entered.Add(await Enter(i)));
            Garments.AddRange(entered);
            Entered = pieces;
            for (var i = 0; i < pictures; i++) await Send(Garments[i], -1 - i);
        }

        public async Task<string> Enter(int number) => (await Answer(await client.PostAsJsonAsync("/api/garments", Benchmarks.Pieces.Make(number))))["id"]!.ToString();

        public async Task Send(string garment, int seed)
        {
            var noise = new byte[160 * 120 * 3];
            new Random(seed).NextBytes(noise);
            var file = PngParts.Stored(160, 120, 2, 8, false, (x, y, c) => noise[(3 * ((160 * y) + x)) + c]);
            using var form = new MultipartFormDataContent { { new ByteArrayContent(file), "file", "a.png" } };
            Pictures.Add((await Answer(await client.PostAsync(new Uri($"/api/garments/{garment}/pictures", UriKind.Relative), form)))[0]!["id"]!.ToString());
        }

        public static async Task<JsonNode> Answer(HttpResponseMessage answer)
        {
            using (answer)
            {
                return JsonNode.Parse(await Text(answer))!;
            }
        }

        public static async Task<string> Text(HttpResponseMessage answer)
        {
            var text = await answer.Content.ReadAsStringAsync();
            return answer.IsSuccessStatusCode ? text : throw new HttpRequestException($"{(int)answer.StatusCode} {(text.Length > 300 ? text[..300] : text)}");
        }
    }

    /// <summary>One client; what she changes is hers alone, as pieces on her table are.</summary>
    private sealed class Visitor(Shared archive, int place)
    {
        private readonly List<string> sheets = [], mine = [];
        private int sent;

        public Shared Archive => archive;
        public Random Chance { get; } = new(place);

        public string Any() => archive.Garments[Chance.Next(archive.Garments.Count)];

        public async Task Get(string path)
        {
            using var answer = await archive.Client.GetAsync(new Uri(path, UriKind.Relative));
            await Shared.Text(answer);
        }

        public async Task Enter() => mine.Add(await archive.Enter(Interlocked.Increment(ref archive.Entered)));

        public async Task Change()
        {
            var path = new Uri("/api/garments/" + await Mine(), UriKind.Relative);
            using var found = await archive.Client.GetAsync(path);
            await Shared.Text(found);
            using var request = new HttpRequestMessage(HttpMethod.Patch, path) { Content = JsonContent.Create(new { description = $"Looked at again, {Chance.Next(1_000_000)}" }, new MediaTypeHeaderValue("application/merge-patch+json")) };
            request.Headers.IfMatch.Add(found.Headers.ETag!);
            await Shared.Answer(await archive.Client.SendAsync(request));
        }

        public async Task Send() => await archive.Send(await Mine(), (place * 1_000_000) + sent++);

        public Task Look() => archive.Pictures.TryPeek(out var picture) ? Get($"/api/pictures/{picture}/{(Chance.Next(3) == 0 ? "screen" : "thumbnail")}") : Task.CompletedTask;

        public async Task Make()
        {
            var tucks = Chance.Next(10, 60);
            var made = await archive.Client.PostAsJsonAsync("/api/worksheets", new
            {
                title = "A worksheet on the way",
                plan = new { groups = new[] { new { tucks, width = "1/8 in", space = "1/4 in" } }, lead = "1 in", trail = "1 in" },
            });
            sheets.Add((await Shared.Answer(made))["id"]!.ToString());
        }

        public async Task Print()
        {
            if (sheets.Count == 0)
            {
                await Make();
            }

            await Get($"/worksheets/{sheets[Chance.Next(sheets.Count)]}.pdf");
        }

        private async Task<string> Mine()
        {
            if (mine.Count == 0)
            {
                await Enter();
            }

            return mine[Chance.Next(mine.Count)];
        }
    }
}
