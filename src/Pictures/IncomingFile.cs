using System.Text.Json.Nodes;

namespace HeirloomArchive.Pictures;

/// <summary>A file received and flushed, not yet part of the archive. Disposing it removes it unless it was kept, or waits for another try.</summary>
public sealed class IncomingFile : IDisposable
{
    private readonly bool stays;

    internal IncomingFile(string path, string sha256, bool tooLarge, bool stays = false)
    {
        Path = path;
        Sha256 = sha256;
        TooLarge = tooLarge;
        this.stays = stays;
    }

    /// <summary>SHA-256 of its bytes, 64 lower-case hexadecimal digits.</summary>
    public string Sha256 { get; }

    /// <summary>More bytes came than a file may have; what came was thrown away.</summary>
    public bool TooLarge { get; }

    /// <summary>What it shows, a word of <c>views</c> or her own; null when that was not told.</summary>
    public JsonNode? View { get; set; }

    /// <summary>What is said of it; null for what is said of the whole upload.</summary>
    public string? Caption { get; set; }

    internal string Path { get; }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!stays)
        {
            File.Delete(Path);
        }
    }
}
