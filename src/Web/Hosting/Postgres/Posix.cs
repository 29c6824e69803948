using System.Runtime.InteropServices;

namespace HeirloomArchive.Web.Hosting.Postgres;

/// <summary>The few calls of the operating system that .NET does not offer.</summary>
internal static partial class Posix
{
    public const int Interrupt = 2, Quit = 3, Kill = 9;

    /// <summary>Sends a signal; false when there is no such process or it is somebody else's.</summary>
    public static bool Signal(int process, int signal) => SendSignal(process, signal) == 0;

    /// <summary>Whether a process of this id is there, ours or not, a zombie too: as PostgreSQL itself sees it.</summary>
    public static bool Exists(int process) => SendSignal(process, 0) == 0 || Marshal.GetLastPInvokeError() == 1;   // EPERM

    public static void Give(string path, Account owner)
    {
        if (ChangeOwner(path, owner.User, owner.Group) != 0)
            throw new StartException($"{path} could not be given to the user '{owner.Name}': {Marshal.GetLastPInvokeErrorMessage()}.");
    }

    /// <summary>The path without symbolic links, as the kernel names it.</summary>
    public static string RealPath(string path)
    {
        var found = ResolvePath(path, 0);
        if (found == 0) return Path.GetFullPath(path);
        try { return Marshal.PtrToStringUTF8(found)!; }
        finally { Free(found); }
    }

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int SendSignal(int process, int signal);

    [LibraryImport("libc", EntryPoint = "chown", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int ChangeOwner(string path, uint user, uint group);

    [LibraryImport("libc", EntryPoint = "realpath", StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint ResolvePath(string path, nint buffer);

    [LibraryImport("libc", EntryPoint = "free")]
    private static partial void Free(nint memory);
}
