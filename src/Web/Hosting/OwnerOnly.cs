namespace HeirloomArchive.Web.Hosting;

/// <summary>Files that nobody but their owner may read (0600).</summary>
internal static class OwnerOnly
{
    public static void Write(string path, string text)
    {
        File.Delete(path);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var file = new FileStream(path, options);
        file.Write(System.Text.Encoding.UTF8.GetBytes(text));
        file.Flush(flushToDisk: true);
    }
}
