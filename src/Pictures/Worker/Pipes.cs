using System.Runtime.InteropServices;

namespace HeirloomArchive.Pictures;

/// <summary>A picture goes through a pipe: with the usual 64 KiB both sides wait for each other a hundred times.</summary>
internal static class Pipes
{
    /// <summary>Bytes of a pipe: what Linux lets everybody have.</summary>
    public const int Width = 1 << 20;

    private const int SetSize = 1031; // F_SETPIPE_SZ

    /// <summary>Widens this process's standard input and output where the system can; else they stay as they are.</summary>
    public static void Widen()
    {
        if (OperatingSystem.IsLinux())
        {
            _ = fcntl(0, SetSize, Width);
            _ = fcntl(1, SetSize, Width);
        }
    }

#pragma warning disable IDE1006, SYSLIB1054 // The system's own name.
    [DllImport("libc", SetLastError = true)]
    private static extern int fcntl(int descriptor, int command, nint value);
#pragma warning restore IDE1006, SYSLIB1054
}
