using System.Security.Cryptography;

namespace HeirloomArchive.Pictures;

/// <summary>The smaller pictures made from an original.</summary>
public enum Derivative
{
    /// <summary>For the page: the longest side at most 1600 pixels.</summary>
    Screen,

    /// <summary>For lists: the longest side at most 320 pixels.</summary>
    Thumbnail,
}

/// <summary>
/// Files on disk, each named by its original's SHA-256: <c>originals/ab/abcd…</c>, and beside them what can be made
/// again, <c>screen.1/ab/abcd…</c> and <c>thumbnail.1/ab/abcd…</c> (the number is the recipe's). Nothing here is ever overwritten.
/// </summary>
public sealed class PictureStore
{
    /// <summary>Counts up when derivatives are made in another way; older ones are then made again when asked for.</summary>
    public const int Recipe = 1;

    private readonly string folder;
    private readonly string incoming;
    private readonly PictureLimits limits;

    /// <summary>Opens the folder, making it when it is not there, and clears what uploads of long ago left behind.</summary>
    public PictureStore(string folder, PictureLimits limits)
    {
        this.folder = Path.GetFullPath(folder);
        this.limits = limits;
        incoming = Path.Combine(this.folder, "incoming");
        Directory.CreateDirectory(incoming);
        foreach (var left in new DirectoryInfo(incoming).EnumerateFiles().Where(f => f.LastWriteTimeUtc < DateTime.UtcNow.AddDays(-1)))
        {
            left.Delete();
        }
    }

    /// <summary>The folder of all pictures, whole path.</summary>
    internal string Folder => folder;

    /// <summary>
    /// Streams a file to disk and flushes it, digesting on the way. One that is too large is read to its end all the
    /// same, so that the sender gets to hear the answer.
    /// </summary>
    public async Task<IncomingFile> Receive(Stream content, CancellationToken cancel)
    {
        var path = NewPath();
        try
        {
            using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using var file = Create(path);
            var buffer = new byte[64 * 1024];
            long length = 0;
            for (int read; (read = await content.ReadAsync(buffer, cancel)) > 0;)
            {
                length += read;
                if (length <= limits.FileBytes)
                {
                    digest.AppendData(buffer, 0, read);
                    await file.WriteAsync(buffer.AsMemory(0, read), cancel);
                }
                else
                {
                    file.SetLength(0);
                }
            }

            file.Flush(flushToDisk: true);
            return new IncomingFile(path, Convert.ToHexStringLower(digest.GetHashAndReset()), length > limits.FileBytes);
        }
        catch
        {
            File.Delete(path);
            throw;
        }
    }

    /// <summary>Puts an original of a backup back under its digest, lastingly; one that is there stays.</summary>
    /// <exception cref="InvalidDataException">The bytes are not those of the digest; nothing is kept.</exception>
    public async Task PutBack(string sha256, Stream content, CancellationToken cancel)
    {
        var file = await Receive(content, cancel);
        if (file.Sha256 == sha256)
        {
            KeepOriginal(file);
        }

        File.Delete(file.Path);
        if (file.Sha256 != sha256)
        {
            throw new InvalidDataException($"The picture {sha256} is damaged.");
        }
    }

    /// <summary>The original, to be read and sought in; null when there is none.</summary>
    public FileStream? OpenOriginal(string sha256) => Open(OriginalPath(sha256));

    /// <summary>A derivative as it was made; null when there is none yet.</summary>
    public FileStream? OpenDerivative(Derivative derivative, string sha256) => Open(DerivativePath(derivative, sha256));

    /// <summary>Makes a file received an original, lastingly.</summary>
    /// <returns>True when the archive did not have it yet.</returns>
    internal bool KeepOriginal(IncomingFile file) => Durable.Move(file.Path, OriginalPath(file.Sha256));

    /// <summary>Takes back an original that no record came to name.</summary>
    internal void DropOriginal(string sha256)
    {
        File.Delete(OriginalPath(sha256));
        foreach (var derivative in Enum.GetValues<Derivative>())
        {
            File.Delete(DerivativePath(derivative, sha256));
        }
    }

    /// <summary>Keeps a derivative; one that stands under the name already stays.</summary>
    internal void KeepDerivative(Derivative derivative, string sha256, ReadOnlySpan<byte> bytes)
    {
        var path = NewPath();
        try
        {
            using (var file = Create(path))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }

            Durable.Move(path, DerivativePath(derivative, sha256));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private string NewPath() => Path.Combine(incoming, Guid.CreateVersion7().ToString("N"));

    private string OriginalPath(string sha256) => Place("originals", sha256);

    private string DerivativePath(Derivative derivative, string sha256) =>
        Place(derivative == Derivative.Screen ? $"screen.{Recipe}" : $"thumbnail.{Recipe}", sha256);

    private string Place(string kind, string sha256) =>
        sha256.Length == 64 && sha256.All(char.IsAsciiHexDigitLower)
            ? Path.Combine(folder, kind, sha256[..2], sha256)
            : throw new ArgumentException($"'{sha256}' is not a SHA-256 in lower-case hexadecimal digits.", nameof(sha256));

    private static FileStream? Open(string path)
    {
        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 64 * 1024, FileOptions.Asynchronous);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
    }

    private static FileStream Create(string path)
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Options = FileOptions.Asynchronous,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        }

        return new FileStream(path, options);
    }
}
