using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using Marten;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// The verb <c>restore FILE</c>: fills an empty archive from a backup whose seal has been checked. The pictures first, then the
/// whole record in one transaction.
/// </summary>
internal static class Restore
{
    // What a program that was only started has written by itself.
    private static readonly string[] OwnDoing = ["mt_doc_form_keys", "mt_event_progression"];

    /// <param name="services">Of the service, which is not started.</param>
    /// <param name="path">A backup, whole (<see cref="Seal.Check"/>).</param>
    /// <param name="left">Whether what is in the database was left by a restore that was cut off: it is cleared away.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it; the record is then as empty as before.</param>
    /// <exception cref="StartException">There is something in the database, or this program cannot take all that is in the file.</exception>
    public static async Task From(IServiceProvider services, string path, bool left, IProgress<string> progress, CancellationToken cancel)
    {
        try
        {
            using var file = await ZipFile.OpenReadAsync(path, cancel);
            var contents = Contents.Read(file, path);
            await using var connection = await RecordSchema.Open(services, cancel);
            if (left) await RecordSchema.Run(connection, $"DROP SCHEMA IF EXISTS {CatalogueStore.Schema} CASCADE; DROP SCHEMA IF EXISTS {CatalogueStore.EventSchema} CASCADE", cancel);
            await services.GetRequiredService<IDocumentStore>().Storage.ApplyAllConfiguredChangesToDatabaseAsync();
            await using var whole = await connection.BeginTransactionAsync(cancel);
            await Empty(connection, contents, cancel);
            await PutPictures(file, contents, services.GetRequiredService<PictureStore>(), progress, cancel);
            progress.Report("Putting the record back");
            var pace = new Pace(progress);
            foreach (var table in contents.Tables.Where(t => !RecordSchema.LeftOut.Contains(t.Name))) await Fill(connection, table, EntryOf(file, table.Entry), pace, cancel);
            foreach (var sequence in contents.Sequences) await Set(connection, sequence, cancel);
            await whole.CommitAsync(cancel);
            await RecordSchema.Run(connection, "ANALYZE", cancel);
            progress.Report($"Restored from {path}: {contents.Tables.Sum(t => t.Rows)} rows, {contents.Pictures.Count} pictures.");
        }
        catch (Exception) when (cancel.IsCancellationRequested)
        {
            throw new StartException("Stopped before the end: nothing was restored.");
        }
        catch (Exception e) when (e is InvalidDataException || Trouble.Of(e) is not null)
        {
            throw new StartException($"{path} could not be restored: {Trouble.Of(e) ?? e.Message} Nothing was restored.");
        }
    }

    private static async Task Empty(NpgsqlConnection connection, Contents contents, CancellationToken cancel)
    {
        var here = await RecordSchema.Tables(connection, cancel);
        foreach (var table in contents.Tables)
            if (here.Find(t => t.Quoted == table.Quoted) is not { } same || table.Columns.Except(same.Columns).Any())
                throw new InvalidDataException($"This program has no place for all of {table.Quoted}; a program of the backup's own age has.");
        var sequences = await RecordSchema.Sequences(connection, cancel);
        foreach (var sequence in contents.Sequences)
            if (!sequences.Exists(s => s.Schema == sequence.Schema && s.Name == sequence.Name)) throw new InvalidDataException($"This program has no sequence {sequence.Schema}.{sequence.Name}.");
        foreach (var table in here)
            if (OwnDoing.Contains(table.Name)) await RecordSchema.Run(connection, $"DELETE FROM {table.Quoted}", cancel);
            else if (await RecordSchema.Run(connection, $"SELECT EXISTS (SELECT FROM {table.Quoted})", cancel) is not false)
                throw new StartException("There is something in this database already. Restore into an empty one.");
    }

    private static async Task PutPictures(ZipArchive file, Contents contents, PictureStore pictures, IProgress<string> progress, CancellationToken cancel)
    {
        var pace = new Pace(progress);
        progress.Report($"Putting {contents.Pictures.Count} pictures back");
        for (var i = 0; i < contents.Pictures.Count; i++)
        {
            await using var original = await EntryOf(file, Contents.PictureEntry(contents.Pictures[i])).OpenAsync(cancel);
            await pictures.PutBack(contents.Pictures[i], original, cancel);
            pace.Say(() => $"Putting pictures back: {i} of {contents.Pictures.Count}");
        }
    }

    private static async Task Fill(NpgsqlConnection connection, Table table, ZipArchiveEntry entry, Pace pace, CancellationToken cancel)
    {
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        await using (var bytes = await entry.OpenAsync(cancel))
        await using (var rows = await connection.BeginTextImportAsync($"COPY {table.Quoted} ({table.QuotedColumns}) FROM STDIN", cancel))
        {
            var buffer = new byte[16_384];
            var characters = new char[Encoding.UTF8.GetMaxCharCount(buffer.Length)];
            var decoder = Encoding.UTF8.GetDecoder();   // a character may lie across two reads
            long done = 0;
            for (int read; (read = await bytes.ReadAsync(buffer, cancel)) > 0; done += read)
            {
                digest.AppendData(buffer, 0, read);
                await rows.WriteAsync(characters.AsMemory(0, decoder.GetChars(buffer.AsSpan(0, read), characters, flush: false)), cancel);
                pace.Say(() => $"Putting the record back: {table.Name}, {Pace.Megabytes(done)} of {Pace.Megabytes(entry.Length)} MB");
            }
        }
        var filled = await RecordSchema.Run(connection, $"SELECT count(*) FROM {table.Quoted}", cancel);
        if (filled is not long rowsHere || rowsHere != table.Rows || Convert.ToHexStringLower(digest.GetHashAndReset()) != table.Sha256)
            throw new InvalidDataException($"The rows of {table.Quoted} are damaged.");
    }

    private static Task<object?> Set(NpgsqlConnection connection, Sequence sequence, CancellationToken cancel) => sequence.Value is { } value
        ? RecordSchema.Run(connection, $"SELECT setval('\"{sequence.Schema}\".\"{sequence.Name}\"', {value})", cancel)
        : Task.FromResult<object?>(null);

    private static ZipArchiveEntry EntryOf(ZipArchive file, string name) => file.GetEntry(name) ?? throw new InvalidDataException($"Its part {name} is missing.");
}
