using System.Data;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Pictures;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// The verb <c>backup FILE</c>: the whole record as it stood at one moment, and every original picture it names, in one file.
/// The service may go on meanwhile. What can be made again (index, derivatives, keys) is left out.
/// </summary>
internal static class Backup
{
    /// <param name="services">Of the service, which need not be started.</param>
    /// <param name="path">The file to be made, which is not there yet. Only its owner may read it. It has its name once it is whole, not before.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it; the file is then not there.</param>
    /// <exception cref="StartException">The file is there already or cannot be written, or an original is missing or damaged.</exception>
    public static async Task Make(IServiceProvider services, string path, IProgress<string> progress, CancellationToken cancel)
    {
        if (Path.Exists(path)) throw new StartException($"{path} is there already, and a backup is never written over anything: name another file.");
        var part = path + ".part";
        // Held as long as it is written: a second backup into the same name is refused, and what a killed one left is begun again.
        await using var stream = Begin(part);
        try
        {
            var contents = await Write(services, stream, progress, cancel);
            stream.Flush(flushToDisk: true);
            File.Move(part, path, overwrite: true);   // plain renaming: without "overwrite" some disks would get a slow copy under the name
            Durable.FlushFolder(Path.GetDirectoryName(path)!);
            progress.Report($"Backed up to {path}: {contents.Tables.Sum(t => t.Rows)} rows, {contents.Pictures.Count} pictures.");
        }
        catch (Exception e)
        {
            File.Delete(part);
            if (cancel.IsCancellationRequested) throw new StartException($"Stopped before the end: there is no backup {path}. The archive is as it was.");
            if (Trouble.Of(e) is { } why) throw new StartException($"The backup could not be made: {why} There is no backup {path}; the archive is as it was.");
            throw;
        }
    }

    private static FileStream Begin(string part)
    {
        // Not buffered: what fails, fails where it is written and not where it is closed.
        var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite, Share = OperatingSystem.IsWindows() ? FileShare.Delete : FileShare.None, BufferSize = 0 };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        try
        {
            var stream = new FileStream(part, options);
            stream.SetLength(0);
            return stream;
        }
        catch (IOException e) when (ArchiveFolder.IsHeld(e))
        {
            throw new StartException($"{part} is being written by another backup: wait for it, or name another file.");
        }
        catch (Exception e) when (Trouble.Of(e) is { } why)
        {
            throw new StartException($"The backup could not be made: {why}");
        }
    }

    private static async Task<Contents> Write(IServiceProvider services, FileStream stream, IProgress<string> progress, CancellationToken cancel)
    {
        Contents contents;
        using var seal = new Seal(stream);
        using (var file = new ZipArchive(seal, ZipArchiveMode.Create, leaveOpen: true))
        {
            file.Comment = Seal.Blank;
            var (tables, sequences, originals) = await CopyRecord(services, file, progress, cancel);
            await CopyPictures(originals, services.GetRequiredService<PictureStore>(), file, progress, cancel);
            contents = new(Contents.NewestFormat, DateTimeOffset.UtcNow, tables, sequences, originals);
            contents.Write(file);
        }
        seal.Close(stream);
        return contents;
    }

    // One transaction that sees one moment, whatever is written meanwhile: the rows, and which pictures they name.
    private static async Task<(List<Table>, List<Sequence>, List<string>)> CopyRecord(IServiceProvider services, ZipArchive file, IProgress<string> progress, CancellationToken cancel)
    {
        await using var connection = await RecordSchema.Open(services, cancel);
        await using var moment = await connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancel);
        var pace = new Pace(progress);
        progress.Report("Copying the record");
        var tables = new List<Table>();
        foreach (var table in await RecordSchema.Tables(connection, cancel))
            if (!RecordSchema.LeftOut.Contains(table.Name)) tables.Add(await CopyTable(connection, table, file, pace, cancel));
        return (tables, await RecordSchema.Sequences(connection, cancel), await RecordSchema.Originals(connection, cancel));
    }

    private static async Task<Table> CopyTable(NpgsqlConnection connection, Table table, ZipArchive file, Pace pace, CancellationToken cancel)
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
            pace.Say(() => $"Copying the record: {table.Name}, {lines} rows");
        }
        return table with { Rows = lines, Sha256 = Convert.ToHexStringLower(digest.GetHashAndReset()) };
    }

    // After the record: a picture it names was on disk before it, and originals are never overwritten.
    private static async Task CopyPictures(List<string> digests, PictureStore pictures, ZipArchive file, IProgress<string> progress, CancellationToken cancel)
    {
        var pace = new Pace(progress);
        long copied = 0;
        var buffer = new byte[128 * 1024];
        progress.Report($"Copying {digests.Count} pictures");
        for (var i = 0; i < digests.Count; i++)
        {
            await using var original = pictures.OpenOriginal(digests[i]) ?? throw new StartException($"The original picture {digests[i]} is missing. There is no backup. The page /pictures/check names the pieces it belongs to.");
            await using var entry = await file.CreateEntry(Contents.PictureEntry(digests[i]), CompressionLevel.NoCompression).OpenAsync(cancel);
            using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            for (int read; (read = await original.ReadAsync(buffer, cancel)) > 0; copied += read)
            {
                digest.AppendData(buffer, 0, read);
                await entry.WriteAsync(buffer.AsMemory(0, read), cancel);
                pace.Say(() => $"Copying pictures: {i} of {digests.Count}, {Pace.Megabytes(copied)} MB");
            }
            if (Convert.ToHexStringLower(digest.GetHashAndReset()) != digests[i])
                throw new StartException($"The original picture {digests[i]} is damaged. There is no backup. The page /pictures/check names the pieces it belongs to.");
        }
    }
}
