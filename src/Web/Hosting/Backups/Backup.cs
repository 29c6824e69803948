using System.Data;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using Marten;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// The verb <c>backup FILE</c>: the whole record as it stood at one moment, and every original picture, in one file.
/// The service may go on meanwhile. What can be made again (index, derivatives) is left out.
/// </summary>
internal static class Backup
{
    /// <param name="services">Of the service, which need not be started.</param>
    /// <param name="path">The file to be made, which is not there yet. Only its owner may read it.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it; the file is then not there.</param>
    /// <exception cref="StartException">The file is there already, or an original is missing or damaged.</exception>
    public static async Task Make(IServiceProvider services, string path, IProgress<string> progress, CancellationToken cancel)
    {
        if (File.Exists(path)) throw new StartException($"{path} is there already: name another file.");
        var part = path + ".part";
        OwnerOnly.Write(part, "");
        Contents contents;
        await using (var stream = new FileStream(part, FileMode.Open, FileAccess.ReadWrite))
        {
            using (var file = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
            {
                progress.Report("Copying the record");
                var (tables, sequences) = await CopyRecord(services.GetRequiredService<NpgsqlDataSource>(), file, cancel);
                var originals = await CopyPictures(await OriginalsOf(services.GetRequiredService<IDocumentStore>(), cancel), services.GetRequiredService<PictureStore>(), file, progress, cancel);
                contents = new(Contents.NewestFormat, DateTimeOffset.UtcNow, tables, sequences, originals);
                contents.Write(file);
            }
            stream.Flush(flushToDisk: true);
        }
        File.Move(part, path);
        progress.Report($"Backed up to {path}: {contents.Tables.Sum(t => t.Rows)} rows, {contents.Pictures.Count} pictures.");
    }

    // One transaction that sees one moment, whatever is written meanwhile.
    private static async Task<(List<Table>, List<Sequence>)> CopyRecord(NpgsqlDataSource source, ZipArchive file, CancellationToken cancel)
    {
        await using var connection = await source.OpenConnectionAsync(cancel);
        await using var moment = await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancel);
        var tables = new List<Table>();
        foreach (var table in await RecordSchema.Tables(connection, cancel)) tables.Add(await CopyTable(connection, table, file, cancel));
        return (tables, await RecordSchema.Sequences(connection, cancel));
    }

    private static async Task<Table> CopyTable(NpgsqlConnection connection, Table table, ZipArchive file, CancellationToken cancel)
    {
        await using var entry = await file.CreateEntry(table.Entry, CompressionLevel.Fastest).OpenAsync(cancel);
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        using var rows = await connection.BeginTextExportAsync($"COPY {table.Quoted} ({table.QuotedColumns}) TO STDOUT", cancel);
        var characters = new char[16_384];
        var bytes = new byte[Encoding.UTF8.GetMaxByteCount(characters.Length)];
        var encoder = Encoding.UTF8.GetEncoder();   // a character may lie across two reads
        long lines = 0;
        for (int read; (read = await rows.ReadAsync(characters.AsMemory(), cancel)) > 0;)
        {
            lines += characters.AsSpan(0, read).Count('\n');   // line ends within a value are escaped
            var length = encoder.GetBytes(characters.AsSpan(0, read), bytes, flush: false);
            digest.AppendData(bytes, 0, length);
            await entry.WriteAsync(bytes.AsMemory(0, length), cancel);
        }
        return table with { Rows = lines, Sha256 = Convert.ToHexStringLower(digest.GetHashAndReset()) };
    }

    // After the record: a picture it names was on disk before it, and originals are never overwritten.
    private static async Task<List<string>> CopyPictures(List<string> digests, PictureStore pictures, ZipArchive file, IProgress<string> progress, CancellationToken cancel)
    {
        for (var i = 0; i < digests.Count; i++)
        {
            if (i % 25 == 0) progress.Report($"Copying pictures: {i} of {digests.Count}");
            await using var original = pictures.OpenOriginal(digests[i]) ?? throw new StartException($"The original picture {digests[i]} is missing. There is no backup.");
            if (Convert.ToHexStringLower(await SHA256.HashDataAsync(original, cancel)) != digests[i])
                throw new StartException($"The original picture {digests[i]} is damaged. There is no backup.");
            original.Position = 0;
            await using var entry = await file.CreateEntry("pictures/" + digests[i], CompressionLevel.NoCompression).OpenAsync(cancel);
            await original.CopyToAsync(entry, cancel);
        }
        return digests;
    }

    private static async Task<List<string>> OriginalsOf(IDocumentStore store, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return [.. (await session.Query<PictureOwner>().Select(p => p.Sha256).ToListAsync(cancel)).Distinct().Order(StringComparer.Ordinal)];
    }
}
