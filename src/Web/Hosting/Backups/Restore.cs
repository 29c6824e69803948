using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using HeirloomArchive.Pictures;
using Marten;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>
/// The verb <c>restore FILE</c>: fills an empty archive from a backup. The pictures first, then the whole record in one
/// transaction, so that one that was cut off can be done again.
/// </summary>
internal static class Restore
{
    // What a program that was only started has written by itself.
    private static readonly string[] OwnDoing = ["mt_doc_form_keys", "mt_event_progression"];

    /// <param name="services">Of the service, which is not started.</param>
    /// <param name="path">A backup.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops it; the record is then as empty as before.</param>
    /// <exception cref="StartException">There is something in the archive, or the file is not a whole backup.</exception>
    public static async Task From(IServiceProvider services, string path, IProgress<string> progress, CancellationToken cancel)
    {
        try
        {
            using var file = await ZipFile.OpenReadAsync(path, cancel);
            var contents = Contents.Read(file, path);
            await services.GetRequiredService<IDocumentStore>().Storage.ApplyAllConfiguredChangesToDatabaseAsync();
            await using var connection = await services.GetRequiredService<NpgsqlDataSource>().OpenConnectionAsync(cancel);
            await using var whole = await connection.BeginTransactionAsync(cancel);
            await Empty(connection, contents, cancel);
            await PutPictures(file, contents, services.GetRequiredService<PictureStore>(), progress, cancel);
            progress.Report("Putting the record back");
            foreach (var table in contents.Tables) await Fill(connection, table, EntryOf(file, table.Entry), cancel);
            foreach (var sequence in contents.Sequences) await Set(connection, sequence, cancel);
            await whole.CommitAsync(cancel);
            progress.Report($"Restored from {path}: {contents.Tables.Sum(t => t.Rows)} rows, {contents.Pictures.Count} pictures.");
        }
        catch (Exception e) when (e is InvalidDataException or FileNotFoundException)
        {
            throw new StartException($"{path} cannot be restored: {e.Message} Nothing of the record was changed.");
        }
    }

    private static async Task Empty(NpgsqlConnection connection, Contents contents, CancellationToken cancel)
    {
        var here = await RecordSchema.Tables(connection, cancel);
        foreach (var table in contents.Tables)
            if (here.Find(t => t.Quoted == table.Quoted) is not { } same || table.Columns.Except(same.Columns).Any())
                throw new InvalidDataException($"This program has no place for all of {table.Quoted}; a program of the backup's own age has.");
        foreach (var table in here)
            if (OwnDoing.Contains(table.Name)) await Run(connection, $"DELETE FROM {table.Quoted}", cancel);
            else if (await Run(connection, $"SELECT count(*) FROM {table.Quoted}", cancel) is not 0L)
                throw new StartException("There is something in this archive already. Restore into an empty folder: --Archive:Folder=PATH.");
    }

    private static async Task PutPictures(ZipArchive file, Contents contents, PictureStore pictures, IProgress<string> progress, CancellationToken cancel)
    {
        for (var i = 0; i < contents.Pictures.Count; i++)
        {
            if (i % 25 == 0) progress.Report($"Putting pictures back: {i} of {contents.Pictures.Count}");
            await using var original = await EntryOf(file, "pictures/" + contents.Pictures[i]).OpenAsync(cancel);
            await pictures.PutBack(contents.Pictures[i], original, cancel);
        }
    }

    private static async Task Fill(NpgsqlConnection connection, Table table, ZipArchiveEntry entry, CancellationToken cancel)
    {
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        await using (var bytes = await entry.OpenAsync(cancel))
        await using (var rows = await connection.BeginTextImportAsync($"COPY {table.Quoted} ({table.QuotedColumns}) FROM STDIN", cancel))
        {
            var buffer = new byte[16_384];
            var characters = new char[Encoding.UTF8.GetMaxCharCount(buffer.Length)];
            var decoder = Encoding.UTF8.GetDecoder();   // a character may lie across two reads
            for (int read; (read = await bytes.ReadAsync(buffer, cancel)) > 0;)
            {
                digest.AppendData(buffer, 0, read);
                await rows.WriteAsync(characters.AsMemory(0, decoder.GetChars(buffer.AsSpan(0, read), characters, flush: false)), cancel);
            }
        }
        var filled = await Run(connection, $"SELECT count(*) FROM {table.Quoted}", cancel);
        if (filled is not long rowsHere || rowsHere != table.Rows || Convert.ToHexStringLower(digest.GetHashAndReset()) != table.Sha256)
            throw new InvalidDataException($"The rows of {table.Quoted} are damaged.");
    }

    private static Task<object?> Set(NpgsqlConnection connection, Sequence sequence, CancellationToken cancel) => sequence.Value is { } value
        ? Run(connection, $"SELECT setval('\"{sequence.Schema}\".\"{sequence.Name}\"', {value})", cancel)
        : Task.FromResult<object?>(null);

    private static ZipArchiveEntry EntryOf(ZipArchive file, string name) => file.GetEntry(name) ?? throw new InvalidDataException($"Its part {name} is missing.");

    private static async Task<object?> Run(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(cancel);
    }
}
