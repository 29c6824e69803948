using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using JasperFx.Events;
using Marten;

namespace HeirloomArchive.Benchmarks;

/// <summary>
/// The record as it grows: saving, opening, the list of all and the history over 1 000, 10 000 … pieces with ten events each,
/// each beside an empty answer of the same host in the same run. The pieces are put in at once, then the built host serves them.
/// </summary>
public static class Record
{
    private const int EventsEach = 10, ManyEntries = 300, ManyEvents = 2_000, Bulk = 1_000;

    private static readonly (string What, string Path)[] Pages =
    [
        ("pages: the first", "/"), ("pages: examples, nothing asked", "/examples"), ("pages: examples, lawn on the yoke", "/examples?q=lawn+yoke"),
        ("pages: in numbers", "/numbers"), ("pages: what needs care first", "/care"), ("pages: kept questions", "/questions"), ("pages: lessons", "/lessons"),
    ];

    /// <summary>Measures with 1 000, 10 000 … up to <paramref name="most"/> pieces.</summary>
    public static async Task Run(int most)
    {
        for (var pieces = Math.Min(1_000, most); pieces <= most; pieces *= 10)
        {
            using var folder = new TemporaryFolder();
            await Measure(folder.Path, pieces);
        }
    }

    private static async Task Measure(string folder, int pieces)
    {
        var clock = Stopwatch.StartNew();
        var (some, entries, events) = await Fill(folder, pieces);
        Console.WriteLine($"\n{pieces} pieces, {pieces * EventsEach + ManyEvents} events, put in in {clock.Elapsed.TotalSeconds:0} s");
        var port = RunningArchive.FreePort();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{port}"), Timeout = TimeSpan.FromMinutes(10) };
        var (host, _) = await Load.Start(folder, port, client);
        try
        {
            await Listed(client, pieces);
            var empty = await Load.Times(_ => Get(client, "/health/live"), 300);
            void Say(string what, List<double> times) => Console.WriteLine($"{what,-58}{Load.Median(times),8:0.0} ms {Load.P95(times),8:0.0} ms p95 {Load.P95(times) / Load.P95(empty),8:0.0} x an empty answer");
            Say("an empty answer", empty);
            var version = new long[some.Count];
            Say("save: a piece changed", await Load.Times(i => Patch(client, some[i % some.Count], EventsEach + version[i % some.Count]++, i), 500));
            Say("save: a piece entered, with a number", await Load.Times(i => client.PostAsJsonAsync("/api/garments", Pieces.Make(pieces + i)), 500));
            Say($"open: the API, a piece of {ManyEntries} entries", await Load.Times(_ => Get(client, $"/api/garments/{entries}"), 200));
            Say($"open: the page, a piece of {ManyEntries} entries", await Load.Times(_ => Get(client, $"/pieces/{entries}"), 200));
            Say($"history: the API, the first 20 of {ManyEvents} events", await Load.Times(_ => Get(client, $"/api/garments/{events}/history"), 100));
            Say($"history: the page, the first 30 of {ManyEvents} events", await Load.Times(_ => Get(client, $"/pieces/{events}/history"), 100));
            Say($"history: a version of {ManyEvents} beside now", await Load.Times(_ => Get(client, $"/pieces/{events}/history/1000"), 100));
            Say("list of all: the first page as a table", await Load.Times(_ => Get(client, "/pieces?as=table"), 200));
            Say("list of all: by number, from the last", await Load.Times(_ => Get(client, "/pieces?as=table&sort=number&down=true"), 200));
            Say("list of all: of one kind, by place, fifth page", await Load.Times(_ => Get(client, "/pieces?as=table&kind=blouse&sort=place&down=false&number=5"), 200));
            Say("list of all: with words in its name", await Load.Times(_ => Get(client, "/pieces?as=table&has=lawn+blouse+77"), 100));
            Say("list of all: the last page", await Load.Times(_ => Get(client, $"/pieces?as=table&sort=changed&number={pieces / 50}"), 50));
            foreach (var (what, path) in Pages)
            {
                Say(what, await Load.Times(_ => Get(client, path), 100));
            }

            Say("new piece: the page, its next number", await Load.Times(_ => Get(client, "/pieces/new"), 100));
        }
        finally
        {
            await Load.Stop(host);
        }
    }

    // Events at once, then the snapshots made of them; the host itself brings them into the list.
    private static async Task<(IReadOnlyList<Guid> Some, Guid Entries, Guid Events)> Fill(string folder, int pieces)
    {
        await using var postgres = await EmbeddedPostgres.Start(folder);
        await using var store = DocumentStore.For(o =>
        {
            o.Connection(postgres.ConnectionString);
            CatalogueStore.Configure(o);
        });
        await store.Storage.ApplyAllConfiguredChangesToDatabaseAsync();
        var registry = (IEventRegistry)store.Events;
        var some = new List<Guid>();
        for (var from = 0; from < pieces; from += Bulk)
        {
            var streams = Enumerable.Range(from, Math.Min(Bulk, pieces - from)).Select(i => Stream(registry, Events(i))).ToList();
            some.AddRange(streams.Take(Math.Max(1, 500 * Bulk / pieces)).Select(s => s.Id));
            await store.BulkInsertEventsAsync(streams, Bulk, CancellationToken.None);
            await store.BulkInsertAsync([.. streams.Select((s, i) => new NumberReservation { Id = $"L-{from + i:000000}", Garment = s.Id })], cancellation: CancellationToken.None);
        }

        var (entries, events) = (Stream(registry, [Entered(pieces, ManyEntries)]), Stream(registry, [Entered(pieces + 1, 3), .. Enumerable.Range(1, ManyEvents - 1).Select(Changed)]));
        await store.BulkInsertEventsAsync([entries, events], Bulk, CancellationToken.None);
        using var daemon = await store.BuildProjectionDaemonAsync();
        await daemon.RebuildProjectionAsync<Garment>(TimeSpan.FromHours(1), CancellationToken.None);
        return (some, entries.Id, events.Id);
    }

    private static StreamAction Stream(IEventRegistry registry, object[] events)
    {
        var stream = StreamAction.Start(registry, Guid.CreateVersion7(), events);
        stream.AggregateType = typeof(Garment);
        return stream;
    }

    private static object[] Events(int i) => [Entered(i, 0), .. Enumerable.Range(1, EventsEach - 1).Select(Changed)];

    private static GarmentEntered Entered(int i, int entries)
    {
        var fields = Pieces.Make(i);
        foreach (var list in GarmentShape.EntryLists.Where(l => fields[l] is JsonArray))
        {
            var some = fields[list]!.AsArray();
            while (list == "techniques" && some.Count < entries)
            {
                some.Add(some[some.Count % 3]!.DeepClone());
            }

            foreach (var entry in some)
            {
                entry!["id"] = Guid.CreateVersion7().ToString();
            }
        }

        return new((JsonObject)GarmentShape.Garment.Read(fields, "", [])!);
    }

    private static object Changed(int n) => new GarmentChanged(new()
    {
        ["place"] = new JsonObject { ["shelf"] = $"{(char)('A' + (n % 9))}", ["box"] = $"{n % 40}" }, ["tags"] = new JsonArray($"class {n % 7}"),
    });

    private static Task<HttpResponseMessage> Get(HttpClient client, string path) => client.GetAsync(new Uri(path, UriKind.Relative));

    private static async Task<HttpResponseMessage> Patch(HttpClient client, Guid id, long version, int i)
    {
        using var request = new HttpRequestMessage(HttpMethod.Patch, $"/api/garments/{id}") { Content = JsonContent.Create(new JsonObject { ["description"] = $"Looked at again, {i}." }) };
        request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        return await client.SendAsync(request);
    }

    // Until the list has them all, and the index has followed.
    private static async Task Listed(HttpClient client, int pieces)
    {
        var clock = Stopwatch.StartNew();
        var all = (pieces + 2).ToString("N0", CultureInfo.GetCultureInfo("en-GB"));
        await Wait.Until(async () => (await client.GetStringAsync(new Uri("/pieces?as=table&sort=name", UriKind.Relative))).Contains($"{all} pieces", StringComparison.Ordinal),
            $"the list has {all} pieces", TimeSpan.FromHours(1), every: 200);
        Console.WriteLine($"brought into the list of all in {clock.Elapsed.TotalSeconds:0.0} s");
        await Wait.Until(async () => await Found(client) >= pieces + 2, $"the index has {all} pieces", TimeSpan.FromHours(1), every: 500);
        Console.WriteLine($"in the index after {clock.Elapsed.TotalSeconds:0} s");
    }

    // 503 while the index is being built.
    private static async Task<long> Found(HttpClient client)
    {
        using var answer = await Get(client, "/api/search");
        return answer.IsSuccessStatusCode ? (await answer.Content.ReadFromJsonAsync<JsonObject>())!["total"]!.GetValue<long>() : 0;
    }
}
