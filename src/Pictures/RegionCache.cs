namespace HeirloomArchive.Pictures;

/// <summary>Regions that were composed, kept on disk up to a size; those unused for longest go first. All of it can be made again.</summary>
public sealed class RegionCache
{
    private readonly Lock tidying = new();
    private readonly DirectoryInfo folder;
    private readonly long most;
    private long held;

    /// <summary>Opens the folder, making it when it is not there.</summary>
    /// <param name="path">A folder of its own.</param>
    /// <param name="most">Bytes it may hold.</param>
    public RegionCache(string path, long most)
    {
        folder = Directory.CreateDirectory(path);
        this.most = most;
        Tidy();
    }

    /// <summary>What was kept under a name; null when it is not there.</summary>
    public FileStream? Open(string name)
    {
        var path = Path.Combine(folder.FullName, name);
        try
        {
            var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 64 * 1024, FileOptions.Asynchronous);
            File.SetLastWriteTimeUtc(path, DateTime.UtcNow); // The time of its last use: what tidying goes by.
            return file;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Throws away the regions of an original whose bytes were not its own.</summary>
    public void Drop(string sha256)
    {
        foreach (var file in Files($"{sha256}.*"))
        {
            file.Delete();
        }
    }

    /// <summary>Keeps a file; where it can't (no room, no right), it is made again next time.</summary>
    public void Keep(string name, ReadOnlySpan<byte> bytes)
    {
        var path = Path.Combine(folder.FullName, name);
        var half = $"{path}.{Guid.NewGuid():N}.half";
        try
        {
            using (var file = Durable.Open(half, FileMode.CreateNew))
            {
                file.Write(bytes);
            }

            File.Move(half, path, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            if (File.Exists(half))
            {
                File.Delete(half);
            }

            return;
        }

        if (Interlocked.Add(ref held, bytes.Length) > most)
        {
            Tidy();
        }
    }

    // Looked at one by one: a file may get its name, or go, while they are listed.
    private IEnumerable<FileInfo> Files(string pattern) => Directory.Exists(folder.FullName) ? folder.EnumerateFiles(pattern).Where(f => f.Exists) : [];

    /// <summary>Down to three quarters, so that it is not tidied with every file.</summary>
    private void Tidy()
    {
        lock (tidying)
        {
            var files = Files("*").OrderByDescending(f => f.LastWriteTimeUtc).ToList();
            var (room, kept) = (files.Sum(f => f.Length) > most ? most * 3 / 4 : most, 0L);
            foreach (var file in files)
            {
                if (kept + file.Length > room || (file.Extension == ".half" && file.LastWriteTimeUtc < DateTime.UtcNow.AddHours(-1)))
                {
                    file.Delete();
                }
                else
                {
                    kept += file.Length;
                }
            }

            Interlocked.Exchange(ref held, kept);
        }
    }
}
