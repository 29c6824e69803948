using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Support;
using JasperFx.Events.Daemon;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;

[assembly: AssemblyFixture(typeof(PostgresServer))]

namespace HeirloomArchive.Search.Tests;

public sealed class FollowerTests(PostgresServer postgres) : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly TemporaryFolder folder = new();

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Own_saves_are_found_at_once_and_every_other_by_following()
    {
        var database = await postgres.NewDatabase();
        await using var one = await Node(database, "one");
        await using var other = await Node(database, "other");
        await Ready(one);
        await Ready(other);
        var apron = await Archive(one).Enter(Named("Apron"), "Ann", Ct);
        await Follower(one).Refresh(apron.Garment.Id, apron.Position);
        Assert.Equal(["Apron"], Index(one).Names(""));
        Assert.True(await Follower(one).WaitFor(apron.Position, TimeSpan.Zero));
        Assert.True(await Follower(other).WaitFor(apron.Position, Patience));
        Assert.Equal(["Apron"], Index(other).Names(""));

        await Archive(one).SetAside(apron.Garment.Id, 1, "Ann", Ct);
        await Eventually(() => Index(other).Names("").Length == 0);
        Assert.True(await Follower(one).Exists(apron.Position, Ct));
        Assert.False(await Follower(one).Exists(apron.Position + 1_000, Ct));
        Assert.False(await Follower(one).WaitFor(apron.Position + 1_000, TimeSpan.FromMilliseconds(100)));
    }

    [Fact]
    public async Task Nothing_is_missed_with_several_writers_at_once_nor_when_the_index_is_thrown_away()
    {
        var database = await postgres.NewDatabase();
        await using (var node = await Node(database, "one"))
        {
            var archive = Archive(node);
            await Task.WhenAll(Enumerable.Range(0, 6).Select(async writer =>
            {
                for (var i = 0; i < 25; i++)
                {
                    var saved = await archive.Enter(Named($"Piece {writer}-{i}"), "Ann", Ct);
                    if (i % 5 == 0)
                    {
                        await archive.Change(saved.Garment.Id, 1, new JsonObject { ["name"] = $"Changed {writer}-{i}" }, "Ann", Ct);
                    }
                }
            }));
            await Eventually(() => Index(node).IsReady && Index(node).Ask("q=changed")["total"]!.GetValue<int>() == 30 && Index(node).Count == 150);
        }

        foreach (var path in Directory.GetDirectories(Path.Combine(folder.Path, "one")))
        {
            Directory.Delete(path, recursive: true);
        }

        await using var again = await Node(database, "one");
        await Eventually(() => Index(again).IsReady && Index(again).Count == 150);
        Assert.Equal(30, Index(again).Ask("q=changed")["total"]!.GetValue<int>());
        Assert.Equal(0, Index(again).Ask("q=deleted")["total"]!.GetValue<int>());
    }

    [Fact]
    public async Task After_a_stop_it_goes_on_where_it_was()
    {
        var database = await postgres.NewDatabase();
        await using (var node = await Node(database, "one"))
        {
            await Ready(node);
            var apron = await Archive(node).Enter(Named("Apron"), "Ann", Ct);
            Assert.True(await Follower(node).WaitFor(apron.Position, Patience));
        }

        await using (var elsewhere = await Node(database, "elsewhere"))
        {
            await Archive(elsewhere).Enter(Named("Bib"), "Ann", Ct);
        }

        await using var again = await Node(database, "one");
        Assert.False(Index(again).NeedsBuilding);
        await Eventually(() => Index(again).Names("sort=name").SequenceEqual(["Apron", "Bib"]));
    }

    [Fact]
    public async Task An_index_of_another_record_is_built_again()
    {
        await using (var node = await Node(await postgres.NewDatabase(), "one"))
        {
            await Ready(node);
            var saved = await Archive(node).Enter(Named("Apron"), "Ann", Ct);
            Assert.True(await Follower(node).WaitFor(saved.Position, Patience));
        }

        await using var other = await Node(await postgres.NewDatabase(), "one");
        await Eventually(() => Index(other).Count == 0);
    }

    [Fact]
    public async Task A_save_that_another_took_along_is_shown_though_that_one_failed()
    {
        var database = await postgres.NewDatabase();
        var watch = new CommandWatch();
        await using var store = DocumentStore.For(o =>
        {
            o.Connection(database);
            CatalogueStore.Configure(o);
            o.Logger(watch);
        });
        await store.Storage.ApplyAllConfiguredChangesToDatabaseAsync();
        var archive = new Archive(store, TimeProvider.System);
        var saved = new List<Saved>();
        foreach (var name in new[] { "Apron", "Bib", "Cap" })
        {
            saved.Add(await archive.Enter(Named(name), "Ann", Ct));
        }

        using var index = Indexes.Of(Path.Combine(folder.Path, "one"));
        using var follower = new IndexFollower(index, store, NullLogger<IndexFollower>.Instance);
        using var reached = new ManualResetEventSlim();
        using var goOn = new ManualResetEventSlim();
        var loads = 0;
        watch.Before = sql =>
        {
            if (!sql.Contains("mt_doc_garment", StringComparison.Ordinal))
            {
                return;
            }

            // The first waits until the others stand in line; the second takes the third along and fails.
            switch (Interlocked.Increment(ref loads))
            {
                case 1:
                    reached.Set();
                    goOn.Wait(Patience);
                    break;
                case 2:
                    throw new InvalidOperationException("The connection broke.");
                default:
                    break;
            }
        };
        var first = Task.Run(() => follower.Refresh(saved[0].Garment.Id, saved[0].Position), Ct);
        Assert.True(reached.Wait(Patience, Ct));
        var others = saved[1..].Select(s => follower.Refresh(s.Garment.Id, s.Position)).ToList();
        goOn.Set();
        await Task.WhenAll([first, .. others]);
        Assert.True(await follower.WaitFor(saved[2].Position, TimeSpan.Zero));
        Assert.Contains("Cap", index.Names("sort=name"));
    }

    private async Task<Running> Node(string database, string name)
    {
        var builder = Host.CreateApplicationBuilder();
        builder.Logging.SetMinimumLevel(LogLevel.Warning).AddFilter("Marten.Events.Daemon", LogLevel.None);
        builder.Services.AddMarten(o =>
        {
            o.Connection(database);
            CatalogueStore.Configure(o);
        }).UseLightweightSessions().ApplyAllDatabaseChangesOnStartup().AddAsyncDaemon(DaemonMode.HotCold);
        builder.Services.AddCatalogue();
        builder.Services.AddSearch(Path.Combine(folder.Path, name));
        var host = builder.Build();
        await host.StartAsync(Ct);
        return new Running(host);
    }

    private static JsonObject Named(string name) => new() { ["name"] = name };

    private static Archive Archive(Running node) => node.Host.Services.GetRequiredService<Archive>();

    private static GarmentIndex Index(Running node) => node.Host.Services.GetRequiredService<GarmentIndex>();

    private static IndexFollower Follower(Running node) => node.Host.Services.GetRequiredService<IndexFollower>();

    private static Task Ready(Running node) => Eventually(() => Index(node).IsReady);

    private static async Task Eventually(Func<bool> happens)
    {
        using var end = new CancellationTokenSource(Patience);
        while (!happens())
        {
            Assert.False(end.IsCancellationRequested, "It did not happen in time.");
            await Task.Delay(20, Ct);
        }
    }

    private sealed record Running(IHost Host) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            await Host.StopAsync();
            Host.Dispose();
        }
    }
}
