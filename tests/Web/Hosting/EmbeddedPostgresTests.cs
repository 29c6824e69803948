using System.Diagnostics;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Hosting;

public sealed class EmbeddedPostgresTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_was_written_is_there_after_a_clean_stop_and_a_second_start()
    {
        await using (var first = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel)) await Run(first, "CREATE TABLE kept AS SELECT 7 AS n");
        Assert.False(File.Exists(PostmasterFile));
        await using var second = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
        Assert.Equal(7, await Run(second, "SELECT n FROM kept"));
    }

    [Fact]
    public async Task A_stop_does_not_wait_for_clients_that_stay()
    {
        var postgres = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
        await using var client = new NpgsqlConnection(postgres.ConnectionString + ";Pooling=false");
        await client.OpenAsync(Cancel);
        var clock = Stopwatch.StartNew();
        await postgres.DisposeAsync();
        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(3));
        Assert.False(File.Exists(PostmasterFile));
    }

    [Fact]
    public async Task A_server_left_behind_is_ended_and_its_data_served_again()
    {
        var left = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
        await Run(left, "CREATE TABLE kept AS SELECT 7 AS n");
        await using var next = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
        await left.Ended.WaitAsync(TimeSpan.FromSeconds(5), Cancel);
        Assert.Equal(7, await Run(next, "SELECT n FROM kept"));
    }

    [Fact]
    public async Task A_postmaster_file_that_names_another_process_is_cleared_away()
    {
        await (await EmbeddedPostgres.Start(folder.Path, cancel: Cancel)).DisposeAsync();
        using var stranger = Process.Start("sleep", "60");
        try
        {
            var data = Path.GetDirectoryName(PostmasterFile)!;
            await File.WriteAllTextAsync(PostmasterFile, $"{stranger.Id}\n{data}\n1700000000\n5432\n\n127.0.0.1\n  1 1\nready   \n", Cancel);
            await using var next = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
            Assert.Equal(1, await Run(next, "SELECT 1"));
            Assert.False(stranger.HasExited);
        }
        finally { stranger.Kill(); }
    }

    [Fact]
    public async Task Files_of_another_major_version_stop_the_start_and_are_left_alone()
    {
        await (await EmbeddedPostgres.Start(folder.Path, cancel: Cancel)).DisposeAsync();
        var version = Path.Combine(folder.Path, "pg18", "PG_VERSION");
        await File.WriteAllTextAsync(version, "17\n", Cancel);
        var refused = await Assert.ThrowsAsync<StartException>(() => EmbeddedPostgres.Start(folder.Path, cancel: Cancel));
        Assert.Contains("PostgreSQL 17", refused.Message, StringComparison.Ordinal);
        Assert.Equal("17\n", await File.ReadAllTextAsync(version, Cancel));
    }

    [Fact]
    public async Task A_setting_up_that_was_killed_half_way_is_begun_again()
    {
        var half = Directory.CreateDirectory(Path.Combine(folder.Path, "pg18.new-left")).FullName;
        await File.WriteAllTextAsync(Path.Combine(half, "PG_VERSION"), "18\n", Cancel);
        await using var postgres = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel);
        Assert.Equal(1, await Run(postgres, "SELECT 1"));
    }

    [Fact]
    public async Task The_connection_file_is_for_its_owner_only_and_goes_with_the_server()
    {
        var file = EmbeddedPostgres.ConnectionFile(folder.Path);
        await using (var postgres = await EmbeddedPostgres.Start(folder.Path, cancel: Cancel))
        {
            Assert.Equal(postgres.ConnectionString, await File.ReadAllTextAsync(file, Cancel));
            if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }
        Assert.False(File.Exists(file));
    }

    private string PostmasterFile => Path.Combine(folder.Path, "pg18", "postmaster.pid");

    private static async Task<object?> Run(EmbeddedPostgres postgres, string sql)
    {
        await using var connection = new NpgsqlConnection(postgres.ConnectionString + ";Pooling=false");
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Cancel);
    }
}
