using System.Security.Cryptography;
using System.Text.Json;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures;

/// <summary>
/// Uploads that come in parts and outlive a lost connection, a closed page and a killed host: <c>unfinished/{id}</c> holds the
/// bytes, its length is how far it is; <c>unfinished/{id}.json</c> what was said of it. A part is flushed before it is acknowledged.
/// </summary>
public sealed class PartedUploads
{
    private readonly string folder;
    private readonly PictureLimits limits;
    private readonly TimeProvider clock;
    private readonly Dictionary<Guid, Turn> turns = [];

    /// <summary>Opens the folder beside the originals, and throws away what expired.</summary>
    public PartedUploads(PictureStore store, PictureLimits limits, TimeProvider clock)
    {
        folder = Path.Combine(store.Folder, "unfinished");
        (this.limits, this.clock) = (limits, clock);
        Directory.CreateDirectory(folder);
        Sweep();
    }

    /// <summary>Begins one; nothing of it has come yet.</summary>
    /// <param name="said">Its id and all that is said of it.</param>
    /// <exception cref="RefusedException">It is larger than a file may be.</exception>
    /// <exception cref="TooManyUploadsException">Too many wait already.</exception>
    public PartedUpload Begin(PartedUpload said)
    {
        if (said.Length > limits.FileBytes)
        {
            throw new RefusedException([new("file[0]", RefusalKind.TooLarge, T($"The file is larger than {limits.FileBytes / 1_000_000} MB. Send it smaller."))]);
        }

        Sweep();
        if (Ids().Count() >= limits.Unfinished)
        {
            throw new TooManyUploadsException(limits.Unfinished);
        }

        Write(said);
        Touch(said.Id);
        return Find(said.Id)!;
    }

    /// <summary>One as it stands; null if there is none, it has expired, or another person began it.</summary>
    public PartedUpload? Find(Guid id, Guid by) => Find(id) is { } upload && upload.By == by ? upload : null;

    private PartedUpload? Find(Guid id)
    {
        try
        {
            var said = JsonSerializer.Deserialize<PartedUpload>(File.ReadAllBytes(SaidOf(id)))!;
            var expires = new DateTimeOffset(File.GetLastWriteTimeUtc(SaidOf(id))) + limits.UnfinishedTime;
            var bytes = new FileInfo(BytesOf(id));
            // No bytes are here before the first part, nor any more when a host was killed just as the file became an original:
            // then they are sent again.
            var offset = said.Picture is not null ? said.Length : bytes.Exists ? bytes.Length : 0;
            return expires <= clock.GetUtcNow() ? null : said with { Offset = offset, Expires = expires };
        }
        catch (Exception e) when (e is FileNotFoundException or JsonException)
        {
            return null;
        }
    }

    /// <summary>How far one is, once a part that still comes in on a dead connection is stopped.</summary>
    public async Task<PartedUpload?> Settle(Guid id, Guid by, CancellationToken cancel)
    {
        if (Find(id, by) is null)
        {
            return null; // Before it could stop the part of the one whose it is.
        }

        using var turn = await Take(id, cancel);
        return Find(id);
    }

    /// <summary>
    /// Takes the next part, as much of it as comes. Cut off on the way, what came stays, unless a checksum was sent for
    /// the whole of it. Once all bytes are there, <paramref name="whole"/> is done in the same turn.
    /// </summary>
    /// <param name="id">Which upload.</param>
    /// <param name="by">Who sends it.</param>
    /// <param name="offset">Where the part begins.</param>
    /// <param name="content">Its bytes.</param>
    /// <param name="checksum">The algorithm and the digest its bytes must have, or null.</param>
    /// <param name="whole">What to do with a whole upload that was not taken yet; answers what it became, or null if it is to wait.</param>
    /// <param name="cancel">Ends it.</param>
    /// <returns>The upload after it.</returns>
    /// <exception cref="NotFoundException">There is no such upload.</exception>
    /// <exception cref="OffsetException">It stands elsewhere.</exception>
    /// <exception cref="ChecksumException">The bytes are others.</exception>
    /// <exception cref="OvertakenException">A newer request goes on with it.</exception>
    /// <exception cref="FaultException">More came than the length that was told.</exception>
    public async Task<PartedUpload> Append(
        Guid id, Guid by, long offset, Stream content, (HashAlgorithmName Algorithm, byte[] Digest)? checksum, Func<PartedUpload, IncomingFile, Task<TakenPicture?>> whole, CancellationToken cancel)
    {
        _ = Find(id, by) ?? throw Missing(id);
        using var turn = await Take(id, cancel);
        var upload = Find(id) ?? throw Missing(id);
        if (upload.Offset != offset)
        {
            throw new OffsetException(upload.Offset);
        }

        if (!upload.IsWhole)
        {
            Touch(id); // Its days begin anew with whatever comes, also if that is cut off.
            await Receive(upload, content, checksum, turn);
            upload = Find(id) ?? throw Missing(id);
        }

        if (upload is { IsWhole: true, Picture: null })
        {
            using var file = await Whole(upload);
            if (await whole(upload, file) is { } picture)
            {
                upload = upload with { Picture = picture };
                Write(upload);
                File.Delete(BytesOf(id));
            }
        }

        return upload;
    }

    /// <summary>A whole upload that waits for its piece, as a file to be taken; null where it is not there, not whole, or taken.</summary>
    public async Task<IncomingFile?> Waiting(Guid id, Guid by) =>
        Find(id, by) is { IsWhole: true, Picture: null, Garment: null } upload ? await Whole(upload) : null;

    /// <summary>Throws one away.</summary>
    /// <returns>Whether it was there.</returns>
    public async Task<bool> Remove(Guid id, Guid by, CancellationToken cancel)
    {
        if (Find(id, by) is null)
        {
            return false;
        }

        using var turn = await Take(id, cancel);
        var there = Find(id) is not null;
        Delete(id);
        return there;
    }

    /// <summary>Throws away what has expired, and what a killed host left half begun.</summary>
    /// <returns>How many.</returns>
    public int Sweep()
    {
        var expired = Ids().Where(id => Find(id) is null).ToList();
        expired.ForEach(Delete);
        foreach (var taken in Ids().Where(id => Find(id) is { Picture: not null }))
        {
            File.Delete(BytesOf(taken));
        }

        var half = new DirectoryInfo(folder).EnumerateFiles()
            .Where(f => f.LastWriteTimeUtc < clock.GetUtcNow().UtcDateTime.AddHours(-1) && (f.Name.EndsWith(".new", StringComparison.Ordinal) || !File.Exists(Path.ChangeExtension(f.FullName, ".json"))))
            .ToList();
        half.ForEach(f => f.Delete());
        return expired.Count + half.Count;
    }

    private IEnumerable<Guid> Ids() => Directory.EnumerateFiles(folder, "*.json")
        .Select(path => Guid.TryParseExact(Path.GetFileNameWithoutExtension(path), "N", out var id) ? id : Guid.Empty).Where(id => id != Guid.Empty);

    private async Task Receive(PartedUpload upload, Stream content, (HashAlgorithmName Algorithm, byte[] Digest)? checksum, Turn turn)
    {
        var stands = upload.Offset;
        // The file becomes the original as it is. Without a buffer its length is what is on its way to the disk.
        await using var file = Durable.Open(BytesOf(upload.Id), FileMode.OpenOrCreate, bufferSize: 0);
        file.SetLength(stands);
        file.Position = stands;
        using var digest = checksum is { } asked ? IncrementalHash.CreateHash(asked.Algorithm) : null;
        var keeps = false;
        try
        {
            var buffer = new byte[128 * 1024];
            for (int read; (read = await content.ReadAsync(buffer, turn.Token)) > 0;)
            {
                if (file.Position + read > upload.Length)
                {
                    throw new FaultException("Upload-Length", $"More came than the {upload.Length} bytes that were told; nothing of the part was kept.");
                }

                digest?.AppendData(buffer, 0, read);
                await file.WriteAsync(buffer.AsMemory(0, read), CancellationToken.None);
            }

            keeps = digest is null || CryptographicOperations.FixedTimeEquals(digest.GetHashAndReset(), checksum!.Value.Digest);
            if (!keeps)
            {
                throw new ChecksumException();
            }
        }
        catch (OperationCanceledException) when (turn.IsOvertaken)
        {
            keeps = digest is null;
            throw new OvertakenException();
        }
        catch (Exception e) when (e is not (FaultException or ChecksumException))
        {
            keeps = digest is null;
            throw;
        }
        finally
        {
            if (!keeps)
            {
                file.SetLength(stands);
            }

            file.Flush(flushToDisk: true);
            if (stands == 0)
            {
                Durable.FlushFolder(folder);
            }
        }
    }

    private async Task<IncomingFile> Whole(PartedUpload upload)
    {
        await using var file = new FileStream(BytesOf(upload.Id), FileMode.OpenOrCreate, FileAccess.Read, FileShare.Read, 0, FileOptions.Asynchronous);
        var sha256 = Convert.ToHexStringLower(await SHA256.HashDataAsync(file));
        return new IncomingFile(BytesOf(upload.Id), sha256, tooLarge: false, stays: true) { Caption = upload.Caption, View = upload.View?.DeepClone() };
    }

    private void Write(PartedUpload upload) => Durable.Replace(SaidOf(upload.Id), JsonSerializer.SerializeToUtf8Bytes(upload));

    private void Touch(Guid id) => File.SetLastWriteTimeUtc(SaidOf(id), clock.GetUtcNow().UtcDateTime);

    private void Delete(Guid id)
    {
        File.Delete(BytesOf(id));
        File.Delete(SaidOf(id));
    }

    private string BytesOf(Guid id) => Path.Combine(folder, id.ToString("N"));

    private string SaidOf(Guid id) => BytesOf(id) + ".json";

    private static NotFoundException Missing(Guid id) => new($"There is no upload {id}; it was deleted, or waited longer than it may.");

    // Who comes last goes on: a telephone that lost its connection is back before the host notices that the old one is dead.
    private async Task<Turn> Take(Guid id, CancellationToken cancel)
    {
        Turn mine, before;
        lock (turns)
        {
            before = turns.GetValueOrDefault(id)!;
            turns[id] = mine = new Turn(this, id, cancel);
        }

        if (before is not null)
        {
            await before.Overtake();
        }

        return mine;
    }

    private sealed class Turn(PartedUploads all, Guid id, CancellationToken cancel) : IDisposable
    {
        private readonly CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        private readonly TaskCompletionSource ended = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public CancellationToken Token => stop.Token;

        public bool IsOvertaken { get; private set; }

        public async Task Overtake()
        {
            lock (all.turns)
            {
                IsOvertaken = true;
                if (!ended.Task.IsCompleted)
                {
                    stop.Cancel();
                }
            }

            await ended.Task;
        }

        public void Dispose()
        {
            lock (all.turns)
            {
                ended.TrySetResult();
                if (all.turns.GetValueOrDefault(id) == this)
                {
                    all.turns.Remove(id);
                }
            }

            stop.Dispose();
        }
    }
}
