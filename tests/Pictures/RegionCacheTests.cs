using HeirloomArchive.Support;

namespace HeirloomArchive.Pictures.Tests;

public sealed class RegionCacheTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    /// <summary>Two nodes share the folder, and each tidies it while the other keeps, again and again.</summary>
    [Fact]
    public void Files_that_come_and_go_while_it_is_tidied_do_no_harm()
    {
        RegionCache[] nodes = [new(folder.Path, 20_000), new(folder.Path, 20_000)];
        Parallel.For(0, 2_000, new ParallelOptions { MaxDegreeOfParallelism = 8 }, i => nodes[i % 2].Keep($"{i}.png", new byte[1_000]));
        nodes[0].Keep("last.png", new byte[1_000]);
        using var last = nodes[1].Open("last.png");
        Assert.NotNull(last);
    }

    [Fact]
    public void Only_whoever_may_read_an_original_reads_what_was_cut_out_of_it()
    {
        new RegionCache(folder.Path, 20_000).Keep("a.png", [1, 2, 3]);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(Path.Combine(folder.Path, "a.png")) & (UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute));
        }
    }

    [Fact]
    public void What_was_cut_out_of_an_original_that_was_mended_goes_and_no_other()
    {
        var cache = new RegionCache(folder.Path, 20_000);
        var (mended, other) = (new string('a', 64), new string('b', 64));
        cache.Keep($"{mended}.1.png", [1]);
        cache.Keep($"{mended}.2.png", [1]);
        cache.Keep($"{other}.1.png", [1]);
        cache.Drop(mended);
        Assert.Equal([$"{other}.1.png"], Directory.EnumerateFiles(folder.Path).Select(f => Path.GetFileName(f)));
    }

    [Fact]
    public void A_folder_that_was_taken_away_is_an_empty_one()
    {
        var cache = new RegionCache(Path.Combine(folder.Path, "regions"), 20_000);
        Directory.Delete(Path.Combine(folder.Path, "regions"));
        Assert.Null(cache.Open("a.png"));
        cache.Keep("a.png", [1]);
    }
}
