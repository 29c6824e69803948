namespace HeirloomArchive.Web.Hosting;

/// <summary>The archive's folder, held for one running program by a lock of the operating system, which goes with the process however it ends.</summary>
public sealed class ArchiveFolder : IDisposable
{
    private const UnixFileMode OwnerAll = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
    private const UnixFileMode OthersPass = UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;
    private readonly string path;
    private readonly FileStream held;

    private ArchiveFolder(string path, FileStream held) => (this.path, this.held) = (path, held);

    /// <param name="path">Made when it is not there.</param>
    /// <param name="demo">Whether the demo archive is to be kept in it.</param>
    /// <exception cref="StartException">It cannot be used, another program holds it, it is half restored, or it is her own archive and the demo was asked for.</exception>
    public static ArchiveFolder Open(string path, bool demo)
    {
        var folder = Open(path);
        try
        {
            if (IsHalfRestored(path)) throw new StartException($"A restore into {path} was cut off, so no whole archive is there. Do it again (restore FILE), or name another folder with --Archive:Folder=PATH.");
            var mark = Path.Combine(path, "run", "demo");
            if (demo && !Directory.EnumerateDirectories(path, "pg*").Any()) File.WriteAllText(mark, "This folder holds the demo archive.\n");
            if (demo && !File.Exists(mark)) throw new StartException($"{path} holds an archive that is not the demo's, and demo pieces would be mixed into it. Leave out --demo, or name another folder.");
            return folder;
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    /// <summary>Opens a folder that is to be restored into, and marks it until <see cref="MarkRestored"/>.</summary>
    /// <exception cref="StartException">It cannot be used, or another program holds it.</exception>
    public static ArchiveFolder OpenToRestore(string path)
    {
        var folder = Open(path);
        File.WriteAllText(HalfRestored(path), "A backup is being restored into this folder.\n");
        return folder;
    }

    /// <summary>Whether a restore into it was begun and is not done.</summary>
    public static bool IsHalfRestored(string path) => File.Exists(HalfRestored(path));

    public void MarkRestored() => File.Delete(HalfRestored(path));

    /// <summary>Whether a file could not be opened because another program holds it.</summary>
    public static bool IsHeld(IOException e)
    {
        const int WouldBlock = 11, WouldBlockOnMac = 35, SharingViolation = unchecked((int)0x80070020);
        return e.HResult is WouldBlock or WouldBlockOnMac or SharingViolation;
    }

    private static ArchiveFolder Open(string path)
    {
        try
        {
            // Started by root, PostgreSQL is another user, who has to pass through.
            Make(path, Environment.IsPrivilegedProcess ? OwnerAll | OthersPass : OwnerAll);
            foreach (var part in new[] { "pictures", "index", "run", "keys" }) Make(Path.Combine(path, part), OwnerAll);
            // Whoever reads them can forge a form: however the folder came to be.
            if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(KeyRing.Folder(path), OwnerAll);
            return new(path, Hold(path));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StartException($"The archive's folder {path} cannot be used: {e.Message} Choose another with --Archive:Folder=PATH.");
        }
    }

    private static string HalfRestored(string path) => Path.Combine(path, "run", "restoring");

    public void Dispose() => held.Dispose();

    private static FileStream Hold(string path)
    {
        try
        {
            return new FileStream(Path.Combine(path, "run", "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e) when (IsHeld(e))
        {
            throw new StartException($"The archive in {path} is already open in another running program. Use that one, or end it first.");
        }
    }

    // Each folder on the way that is made here gets the mode; those that are there keep theirs.
    private static void Make(string path, UnixFileMode mode)
    {
        if (Directory.Exists(path)) return;
        if (Path.GetDirectoryName(path) is { } parent) Make(parent, mode);
        Directory.CreateDirectory(path);
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(path, mode);
    }
}
