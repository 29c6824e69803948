using System.Security.Cryptography;

namespace HeirloomArchive.Pictures.Tests;

public sealed class PictureStoreTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pictures-");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task An_original_is_kept_byte_for_byte_under_its_digest()
    {
        var store = Open();
        var bytes = RandomNumberGenerator.GetBytes(200_001);
        using var file = await store.Receive(new MemoryStream(bytes), Cancel);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes)), file.Sha256);
        Assert.Null(store.OpenOriginal(file.Sha256));
        Assert.Equal(OriginalKept.New, await store.KeepOriginal(file));
        await using var kept = store.OpenOriginal(file.Sha256);
        Assert.Equal(bytes, All(kept!));
        Assert.EndsWith(Path.Combine(file.Sha256[..2], file.Sha256), kept!.Name, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_file_twice_is_one_original()
    {
        var store = Open();
        using var first = await store.Receive(new MemoryStream([1, 2, 3]), Cancel);
        using var second = await store.Receive(new MemoryStream([1, 2, 3]), Cancel);
        Assert.Equal(OriginalKept.New, await store.KeepOriginal(first));
        Assert.Equal(OriginalKept.There, await store.KeepOriginal(second));
        second.Dispose();
        Assert.Single(Files());
    }

    [Fact]
    public async Task A_file_over_the_limit_is_read_to_its_end_and_none_of_it_kept()
    {
        var store = new PictureStore(folder.FullName, new PictureLimits { FileBytes = 100_000 });
        var content = new MemoryStream(new byte[300_000]);
        using var file = await store.Receive(content, Cancel);
        Assert.True(file.TooLarge);
        Assert.Equal(300_000, content.Position);
        Assert.Equal(0, Files().Single().Length);
        file.Dispose();
        Assert.Empty(Files());
    }

    [Fact]
    public async Task A_file_of_just_the_limit_is_not_too_large()
    {
        var store = new PictureStore(folder.FullName, new PictureLimits { FileBytes = 100_000 });
        using var file = await store.Receive(new MemoryStream(new byte[100_000]), Cancel);
        Assert.False(file.TooLarge);
    }

    [Fact]
    public async Task An_upload_that_breaks_off_leaves_nothing()
    {
        var store = Open();
        await Assert.ThrowsAsync<IOException>(() => store.Receive(new Breaking(), Cancel));
        Assert.Empty(Files());
    }

    [Fact]
    public async Task What_a_program_that_ended_left_behind_is_cleared_at_the_start_and_what_another_is_at_stays()
    {
        var (first, second) = (Open(), Open());
        using var left = await first.Receive(new MemoryStream([1]), Cancel);
        using var living = await second.Receive(new MemoryStream([2]), Cancel);
        File.WriteAllBytes(Path.Combine(folder.FullName, "incoming", "of-an-earlier-release"), [3]);
        // A killed program's lock is let go and nothing else happens: the same from within.
        var copy = Path.Combine(folder.FullName, "incoming", "killed");
        Directory.CreateDirectory(copy);
        File.Copy(left.Path, Path.Combine(copy, "half"));
        File.WriteAllBytes(copy + ".lock", []);
        using var third = Open();
        Assert.Equal(new[] { left.Path, living.Path }.Order(), Files().Select(f => f.FullName).Order());
    }

    [Fact]
    public async Task Bytes_of_a_backup_that_are_not_those_of_their_name_are_refused_and_none_kept()
    {
        using var store = Open();
        var sha256 = Convert.ToHexStringLower(SHA256.HashData([1, 2, 3]));
        await Assert.ThrowsAsync<InvalidDataException>(() => store.PutBack(sha256, new MemoryStream([1, 2, 4]), Cancel));
        Assert.Empty(Files());
        await store.PutBack(sha256, new MemoryStream([1, 2, 3]), Cancel);
        Assert.Equal(sha256, Assert.Single(Files()).Name);
    }

    [Fact]
    public void Recipes_gone_by_are_removed_by_whoever_comes_and_two_at_once_do_no_harm()
    {
        using var store = Open();
        for (var i = 0; i < 200; i++)
        {
            File.WriteAllBytes(Path.Combine(folder.CreateSubdirectory($"made.1/{i:x2}").FullName, "old"), [1]);
        }

        Parallel.For(0, 8, new ParallelOptions { MaxDegreeOfParallelism = 8 }, _ => store.DropOldRecipes());
        store.DropOldRecipes();
        Assert.False(Directory.Exists(Path.Combine(folder.FullName, "made.1")));
    }

    [Theory]
    [InlineData("../../../../etc/passwd")]
    [InlineData("ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789")]
    public void Only_a_digest_is_a_name(string name) =>
        Assert.Throws<ArgumentException>(() => Open().OpenOriginal(name));

    private PictureStore Open() => new(folder.FullName, new PictureLimits());

    private IEnumerable<FileInfo> Files() => folder.EnumerateFiles("*", SearchOption.AllDirectories).Where(f => f.Extension != ".lock");

    private static byte[] All(Stream stream)
    {
        using var to = new MemoryStream();
        stream.CopyTo(to);
        return to.ToArray();
    }
}

/// <summary>Ten bytes, and then the line breaks.</summary>
internal sealed class Breaking : MemoryStream
{
    private bool given;

    public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        if (given)
        {
            throw new IOException("The line broke.");
        }

        given = true;
        return ValueTask.FromResult(10);
    }
}
