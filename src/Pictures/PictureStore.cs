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

/// <summary>What became of a file that was to be an original.</summary>
internal enum OriginalKept
{
    /// <summary>The archive did not have it yet, or no longer.</summary>
    New,

    /// <summary>The archive has it.</summary>
    There,

    /// <summary>What the archive had under its digest had other bytes, and is replaced.</summary>
    Mended,
}

/// <summary>
/// Files on disk, each named by its original's SHA-256: <c>originals/ab/abcd…</c>, and beside them what can be made
/// again, <c>made.3/ab/abcd….screen.jpeg</c> and its like (the number is the recipe's). Nothing here is ever overwritten, but an
/// original whose bytes are no longer those of its name by those that are.
/// </summary>
public sealed class PictureStore : IDisposable
{
    /// <summary>Counts up when derivatives are made in another way; older ones are then made again.</summary>
    public const int Recipe = 3;

    private readonly string folder;
    private readonly Incoming incoming;
    private readonly PictureLimits limits;

    /// <summary>Opens the folder, making it when it is not there, and clears what a program that ended suddenly left half done.</summary>
    public PictureStore(string folder, PictureLimits limits)
    {
        this.folder = Path.GetFullPath(folder);
        this.limits = limits;
        incoming = new Incoming(Path.Combine(this.folder, "incoming"));
    }

    /// <summary>The folder of all pictures, whole path.</summary>
    internal string Folder => folder;

    /// <summary>
    /// Streams a file to disk and flushes it, digesting on the way. One that is too large is read to its end all the
    /// same, so that the sender gets to hear the answer.
    /// </summary>
    public async Task<IncomingFile> Receive(Stream content, CancellationToken cancel)
    {
        using var received = NewFile();
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new byte[64 * 1024];
        long length = 0;
        for (int read; (read = await content.ReadAsync(buffer, cancel)) > 0;)
        {
            length += read;
            if (length <= limits.FileBytes)
            {
                digest.AppendData(buffer, 0, read);
                await received.Content.WriteAsync(buffer.AsMemory(0, read), cancel);
            }
            else
            {
                received.Content.SetLength(0);
            }
        }

        return new IncomingFile(received.Finish(), Convert.ToHexStringLower(digest.GetHashAndReset()), length > limits.FileBytes);
    }

    /// <summary>Puts an original of a backup back under its digest, lastingly; one that is there and whole stays.</summary>
    /// <exception cref="InvalidDataException">The bytes are not those of the digest; nothing is kept.</exception>
    public async Task PutBack(string sha256, Stream content, CancellationToken cancel)
    {
        using var file = await Receive(content, cancel);
        if (file.Sha256 != sha256)
        {
            throw new InvalidDataException($"The picture {sha256} is damaged.");
        }

        await KeepOriginal(file);
    }

    /// <summary>The original, to be read and sought in; null when there is none.</summary>
    public FileStream? OpenOriginal(string sha256) => Open(OriginalPath(sha256));

    /// <summary>The original as a file to be sent, and what it is by its first bytes; null when there is none.</summary>
    public (string Path, PictureFormat? Format)? FindOriginal(string sha256)
    {
        using var file = OpenOriginal(sha256);
        if (file is null)
        {
            return null;
        }

        Span<byte> head = stackalloc byte[PictureFormats.HeadLength];
        return (file.Name, PictureFormats.Of(head[..RandomAccess.Read(file.SafeFileHandle, head, 0)]));
    }

    /// <summary>Whether there is such an original.</summary>
    public bool HasOriginal(string sha256) => File.Exists(OriginalPath(sha256));

    /// <summary>The digests of all originals, in no order; other files that lie among them are none.</summary>
    public IEnumerable<string> Originals() => OriginalFiles().Select(f => Path.GetFileName(f)).Where(IsDigest);

    /// <summary>Every file among the originals, whatever it is, as its path in the folder of pictures.</summary>
    public IEnumerable<string> OriginalFiles()
    {
        var originals = Path.Combine(folder, "originals");
        return Directory.Exists(originals)
            ? Directory.EnumerateFiles(originals, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f))
            : [];
    }

    /// <summary>A derivative as it was made; null when there is none yet.</summary>
    public FileStream? OpenDerivative(Derivative derivative, PictureFormat format, string sha256) => Open(DerivativePath(derivative, format, sha256));

    /// <summary>The file of tiles; null when there is none yet.</summary>
    internal FileStream? OpenTiles(string sha256) => Open(TilesPath(sha256));

    /// <summary>Whether what an upload waits for has been made.</summary>
    internal bool HasFirst(string sha256) =>
        File.Exists(DerivativePath(Derivative.Screen, PictureFormat.Jpeg, sha256)) && File.Exists(DerivativePath(Derivative.Thumbnail, PictureFormat.Jpeg, sha256));

    /// <summary>Whether what is made later has been made: WebP and tiles.</summary>
    internal bool HasRest(string sha256) => File.Exists(TilesPath(sha256));

    /// <summary>
    /// Makes a file received an original, lastingly. One that is there already is read over: where its bytes are no longer those of
    /// its name, these take their place.
    /// </summary>
    internal async Task<OriginalKept> KeepOriginal(IncomingFile file)
    {
        var changed = HasOriginal(file.Sha256) && await Changed(file.Sha256);
        return Durable.Move(file.Path, OriginalPath(file.Sha256), replace: changed) ? OriginalKept.New : changed ? OriginalKept.Mended : OriginalKept.There;
    }

    private async Task<bool> Changed(string sha256)
    {
        try
        {
            await using var there = OpenOriginal(sha256);
            return there is null || Convert.ToHexStringLower(await SHA256.HashDataAsync(there)) != sha256;
        }
        catch (IOException)
        {
            return true; // A sector that can't be read any more.
        }
    }

    /// <summary>Takes back an original that no record came to name.</summary>
    internal void DropOriginal(string sha256)
    {
        File.Delete(OriginalPath(sha256));
        DropMade(sha256);
    }

    /// <summary>Takes back what was made of an original, if anything was.</summary>
    internal void DropMade(string sha256)
    {
        if (!Directory.Exists(Path.GetDirectoryName(TilesPath(sha256))))
        {
            return; // Nothing of any like it: to delete a file of no folder is an error.
        }

        File.Delete(TilesPath(sha256));
        foreach (var derivative in Enum.GetValues<Derivative>())
        {
            File.Delete(DerivativePath(derivative, PictureFormat.Jpeg, sha256));
            File.Delete(DerivativePath(derivative, PictureFormat.WebP, sha256));
        }
    }

    /// <summary>Keeps a derivative; one that stands under the name already stays.</summary>
    internal void KeepDerivative(Derivative derivative, PictureFormat format, string sha256, ReadOnlySpan<byte> bytes)
    {
        using var file = NewFile();
        file.Content.Write(bytes);
        Keep(file, DerivativePath(derivative, format, sha256));
    }

    /// <summary>Keeps a file of tiles; one that stands under the name already stays.</summary>
    internal void KeepTiles(string sha256, NewFile tiles) => Keep(tiles, TilesPath(sha256));

    /// <summary>A file to be written, which goes away with what comes back unless it is kept.</summary>
    internal NewFile NewFile() => new(incoming.NewPath());

    /// <summary>Removes derivatives of recipes gone by; what can't be removed now stays until the next start.</summary>
    internal void DropOldRecipes()
    {
        string[] old = ["made.*", "screen.*", "thumbnail.*"];
        foreach (var made in old.SelectMany(name => Directory.EnumerateDirectories(folder, name)).Where(d => Path.GetFileName(d) != Made))
        {
            try
            {
                Directory.Delete(made, recursive: true);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // Another node that shares the folder may be at it too.
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose() => incoming.Dispose();

    private static void Keep(NewFile file, string path)
    {
        var written = file.Finish();
        try
        {
            Durable.Move(written, path);
        }
        finally
        {
            File.Delete(written);
        }
    }

    private static string Made => $"made.{Recipe}";

    private string OriginalPath(string sha256) => Place("originals", sha256);

    private string TilesPath(string sha256) => Place(Made, sha256) + ".tiles";

    private string DerivativePath(Derivative derivative, PictureFormat format, string sha256) =>
        Place(Made, sha256) + (derivative, format) switch
        {
            (Derivative.Screen, PictureFormat.Jpeg) => ".screen.jpeg",
            (Derivative.Screen, _) => ".screen.webp",
            (_, PictureFormat.Jpeg) => ".thumbnail.jpeg",
            _ => ".thumbnail.webp",
        };

    private static bool IsDigest(string name) => name.Length == 64 && name.All(char.IsAsciiHexDigitLower);

    private string Place(string kind, string sha256) =>
        IsDigest(sha256)
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
}
