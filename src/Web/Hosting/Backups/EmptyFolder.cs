namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// A folder that a backup is restored into: empty, or with nothing in it but what a restore left that was cut off. A mark stands in
/// it until all is there; if it never is, the folder is emptied again.
/// </summary>
internal sealed class EmptyFolder : IDisposable
{
    private readonly string path;
    private readonly ArchiveFolder held;
    private bool filled;

    private EmptyFolder(string path, bool left, ArchiveFolder held) => (this.path, Left, this.held) = (path, left, held);

    /// <summary>Whether a restore that was cut off has left something here.</summary>
    public bool Left { get; }

    /// <exception cref="StartException">There is something in it, or it cannot be used.</exception>
    public static EmptyFolder Open(string path)
    {
        var left = ArchiveFolder.IsHalfRestored(path);
        if (!left && (File.Exists(path) || Directory.Exists(path) && Directory.EnumerateFileSystemEntries(path).Any()))
            throw new StartException($"There is something in {path} already. Restore into an empty folder, or one that is not there yet: --Archive:Folder=PATH.");
        return new(path, left, ArchiveFolder.OpenToRestore(path));
    }

    /// <summary>The archive is whole: from now on it may be opened.</summary>
    public void Filled()
    {
        held.MarkRestored();
        filled = true;
    }

    public void Dispose()
    {
        if (!filled) Clear(keep: "run");
        held.Dispose();
        if (!filled) Clear(keep: null);
    }

    // The lock is held until all else is gone.
    private void Clear(string? keep)
    {
        try
        {
            foreach (var folder in Directory.EnumerateDirectories(path).Where(f => Path.GetFileName(f) != keep)) Directory.Delete(folder, recursive: true);
            if (keep is null) foreach (var file in Directory.EnumerateFiles(path)) File.Delete(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The mark may be left: then the next restore begins anew.
        }
    }
}
