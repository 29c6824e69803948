using System.IO.Compression;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting;
using HeirloomArchive.Web.Hosting.Backups;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>A backup that is not as it was written is refused, whichever byte it is, and nothing comes to be where it was to go.</summary>
[Collection("Processes")]
public sealed class DamagedBackupTests(DamagedBackupTests.Whole whole) : IClassFixture<DamagedBackupTests.Whole>
{
    private static readonly IProgress<string> Silent = new Progress<string>();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task As_it_was_written_it_is_taken() => await Seal.Check(whole.File, Silent, Cancel);

    [Theory]
    [InlineData("start", 0, 30, 1)]
    [InlineData("table", 0, 200, 3)]
    [InlineData("picture", 0, 400, 7)]
    [InlineData("directory", 0, 600, 5)]
    [InlineData("seal", 0, 64, 1)]
    [InlineData("anywhere", 0, int.MaxValue, 0)]
    public async Task A_byte_changed_anywhere_is_noticed(string part, int from, int length, int step)
    {
        var seeded = new Random(20261126);
        var first = whole.At(part) + from;
        IEnumerable<int> places = step > 0
            ? Enumerable.Range(0, length / step).Select(i => first + i * step).Where(at => at < whole.Bytes.Length)
            : Enumerable.Range(0, 300).Select(_ => seeded.Next(whole.Bytes.Length));
        foreach (var at in places)
        {
            var changed = whole.Bytes.ToArray();
            changed[at] ^= (byte)seeded.Next(1, 256);
            await Refused(changed, $"changed at {at}");
        }
    }

    [Fact]
    public async Task Cut_off_anywhere_or_with_something_after_it_it_is_refused()
    {
        var seeded = new Random(20261127);
        int[] lengths = [0, 1, 63, 64, 65, whole.At("table"), whole.At("picture"), whole.At("directory"), whole.At("seal"), whole.Bytes.Length - 1, .. Enumerable.Range(0, 100).Select(_ => seeded.Next(whole.Bytes.Length))];
        foreach (var length in lengths) await Refused(whole.Bytes[..length], $"cut off at {length}");
        await Refused([.. whole.Bytes, 0], "one byte more");
        await Refused([.. whole.Bytes, .. whole.Bytes], "twice");
    }

    [Theory]
    [InlineData("table")]
    [InlineData("picture")]
    [InlineData("seal")]
    [InlineData("cut off")]
    public async Task The_verb_says_so_plainly_and_makes_nothing(string part)
    {
        using var folder = new TemporaryFolder();
        var damaged = Path.Combine(folder.Path, "damaged.heirloom");
        var bytes = whole.Bytes.ToArray();
        if (part == "cut off") bytes = bytes[..(bytes.Length / 2)];
        else bytes[whole.At(part) + 10] ^= 1;
        await File.WriteAllBytesAsync(damaged, bytes, Cancel);
        var target = Path.Combine(folder.Path, "target");
        var (code, said) = await Kept.Verb("restore", damaged, target);
        Assert.Equal(1, code);
        Assert.Contains("is not a whole backup of an archive", said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
        Assert.False(Directory.Exists(target));
    }

    [Fact]
    public async Task One_that_was_written_wrongly_is_refused_in_the_middle_and_the_folder_emptied()
    {
        using var folder = new TemporaryFolder();
        var wrong = Path.Combine(folder.Path, "wrong.heirloom");
        await SealAgain(whole.File, wrong, entry => entry.StartsWith("tables/archive_events.mt_events", StringComparison.Ordinal) ? [] : null);
        var target = Directory.CreateDirectory(Path.Combine(folder.Path, "target")).FullName;
        var (code, said) = await Kept.Verb("restore", wrong, target);
        Assert.Equal(1, code);
        Assert.Contains("\"mt_events\" are damaged", said, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(target));
    }

    [Fact]
    public async Task A_folder_with_anything_in_it_is_left_as_it_is()
    {
        using var folder = new TemporaryFolder();
        var target = Directory.CreateDirectory(Path.Combine(folder.Path, "target")).FullName;
        await File.WriteAllTextAsync(Path.Combine(target, "letter.txt"), "hers", Cancel);
        var (code, said) = await Kept.Verb("restore", whole.File, target);
        Assert.Equal(1, code);
        Assert.Contains($"There is something in {target} already", said, StringComparison.Ordinal);
        Assert.Equal(["letter.txt"], Directory.EnumerateFileSystemEntries(target).Select(f => Path.GetFileName(f)));
    }

    [Fact]
    public async Task A_restore_that_was_killed_leaves_no_archive_to_open_and_is_done_again()
    {
        using var folder = new TemporaryFolder();
        var target = Path.Combine(folder.Path, "target");
        var mark = Path.Combine(target, "run", "restoring");
        await using (var restore = RunningArchive.Start(target, ["restore", whole.File, "--Archive:Folder=" + target]))
        {
            for (var tries = 0; !File.Exists(mark); tries++)
            {
                Assert.True(tries < 60_000, restore.Said);
                await Task.Delay(1, Cancel);
            }
            RunningArchive.Signal("KILL", restore.Id);
            await restore.Code(Kept.Soon);
        }
        Assert.True(File.Exists(mark), "It was done before it was killed.");
        await using (var start = RunningArchive.Start(target))
        {
            Assert.Equal(1, await start.Code(Kept.Soon));
            Assert.Contains("was cut off, so no whole archive is there", start.Said, StringComparison.Ordinal);
        }
        await Kept.Do("restore", whole.File, target);
        await using var archive = await RunningArchive.Start(target).Ready();
        Assert.Equal(["2"], await Kept.Ask(archive, "SELECT count(*) FROM archive_events.mt_events"));
    }

    private async Task Refused(byte[] bytes, string how)
    {
        var file = Path.Combine(whole.Folder, Guid.NewGuid().ToString("N"));
        await File.WriteAllBytesAsync(file, bytes, Cancel);
        try
        {
            await Seal.Check(file, Silent, Cancel);
            Assert.Fail("Taken: " + how);
        }
        catch (StartException e)
        {
            Assert.Contains("is not a whole backup of an archive", e.Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    // The same file with entries of another content, and a seal that is right.
    private static async Task SealAgain(string from, string to, Func<string, byte[]?> other)
    {
        await using var stream = new FileStream(to, FileMode.CreateNew, FileAccess.ReadWrite);
        using var seal = new Seal(stream);
        using (var old = ZipFile.OpenRead(from))
        using (var zip = new ZipArchive(seal, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.Comment = Seal.Blank;
            foreach (var entry in old.Entries)
            {
                await using var written = await zip.CreateEntry(entry.FullName).OpenAsync(Cancel);
                await using var read = await entry.OpenAsync(Cancel);
                if (other(entry.FullName) is { } bytes) await written.WriteAsync(bytes, Cancel);
                else await read.CopyToAsync(written, Cancel);
            }
        }
        seal.Close(stream);
    }

    /// <summary>A whole backup of one piece with a picture.</summary>
    public sealed class Whole(PostgresServer postgres) : IAsyncLifetime
    {
        private static readonly byte[] Picture = Made.Png(200, 150);
        private readonly TemporaryFolder folder = new();

        public string Folder => folder.Path;

        public string File => Path.Combine(folder.Path, "whole.heirloom");

        public byte[] Bytes { get; private set; } = [];

        public async ValueTask InitializeAsync()
        {
            await using var host = await ArchiveHost.Start(postgres);
            var piece = await Kept.Enter(host.Client, new { number = "D-1", name = "Lawn slip" });
            await Kept.Upload(host.Client, piece["id"]!.ToString(), Picture);
            await Kept.Do("backup", File, host.Folder, host.ConnectionString);
            Bytes = await System.IO.File.ReadAllBytesAsync(File);
        }

        /// <summary>Where a part of the file begins.</summary>
        public int At(string part) => part switch
        {
            "start" or "anywhere" => 0,
            "table" => Bytes.AsSpan().IndexOf("tables/archive_events.mt_events"u8),
            "picture" => Bytes.AsSpan().IndexOf(Picture),
            "directory" => Bytes.AsSpan().IndexOf("PK\x01\x02"u8),
            "seal" => Bytes.Length - 64,
            _ => throw new ArgumentException(part),
        };

        public ValueTask DisposeAsync()
        {
            folder.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
