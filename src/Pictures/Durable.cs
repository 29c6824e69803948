using System.Runtime.InteropServices;

namespace HeirloomArchive.Pictures;

/// <summary>Moves files so that they are still there after a power cut: first the bytes, then the folder that names them.</summary>
public static class Durable
{
    /// <summary>Puts a file whose bytes are already flushed under its lasting name; one already there is the same and stays, unless it is to be replaced.</summary>
    /// <returns>True when the name is new.</returns>
    public static bool Move(string from, string to, bool replace = false)
    {
        var folder = Path.GetDirectoryName(to)!;
        if (!Directory.Exists(folder))
        {
            Directory.CreateDirectory(folder);
            FlushFolder(Path.GetDirectoryName(folder)!);
        }

        var isNew = !File.Exists(to);
        if (isNew || replace)
        {
            File.Move(from, to, overwrite: true);
        }

        FlushFolder(folder);
        return isNew;
    }

    /// <summary>Writes a whole file in the place of one that may be there: whoever looks sees the old one or the new one.</summary>
    public static void Replace(string path, ReadOnlySpan<byte> bytes)
    {
        var beside = $"{path}.{Guid.CreateVersion7():N}.new";
        using (var file = new FileStream(beside, FileMode.CreateNew, FileAccess.Write, FileShare.None))
        {
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite: true);
        FlushFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Flushes a folder's own entries; Windows keeps them in its journal and has no such call.</summary>
    public static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var descriptor = Native.open(folder, 0);
        if (descriptor < 0)
        {
            throw new IOException($"The folder {folder} can't be opened to flush it (error {Marshal.GetLastPInvokeError()}).");
        }

        try
        {
            if (Native.fsync(descriptor) != 0)
            {
                throw new IOException($"The folder {folder} can't be flushed (error {Marshal.GetLastPInvokeError()}).");
            }
        }
        finally
        {
            _ = Native.close(descriptor);
        }
    }

    private static class Native
    {
#pragma warning disable IDE1006, SYSLIB1054, CA2101 // The system's own names; .NET opens no folder as a file.
        [DllImport("libc", SetLastError = true)]
        public static extern int open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

        [DllImport("libc", SetLastError = true)]
        public static extern int fsync(int descriptor);

        [DllImport("libc", SetLastError = true)]
        public static extern int close(int descriptor);
#pragma warning restore IDE1006, SYSLIB1054, CA2101
    }
}
