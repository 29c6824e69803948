using System.Security.Cryptography;
using System.Text;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// The last 64 bytes of a backup: the SHA-256 of every byte before them, in lower-case hexadecimal. They are the comment of a ZIP
/// file, so other programs still read it. Written through without a second reading: the newest 64 bytes are kept back from the digest.
/// </summary>
internal sealed class Seal(Stream file) : Stream
{
    /// <summary>Stands where the digest comes to stand.</summary>
    public static readonly string Blank = new('0', Length64);

    private const int Length64 = 64;
    private readonly IncrementalHash digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly byte[] newest = new byte[Length64];
    private int held;

    /// <summary>Sets the digest in the place of <see cref="Blank"/>, once all is written; the file is sought in.</summary>
    public void Close(FileStream end)
    {
        end.Seek(-Length64, SeekOrigin.End);
        end.Write(Written(digest));
    }

    /// <summary>Reads the whole file and compares.</summary>
    /// <exception cref="StartException">It is not as it was written: cut off, changed, or something else.</exception>
    public static async Task Check(string path, IProgress<string> progress, CancellationToken cancel)
    {
        if (!File.Exists(path)) throw new StartException($"There is no file {path}.");
        await using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 256 * 1024, FileOptions.Asynchronous | FileOptions.SequentialScan);
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var pace = new Pace(progress);
        var buffer = new byte[256 * 1024];
        for (var left = Math.Max(file.Length - Length64, 0); left > 0;)
        {
            var read = await file.ReadAsync(buffer.AsMemory(0, (int)Math.Min(buffer.Length, left)), cancel);
            if (read == 0) break;
            digest.AppendData(buffer, 0, read);
            left -= read;
            pace.Say(() => $"Checking the backup: {Pace.Megabytes(file.Position)} of {Pace.Megabytes(file.Length)} MB");
        }
        var end = new byte[Length64];
        var whole = await file.ReadAtLeastAsync(end, Length64, throwOnEndOfStream: false, cancel) == Length64;
        if (!whole || !end.AsSpan().SequenceEqual(Written(digest)))
            throw new StartException($"{path} is not a whole backup of an archive: it is damaged, cut off, or something else. Nothing was restored.");
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        file.Write(buffer);
        Digest(buffer);
    }

    public override async ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
    {
        await file.WriteAsync(buffer, cancellationToken);
        Digest(buffer.Span);
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) => WriteAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override void Flush() => file.Flush();

    public override Task FlushAsync(CancellationToken cancellationToken) => file.FlushAsync(cancellationToken);

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        digest.Dispose();
        base.Dispose(disposing);
    }

    private void Digest(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length >= Length64)
        {
            digest.AppendData(newest.AsSpan(0, held));
            digest.AppendData(bytes[..^Length64]);
            bytes[^Length64..].CopyTo(newest);
            held = Length64;
            return;
        }
        var over = Math.Max(held + bytes.Length - Length64, 0);
        digest.AppendData(newest.AsSpan(0, over));
        newest.AsSpan(over, held - over).CopyTo(newest);
        held -= over;
        bytes.CopyTo(newest.AsSpan(held));
        held += bytes.Length;
    }

    private static byte[] Written(IncrementalHash digest) => Encoding.ASCII.GetBytes(Convert.ToHexStringLower(digest.GetHashAndReset()));
}
