namespace HeirloomArchive.Support;

/// <summary>A new folder that goes when disposed. Others may pass through it: started by root, PostgreSQL is another user.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public TemporaryFolder()
    {
        Path = Directory.CreateTempSubdirectory("heirloom-").FullName;
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(Path, File.GetUnixFileMode(Path) | UnixFileMode.OtherExecute);
    }

    public string Path { get; }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
