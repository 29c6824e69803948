namespace HeirloomArchive.Pictures;

/// <summary>
/// A folder for files that are still coming in, of this program alone: <c>incoming/{id}</c>, with <c>{id}.lock</c> beside
/// it held open as long as it runs. Whatever stands there without its lock held was left by one that ended suddenly, on this
/// machine or on another that shares the folder, and is cleared at the start of the next.
/// </summary>
internal sealed class Incoming : IDisposable
{
    private readonly string folder;
    private readonly FileStream held;

    public Incoming(string all)
    {
        Directory.CreateDirectory(all);
        folder = Path.Combine(all, Guid.CreateVersion7().ToString("N"));
        held = Hold(folder + ".lock", FileMode.CreateNew)!;
        Directory.CreateDirectory(folder);
        foreach (var left in Directory.EnumerateFileSystemEntries(all).Select(Owner).Distinct().Where(o => o != folder))
        {
            Clear(left);
        }
    }

    public string NewPath() => Path.Combine(folder, Guid.CreateVersion7().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        held.Dispose();
        File.Delete(held.Name);
    }

    private static string Owner(string entry) => Path.ChangeExtension(entry, null);

    private static void Clear(string left)
    {
        using var mine = Hold(left + ".lock", FileMode.OpenOrCreate);
        if (mine is null)
        {
            return;
        }

        if (Directory.Exists(left))
        {
            Directory.Delete(left, recursive: true);
        }
        else
        {
            File.Delete(left); // What an earlier release put here was a file.
        }

        File.Delete(mine.Name);
    }

    /// <summary>The lock, or null when another holds it.</summary>
    private static FileStream? Hold(string path, FileMode mode)
    {
        try
        {
            return new FileStream(path, mode, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException) when (mode == FileMode.OpenOrCreate)
        {
            return null;
        }
    }
}
