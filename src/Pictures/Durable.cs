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
        MakeFolder(folder);
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
        using (var file = Open(beside, FileMode.CreateNew))
        {
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite: true);
        FlushFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Opens a file to be written; one that is made has an original's rights: its owner writes it, the group reads it, nobody else does.</summary>
    internal static FileStream Open(string path, FileMode mode, int bufferSize = 4096)
    {
        var options = new FileStreamOptions { Mode = mode, Access = FileAccess.Write, Share = FileShare.None, BufferSize = bufferSize, Options = FileOptions.Asynchronous };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        }

        return new FileStream(path, options);
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

    // Of a folder in a new folder the upper one's name must last too.
    private static void MakeFolder(string folder)
    {
        if (Directory.Exists(folder))
        {
            return;
        }

        var above = Path.GetDirectoryName(folder)!;
        MakeFolder(above);
        Directory.CreateDirectory(folder);
        FlushFolder(above);
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
