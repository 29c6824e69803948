using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Support;
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
        using var folder = new TemporaryFolder();
        await using var postgres = await EmbeddedPostgres.Start(Path.Combine(folder.Path, "db"));
        using var here = new Owned(postgres.ConnectionString, folder.Path, "here");
        using var there = new Owned(postgres.ConnectionString, folder.Path, "there");
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

    private static async Task<double> Found(GarmentIndex index, string number, Stopwatch since)
    {
        await Wait.Until(() => index.Search(SearchRequest.Read([KeyValuePair.Create("q", (string?)number)]))["total"]!.GetValue<int>() > 0, $"{number} is found", every: 1);
        return since.Elapsed.TotalMilliseconds;
    }

    private sealed class Owned(string database, string folder, string name) : IDisposable
    {
        public IHost Host { get; } = FindingRun.Node(database, Path.Combine(folder, name), DaemonMode.HotCold);

        public GarmentIndex Index => Host.Services.GetRequiredService<GarmentIndex>();

        public async Task Ready()
        {
            await Host.StartAsync();
            await Wait.Until(() => Index.IsReady, "the index is built");
        }

        public void Dispose() => Host.Dispose();
    }
}
