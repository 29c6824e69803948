using System.Diagnostics;
using HeirloomArchive.Support;
using HeirloomArchive.Web.Hosting.Backups;

namespace HeirloomArchive.Web.Tests.Backups;

/// <summary>A backup has its name when it is whole, and not before, whatever happens on the way.</summary>
[Collection("Processes")]
public sealed class BackupCutOffTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private string From => Path.Combine(folder.Path, "from");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("KILL", true)]
    [InlineData("KILL", false)]
    [InlineData("INT", true)]
    [InlineData("INT", false)]
    public async Task Ended_in_the_middle_it_leaves_no_file_of_that_name(string signal, bool whileItRuns)
    {
        Assert.SkipWhen(signal != "KILL" && RunningArchive.IsIgnored(signal), $"This run ignores SIG{signal} (nohup, or a shell's background), and so does all that it starts.");
        var archive = await RunningArchive.Start(From).Ready();
        for (var i = 0; i < 3; i++) await Noise(archive, i);
        if (!whileItRuns) await archive.DisposeAsync();
        var hit = 0;
        for (var tries = 0; tries < 10 && hit == 0; tries++)
        {
            var file = Path.Combine(folder.Path, $"kept{tries}.heirloom");
            await using var backup = RunningArchive.Start(From, ["backup", file, "--Archive:Folder=" + From]);
            for (var clock = Stopwatch.StartNew(); !File.Exists(file + ".part") && !File.Exists(file) && clock.Elapsed < Kept.Soon;) await Task.Delay(1, Cancel);
            RunningArchive.Signal(signal, backup.Id);
            var code = await backup.Code(Kept.Soon);
            if (File.Exists(file))
            {
                // It was quicker than the signal: then it is whole.
                await Seal.Check(file, new Progress<string>(), Cancel);
                continue;
            }
            hit++;
            Assert.NotEqual(0, code);
            if (signal == "INT") Assert.False(File.Exists(file + ".part"), backup.Said);
            // Once more into the same name, over what is left.
            await Kept.Do("backup", file, From);
            await Seal.Check(file, new Progress<string>(), Cancel);
            Assert.False(File.Exists(file + ".part"));
        }
        Assert.True(hit > 0, "Ten backups were done before they could be ended.");
        if (whileItRuns)
        {
            await Kept.Enter(archive.Client, new { number = "C-9", name = "Still written to" });
            await archive.DisposeAsync();
        }
    }

    [Fact]
    public async Task A_file_that_is_there_is_not_written_over()
    {
        await using var archive = await RunningArchive.Start(From).Ready();
        var file = Path.Combine(folder.Path, "hers.txt");
        await File.WriteAllTextAsync(file, "a letter", Cancel);
        var (code, said) = await Kept.Verb("backup", file, From);
        Assert.Equal(1, code);
        Assert.Contains("is there already, and a backup is never written over anything", said, StringComparison.Ordinal);
        Assert.Equal("a letter", await File.ReadAllTextAsync(file, Cancel));
    }

    [Fact]
    public async Task A_folder_that_is_not_there_is_said_plainly()
    {
        await using var archive = await RunningArchive.Start(From).Ready();
        var (code, said) = await Kept.Verb("backup", Path.Combine(folder.Path, "nowhere", "kept.heirloom"), From);
        Assert.Equal(1, code);
        Assert.Contains("The backup could not be made", said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_full_disk_is_said_in_plain_words_and_nothing_is_left_there()
    {
        var small = Directory.CreateDirectory(Path.Combine(folder.Path, "small")).FullName;
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && Run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", small), "A small disk can be mounted on Linux by root alone, and not in every container.");
        try
        {
            await using var archive = await RunningArchive.Start(From).Ready();
            await Noise(archive, 0);
            var file = Path.Combine(small, "kept.heirloom");
            var (code, said) = await Kept.Verb("backup", file, From);
            Assert.Equal(1, code);
            Assert.Contains("there is no room left on that disk", said, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
            Assert.Empty(Directory.EnumerateFileSystemEntries(small));
            await Kept.Enter(archive.Client, new { number = "C-9", name = "Still written to" });
        }
        finally
        {
            Run("umount", small);
        }
    }

    // A piece with some megabytes that cannot be pressed.
    private static async Task Noise(RunningArchive archive, int seed)
    {
        var piece = await Kept.Enter(archive.Client, new { number = "C-" + seed, name = "Lawn slip" });
        var random = new Random(seed);
        await Kept.Upload(archive.Client, piece["id"]!.ToString(), PngParts.Stored(1200, 1000, 2, 8, false, (_, _, _) => (byte)random.Next(256)));
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
