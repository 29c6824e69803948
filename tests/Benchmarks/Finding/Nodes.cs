using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Hosting.Postgres;
using JasperFx.Events.Daemon;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Npgsql;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>Two nodes, an index each, on one record: how long after a save at one of them the piece is found there, and at the other.</summary>
internal static class Nodes
{
    /// <summary>Saves so many pieces, one after another, into an archive of 10 000.</summary>
    public static async Task Run(int saves)
    {
        var folder = FindingRun.Folder();
        try
        {
            await using var postgres = await EmbeddedPostgres.Start(Path.Combine(folder.FullName, "db"));
            using var here = new Owned(postgres.ConnectionString, folder, "here");
            using var there = new Owned(postgres.ConnectionString, folder, "there");
            await FindingRun.Enter(here.Host, 10_000);
            await here.Ready();
            await there.Ready();
            var archive = new Archive(here.Host.Services.GetRequiredService<IDocumentStore>(), TimeProvider.System);
            var follower = here.Host.Services.GetRequiredService<IndexFollower>();
            var (own, other) = (new List<double>(), new List<double>());
            for (var i = 0; i < saves; i++)
            {
                var number = $"NODE-{i:0000}";
                var saved = await archive.Enter(new JsonObject { ["number"] = number, ["name"] = "A piece saved at one node" }, "measuring");
                var clock = Stopwatch.StartNew();
                await follower.Refresh(saved.Garment.Id, saved.Position);
                own.Add(await Found(here.Index, number, clock));
                other.Add(await Found(there.Index, number, clock));
                await Task.Delay(37);
            }

            FindingRun.Say("found where it was saved, after the save", $"p50 {FindingRun.At(own, 0.5),7:0.0} ms   p95 {FindingRun.At(own, 0.95),7:0.0} ms   longest {own.Max():0.0} ms");
            FindingRun.Say("found at the other node", $"p50 {FindingRun.At(other, 0.5),7:0.0} ms   p95 {FindingRun.At(other, 0.95),7:0.0} ms   longest {other.Max():0.0} ms");
            await here.Host.StopAsync();
            await there.Host.StopAsync();
            NpgsqlConnection.ClearAllPools();
        }
        finally
        {
            folder.Delete(true);
        }
    }

    private static async Task<double> Found(GarmentIndex index, string number, Stopwatch since)
    {
        while (index.Search(SearchRequest.Read([KeyValuePair.Create("q", (string?)number)]))["total"]!.GetValue<int>() == 0)
        {
            await Task.Delay(1);
        }

        return since.Elapsed.TotalMilliseconds;
    }

    private sealed class Owned(string database, DirectoryInfo folder, string name) : IDisposable
    {
        public IHost Host { get; } = FindingRun.Node(database, Path.Combine(folder.FullName, name), DaemonMode.HotCold);

        public GarmentIndex Index => Host.Services.GetRequiredService<GarmentIndex>();

        public async Task Ready()
        {
            await Host.StartAsync();
            while (!Index.IsReady)
            {
                await Task.Delay(20);
            }
        }

        public void Dispose() => Host.Dispose();
    }
}
