using System.Diagnostics;
using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using JasperFx.Events.Daemon;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Npgsql;
using Weasel.Core;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>
/// Finding in a large collection: building the index from the record, narrow and broad questions, the empty one, many at once; beside bare
/// Lucene.Net over the same index and beside PostgreSQL's tables, in the same run. Growth is shown by a tenth of the size first.
/// </summary>
internal static class FindingRun
{
    /// <summary>Measures a tenth of the garments, then all; every count of the yardsticks is compared with ours.</summary>
    public static async Task Of(int garments)
    {
        foreach (var size in new[] { garments / 10, garments })
        {
            Console.WriteLine($"== {size:N0} garments, {3 * size:N0} techniques");
            await Measure(size);
        }
    }

    private static async Task Measure(int garments)
    {
        using var folder = new TemporaryFolder();
        await using var postgres = await EmbeddedPostgres.Start(Path.Combine(folder.Path, "db"));
        using var host = Node(postgres.ConnectionString, Path.Combine(folder.Path, "index"));
        await Enter(host, garments);
        using var process = Process.GetCurrentProcess();
        var (clock, before) = (Stopwatch.StartNew(), process.TotalProcessorTime);
        await host.StartAsync();
        var index = host.Services.GetRequiredService<GarmentIndex>();
        await Wait.Until(() => index.IsReady, "the index is built", TimeSpan.FromHours(1));
        Say("rebuilt from the record, committed", $"{garments / clock.Elapsed.TotalSeconds,8:0} garments/s   {clock.Elapsed.TotalSeconds:0.0} s, of it {Worked(process, before):0.0} s of processor here");
        var path = Directory.GetDirectories(Path.Combine(folder.Path, "index")).Single();
        Say("the index on disk", $"{new DirectoryInfo(path).GetFiles().Sum(f => f.Length) / (double)garments,8:0} bytes/garment");
        await Ask(index, path, postgres.ConnectionString, garments);
        Say("memory of PostgreSQL, shared parts once", $"{MemoryOf(Path.Combine(folder.Path, "db")),8:0} MB");
        await host.StopAsync();
        NpgsqlConnection.ClearAllPools();
    }

    private static async Task Ask(GarmentIndex index, string path, string database, int garments)
    {
        var all = Questions.Narrow.Concat(Questions.Broad).ToList();
        Times(all, q => Ours(index, q));
        var (narrow, broad) = (Times(Questions.Narrow, q => Ours(index, q), 3), Times(Questions.Broad, q => Ours(index, q), 3));
        Say("narrow, all 22 facets", $"p50 {At(narrow, 0.5),7:0.0} ms   p95 {At(narrow, 0.95),7:0.0} ms");
        Say("broad, all 22 facets", $"p50 {At(broad, 0.5),7:0.0} ms   p95 {At(broad, 0.95),7:0.0} ms");
        Say("the most a narrow one finds", $"{Questions.Narrow.Max(q => Ours(index, q).Total) / (double)garments,8:0.00%}    the most a broad one finds {Questions.Broad.Max(q => Ours(index, q).Total) / (double)garments:0.0%}");
        var typing = Times(Questions.HalfTyped, q => index.Search(SearchRequest.Read(q.Query)), 3);
        Say("half typed, one to three letters", $"p50 {At(typing, 0.5),7:0.0} ms   p95 {At(typing, 0.95),7:0.0} ms");
        var empty = new Question([], null);
        Ours(index, empty);
        Say("nothing asked, from the cache", $"p95 {At(Times(Enumerable.Repeat(empty, 50), q => Ours(index, q)), 0.95),7:0.0} ms");
        var fresh = Times(Enumerable.Range(0, 20).Select(i => (i, empty)), p =>
        {
            var garment = Collection.Make(p.i * 31 % garments);
            index.Put(garment.Id, 2, garment.State(Sight.Everything));
            return Ours(index, p.empty);
        });
        var like = Times(Enumerable.Range(0, 50), i =>
        {
            var garment = Collection.Make(i * 97 % garments);
            return index.LikeTechnique(garment.Id, garment.State(Sight.Everything)["techniques"]![0]!.AsObject(), i % 2 == 1, 20);
        });
        Say("alike by construction", $"p50 {At(like, 0.5),7:0.0} ms   p95 {At(like, 0.95),7:0.0} ms");
        Say("nothing asked, the first after a write", $"p50 {At(fresh, 0.5),7:0.0} ms   p95 {At(fresh, 0.95),7:0.0} ms");
        var clock = Stopwatch.StartNew();
        Parallel.For(0, 600, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => Ours(index, Questions.Narrow[i % 150]));
        Say("narrow, two at once", $"{600 / clock.Elapsed.TotalSeconds,8:0} a second");
        using (var process = Process.GetCurrentProcess())
        {
            Say("memory of the process", $"{process.WorkingSet64 / 1e6,8:0} MB   of it heap {GC.GetTotalMemory(false) / 1e6:0} MB{MappedFiles()}");
        }

        index.Commit(index.Position);
        using (var plain = new Plain(path))
        {
            Times(all, plain.Ask);
            Compare("bare Lucene.Net, 8 facets", index, all, plain.Ask);
        }

        await using var source = new NpgsqlDataSourceBuilder(database) { ConnectionStringBuilder = { CommandTimeout = 0 } }.Build();
        var tables = new Tables(source);
        clock.Restart();
        await tables.Fill(garments);
        Say("PostgreSQL's tables filled and indexed", $"{clock.Elapsed.TotalSeconds,8:0.0} s");
        var some = all.Where((_, i) => i % 5 == 2).ToList();
        (int, Dictionary<string, Dictionary<string, int>>) Sql(Question q) => tables.Ask(q).GetAwaiter().GetResult();
        Times(some, Sql);
        Compare("PostgreSQL, 8 facets", index, some, Sql);
    }

    private static void Compare(string name, GarmentIndex index, List<Question> asked, Func<Question, (int, Dictionary<string, Dictionary<string, int>>)> other)
    {
        var (theirs, ours) = (Times(asked, other), Times(asked, q => Ours(index, q)));
        var wrong = asked.Where(q => !Same(Ours(index, q), other(q))).ToList();
        foreach (var (kind, which) in new[] { ("narrow", Questions.Narrow), ("broad", Questions.Broad) })
        {
            var places = Enumerable.Range(0, asked.Count).Where(i => which.Contains(asked[i])).ToList();
            var (t, o) = (places.ConvertAll(i => theirs[i]), places.ConvertAll(i => ours[i]));
            Say($"{name}, {kind}", $"p50 {At(t, 0.5),7:0.0} ms   p95 {At(t, 0.95),7:0.0} ms   ours {o.Sum() / t.Sum():0.00} x its time ({places.Count} asked)");
        }

        Say($"answers of {asked.Count} that differ", $"{wrong.Count,8}   {wrong.FirstOrDefault()}");
    }

    private static bool Same((int Total, Dictionary<string, Dictionary<string, int>> Facets) a, (int Total, Dictionary<string, Dictionary<string, int>> Facets) b) =>
        a.Total == b.Total && Questions.Facets.All(f => a.Facets[f].Count == b.Facets[f].Count && a.Facets[f].All(v => b.Facets[f].GetValueOrDefault(v.Key) == v.Value));

    private static (int Total, Dictionary<string, Dictionary<string, int>> Facets) Ours(GarmentIndex index, Question question)
    {
        var answer = index.Search(SearchRequest.Read(question.Query));
        return (answer["total"]!.GetValue<int>(), Questions.Facets.ToDictionary(f => f, f => answer["facets"]![f]!.AsArray().ToDictionary(v => v!["value"]!.GetValue<string>(), v => v!["count"]!.GetValue<int>())));
    }

    private static List<double> Times<T, TAnswer>(IEnumerable<T> questions, Func<T, TAnswer> ask, int rounds = 1)
    {
        var times = new List<double>();
        for (var round = 0; round < rounds; round++)
        {
            foreach (var question in questions)
            {
                var start = Stopwatch.GetTimestamp();
                ask(question);
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        }

        return times;
    }

    private static double Worked(Process process, TimeSpan before)
    {
        process.Refresh();
        return (process.TotalProcessorTime - before).TotalSeconds;
    }

    // The index's files count as the process's memory while they are mapped; the system takes them back when it needs room.
    private static string MappedFiles() => !OperatingSystem.IsLinux() ? ""
        : $", files mapped {double.Parse(File.ReadLines("/proc/self/status").Single(l => l.StartsWith("RssFile:", StringComparison.Ordinal))[8..^2], CultureInfo.InvariantCulture) / 1e3:0} MB";

    // What each process holds, what they share counted once: in kilobytes in Linux's own words.
    private static double? MemoryOf(string database)
    {
        if (!OperatingSystem.IsLinux())
        {
            return null;
        }

        var master = File.ReadLines(Directory.GetFiles(database, "postmaster.pid", SearchOption.AllDirectories).Single()).First();
        var all = Directory.GetDirectories("/proc").Where(p => File.Exists(Path.Combine(p, "stat")) && int.TryParse(Path.GetFileName(p), out _))
            .Where(p => Path.GetFileName(p) == master || Parent(p) == master);
        return all.Sum(p => File.ReadLines(Path.Combine(p, "smaps_rollup")).Where(l => l.StartsWith("Pss:", StringComparison.Ordinal))
            .Sum(l => double.Parse(l[4..^2], CultureInfo.InvariantCulture))) / 1024;
    }

    private static string Parent(string process)
    {
        try
        {
            return File.ReadAllText(Path.Combine(process, "stat")).Split(')')[^1].Split(' ')[2];
        }
        catch (IOException)
        {
            // Ended meanwhile.
            return "";
        }
    }

    internal static double At(List<double> times, double share) => times.Order().ElementAt((int)(times.Count * share));

    internal static async Task Enter(IHost host, int garments)
    {
        var clock = Stopwatch.StartNew();
        var store = host.Services.GetRequiredService<IDocumentStore>();
        await store.Storage.ApplyAllConfiguredChangesToDatabaseAsync();
        for (var from = 0; from < garments; from += 20_000)
        {
            await store.BulkInsertAsync([.. Enumerable.Range(from, Math.Min(20_000, garments - from)).AsParallel().Select(Collection.Make)], BulkInsertMode.InsertsOnly, 5_000);
        }

        Say("put into the record", $"{clock.Elapsed.TotalSeconds,8:0.0} s");
    }

    internal static IHost Node(string database, string folder, DaemonMode mode = DaemonMode.Solo)
    {
        var builder = Host.CreateApplicationBuilder();
        builder.Logging.SetMinimumLevel(LogLevel.Warning).AddFilter("Marten.Events.Daemon", LogLevel.None);
        builder.Services.AddMarten(o =>
        {
            o.Connection(database);
            CatalogueStore.Configure(o);
        }).UseLightweightSessions().AddAsyncDaemon(mode);
        builder.Services.AddSearch(folder);
        return builder.Build();
    }

    internal static void Say(string what, string measured) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-42}{measured}"));
}
