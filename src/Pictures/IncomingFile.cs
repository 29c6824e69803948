namespace HeirloomArchive.Pictures;

/// <summary>A file received and flushed, not yet part of the archive. Disposing it removes it unless it was kept.</summary>
public sealed class IncomingFile : IDisposable
{
    internal IncomingFile(string path, string sha256, bool tooLarge)
    {
        Path = path;
        Sha256 = sha256;
        TooLarge = tooLarge;
    }

    /// <summary>SHA-256 of its bytes, 64 lower-case hexadecimal digits.</summary>
    public string Sha256 { get; }

    /// <summary>More bytes came than a file may have; what came was thrown away.</summary>
    public bool TooLarge { get; }

    /// <summary>What it shows, a word of <c>views</c>; null when that was not told.</summary>
    public string? View { get; set; }

    internal string Path { get; }

    /// <inheritdoc/>
    public void Dispose() => File.Delete(Path);
}
