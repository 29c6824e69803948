using HeirloomArchive.Support;
using HeirloomArchive.Web.Tests.Backups;
using Npgsql;

namespace HeirloomArchive.Web.Tests.Hosting;

/// <summary>The keys that sign forms: in the folder for its owner's eyes only, or in a PostgreSQL that is a server of its own.</summary>
[Collection("Processes")]
public sealed class KeyTests(PostgresServer postgres) : IDisposable
{
    private const string Form = "/pieces/new";
    private readonly TemporaryFolder folder = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task With_the_archive_s_own_database_they_lie_in_its_folder_and_in_no_backup()
    {
        var keys = Path.Combine(folder.Path, "archive", "keys");
        var file = Path.Combine(folder.Path, "kept.heirloom");
        string[] made;
        await using (var archive = await RunningArchive.Start(Path.Combine(folder.Path, "archive")).Ready())
        {
            await archive.Client.GetStringAsync(new Uri(Form, UriKind.Relative), Cancel);
            made = Directory.GetFiles(keys);
            Assert.NotEmpty(made);
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, Mode(keys));
            Assert.All(made, key => Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, Mode(key)));
            Assert.Equal(["0"], await Kept.Ask(archive, "SELECT count(*) FROM archive.mt_doc_form_keys"));
            await Kept.Do("backup", file, archive.Folder);
        }

        // They stay as they are over a restart; a folder that others could look into is shut again.
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(keys, Mode(keys) | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
        await using (var again = await RunningArchive.Start(Path.Combine(folder.Path, "archive")).Ready())
        {
            await again.Client.GetStringAsync(new Uri(Form, UriKind.Relative), Cancel);
            Assert.Equal(made, Directory.GetFiles(keys));
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, Mode(keys));
        }

        var target = Path.Combine(folder.Path, "target");
        await Kept.Do("restore", file, target);
        Assert.Empty(Directory.GetFiles(Path.Combine(target, "keys")));
    }

    [Fact]
    public async Task With_a_PostgreSQL_that_is_a_server_of_its_own_they_lie_there()
    {
        await using var host = await ArchiveHost.Start(postgres);
        await host.Client.GetStringAsync(new Uri(Form, UriKind.Relative), Cancel);
        await using var source = NpgsqlDataSource.Create(host.ConnectionString);
        await using var count = source.CreateCommand("SELECT count(*) FROM archive.mt_doc_form_keys");
        Assert.True(await count.ExecuteScalarAsync(Cancel) is long and > 0);
        Assert.False(Directory.Exists(Path.Combine(host.Folder, "keys")));

        // Another start, as another node, signs with the same.
        await host.StopAsync();
        await host.StartAsync();
        var before = await count.ExecuteScalarAsync(Cancel);
        await host.Client.GetStringAsync(new Uri(Form, UriKind.Relative), Cancel);
        Assert.Equal(before, await count.ExecuteScalarAsync(Cancel));
    }

    private static UnixFileMode Mode(string path) => OperatingSystem.IsWindows() ? throw new PlatformNotSupportedException() : File.GetUnixFileMode(path);
}
