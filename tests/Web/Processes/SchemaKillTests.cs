using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Processes;

/// <summary>The service killed while it makes its schema, at random points.</summary>
[Collection("Processes")]
public sealed class SchemaKillTests : IDisposable
{
    private const int Rounds = 4;
    private readonly TemporaryFolder folder = new(), server = new();

    public void Dispose()
    {
        folder.Dispose();
        server.Dispose();
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Killed_while_the_schema_is_made_it_starts_again_and_works()
    {
        await using var postgres = await EmbeddedPostgres.Start(server.Path, cancel: Cancel);
        await using var source = NpgsqlDataSource.Create(postgres.ConnectionString);
        var chance = new Random(20261126);
        var begun = 0;
        for (var round = 0; round < Rounds; round++)
        {
            var name = "round" + round;
            await using (var create = source.CreateCommand("CREATE DATABASE " + name)) await create.ExecuteNonQueryAsync(Cancel);
            var database = new NpgsqlConnectionStringBuilder(postgres.ConnectionString) { Database = name, ApplicationName = "the host" }.ConnectionString;
            string[] arguments = ["--Archive:Folder=" + Path.Combine(folder.Path, name), "--ConnectionStrings:Archive=" + database];

            await using (var killed = RunningArchive.Start(folder.Path, arguments))
            {
                // From its first statement that changes the schema.
                await using var look = source.CreateCommand($"select count(*) from pg_stat_activity where datname = '{name}' and query ~* 'create (schema|table|or replace function)'");
                for (var clock = Stopwatch.StartNew(); await look.ExecuteScalarAsync(Cancel) is 0L; await Task.Delay(2, Cancel))
                    Assert.True(clock.Elapsed < TimeSpan.FromMinutes(1), $"It never makes its schema. It said: {killed.Said}");
                await Task.Delay(chance.Next(0, 120), Cancel);
                begun += await killed.IsReady() ? 0 : 1;
                RunningArchive.Signal("KILL", killed.Id);
                await killed.Code(TimeSpan.FromSeconds(10));
            }

            await using var again = await RunningArchive.Start(folder.Path, arguments).Ready();
            var entered = await again.Client.PostAsJsonAsync("/api/garments", new { number = "S-1", name = "Sampler" }, Cancel);
            Assert.True(entered.StatusCode == HttpStatusCode.Created, await entered.Content.ReadAsStringAsync(Cancel));
            Assert.Contains("Sampler", await again.Client.GetStringAsync(entered.Headers.Location, Cancel), StringComparison.Ordinal);
            Assert.Contains("\"total\":1", await again.Client.GetStringAsync("/api/search?q=sampler", Cancel), StringComparison.Ordinal);
        }

        Assert.True(begun > 0, "Every kill came too late.");
    }

    [Fact]
    public async Task Killed_while_an_older_schema_is_changed_it_starts_again_with_all_that_was_kept()
    {
        await using var postgres = await EmbeddedPostgres.Start(server.Path, cancel: Cancel);
        await using var source = NpgsqlDataSource.Create(postgres.ConnectionString);
        string[] arguments = ["--Archive:Folder=" + folder.Path, "--ConnectionStrings:Archive=" + postgres.ConnectionString];
        await using (var first = await RunningArchive.Start(folder.Path, arguments).Ready())
        {
            Assert.Equal(HttpStatusCode.Created, (await first.Client.PostAsJsonAsync("/api/garments", new { number = "S-1", name = "Sampler" }, Cancel)).StatusCode);
            RunningArchive.Signal("TERM", first.Id);
            Assert.Equal(0, await first.Code(TimeSpan.FromSeconds(20)));
        }

        var chance = new Random(20261127);
        for (var round = 0; round < Rounds; round++)
        {
            // As it was before numbers had their patterns beside them.
            await using (var older = source.CreateCommand("alter table archive.mt_doc_numberreservation drop column pattern, drop column place")) await older.ExecuteNonQueryAsync(Cancel);
            await using (var killed = RunningArchive.Start(folder.Path, arguments))
            {
                await using var holds = await source.OpenConnectionAsync(Cancel);
                await using (var held = await holds.BeginTransactionAsync(Cancel))
                {
                    await using var hold = new NpgsqlCommand("lock table archive.mt_doc_numberreservation in row exclusive mode", holds, held);
                    await hold.ExecuteNonQueryAsync(Cancel);
                    await using var look = source.CreateCommand("select count(*) from pg_stat_activity where wait_event_type = 'Lock' and query ~* 'alter table'");
                    for (var clock = Stopwatch.StartNew(); await look.ExecuteScalarAsync(Cancel) is 0L; await Task.Delay(20, Cancel))
                        Assert.True(clock.Elapsed < TimeSpan.FromMinutes(1), $"It never changes its schema. It said: {killed.Said}");
                }

                await Task.Delay(chance.Next(0, 40), Cancel);
                RunningArchive.Signal("KILL", killed.Id);
                await killed.Code(TimeSpan.FromSeconds(10));
            }

            await using var again = await RunningArchive.Start(folder.Path, arguments).Ready();
            Assert.Equal(HttpStatusCode.Created, (await again.Client.PostAsJsonAsync("/api/garments", new { number = $"S-{round + 2}", name = "Another" }, Cancel)).StatusCode);
            Assert.Equal(HttpStatusCode.Conflict, (await again.Client.PostAsJsonAsync("/api/garments", new { number = "S-1", name = "Taken" }, Cancel)).StatusCode);
            Assert.Contains($"\"total\":{round + 2}", await again.Client.GetStringAsync("/api/garments?page=1&size=1", Cancel), StringComparison.Ordinal);
            await using var whole = source.CreateCommand("select count(*) from information_schema.columns where table_schema = 'archive' and table_name = 'mt_doc_numberreservation' and column_name in ('pattern', 'place')");
            Assert.Equal(2L, await whole.ExecuteScalarAsync(Cancel));
            RunningArchive.Signal("TERM", again.Id);
            Assert.Equal(0, await again.Code(TimeSpan.FromSeconds(20)));
        }
    }
}
