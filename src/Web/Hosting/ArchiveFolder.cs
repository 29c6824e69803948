namespace HeirloomArchive.Web.Hosting;

/// <summary>The archive's folder, held for one running program by a lock of the operating system, which goes with the process however it ends.</summary>
public sealed class ArchiveFolder : IDisposable
{
    private const UnixFileMode OwnerAll = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
    private const UnixFileMode OthersPass = UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;
    private readonly FileStream held;

    private ArchiveFolder(FileStream held) => this.held = held;

    /// <param name="path">Made when it is not there.</param>
    /// <param name="demo">Whether the demo archive is to be kept in it.</param>
    /// <exception cref="StartException">It cannot be used, another program holds it, or it is her own archive and the demo was asked for.</exception>
    public static ArchiveFolder Open(string path, bool demo)
    {
        try
        {
            // Started by root, PostgreSQL is another user, who has to pass through.
            Make(path, Environment.IsPrivilegedProcess ? OwnerAll | OthersPass : OwnerAll);
            foreach (var part in new[] { "pictures", "index", "run" }) Make(Path.Combine(path, part), OwnerAll);
            var held = Hold(path);
            var mark = Path.Combine(path, "run", "demo");
            if (demo && !Directory.Exists(Path.Combine(path, "pg18"))) File.WriteAllText(mark, "This folder holds the demo archive.\n");
            if (!demo || File.Exists(mark)) return new(held);
            held.Dispose();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StartException($"The archive's folder {path} cannot be used: {e.Message} Choose another with --Archive:Folder=PATH.");
        }
        throw new StartException($"{path} holds an archive that is not the demo's, and demo pieces would be mixed into it. Leave out --demo, or name another folder.");
    }

    public void Dispose() => held.Dispose();

    private static FileStream Hold(string path)
    {
        const int WouldBlock = 11, WouldBlockOnMac = 35, SharingViolation = unchecked((int)0x80070020);
        try
        {
            return new FileStream(Path.Combine(path, "run", "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e) when (e.HResult is WouldBlock or WouldBlockOnMac or SharingViolation)
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
