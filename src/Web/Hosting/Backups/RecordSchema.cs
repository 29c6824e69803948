using HeirloomArchive.Catalogue;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>The tables and sequences that hold the record, as PostgreSQL lists them.</summary>
internal static class RecordSchema
{
    /// <summary>Tables that belong to a running archive and not to what is kept: keys of forms and cookies, and who is signed in where.</summary>
    public static readonly string[] LeftOut = ["mt_doc_form_keys", "mt_doc_account_session"];

    private const string EventsSequence = "mt_events_sequence";
    private static readonly string[] Schemas = [CatalogueStore.Schema, CatalogueStore.EventSchema];

    /// <summary>A connection whose commands may take as long as they do.</summary>
    public static async Task<NpgsqlConnection> Open(IServiceProvider services, CancellationToken cancel)
    {
        var database = services.GetRequiredService<ArchiveSettings>().Database;
        var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(database) { CommandTimeout = 0, Pooling = false }.ConnectionString);
        try { await connection.OpenAsync(cancel); }
        catch { await connection.DisposeAsync(); throw; }
        return connection;
    }

    /// <summary>In the order of filling: events point to their streams.</summary>
    public static async Task<List<Table>> Tables(NpgsqlConnection connection, CancellationToken cancel)
    {
        var tables = new List<Table>();
        await using var command = new NpgsqlCommand("""
            SELECT t.table_schema, t.table_name, array_agg(c.column_name::text ORDER BY c.ordinal_position)
            FROM information_schema.tables t JOIN information_schema.columns c USING (table_schema, table_name)
            WHERE t.table_schema = ANY($1) AND t.table_type = 'BASE TABLE' AND c.is_generated = 'NEVER'
            GROUP BY 1, 2 ORDER BY t.table_name <> 'mt_streams', 1, 2
            """, connection) { Parameters = { new() { Value = Schemas } } };
        await using var rows = await command.ExecuteReaderAsync(cancel);
        while (await rows.ReadAsync(cancel)) tables.Add(new(rows.GetString(0), rows.GetString(1), rows.GetFieldValue<string[]>(2), 0, ""));
        return tables;
    }

    /// <summary>Sequences do not stand still with a transaction: that of the events is told by the last event the transaction sees.</summary>
    public static async Task<List<Sequence>> Sequences(NpgsqlConnection connection, CancellationToken cancel)
    {
        var last = await Run(connection, $"SELECT max(seq_id) FROM {CatalogueStore.EventSchema}.mt_events", cancel) as long?;
        var sequences = new List<Sequence>();
        await using var command = new NpgsqlCommand("SELECT schemaname::text, sequencename::text, last_value FROM pg_sequences WHERE schemaname = ANY($1) ORDER BY 1, 2", connection)
        {
            Parameters = { new() { Value = Schemas } },
        };
        await using var rows = await command.ExecuteReaderAsync(cancel);
        while (await rows.ReadAsync(cancel))
            sequences.Add(new(rows.GetString(0), rows.GetString(1), rows.GetString(1) == EventsSequence ? last : rows.IsDBNull(2) ? null : rows.GetInt64(2)));
        return sequences;
    }

    /// <summary>The originals that the record names, by their SHA-256, each once.</summary>
    public static async Task<List<string>> Originals(NpgsqlConnection connection, CancellationToken cancel)
    {
        var originals = new List<string>();
        await using var command = new NpgsqlCommand($"SELECT DISTINCT data->>'sha256' COLLATE \"C\" FROM {CatalogueStore.Schema}.mt_doc_pictureowner WHERE data->>'sha256' <> '' ORDER BY 1", connection);
        await using var rows = await command.ExecuteReaderAsync(cancel);
        while (await rows.ReadAsync(cancel)) originals.Add(rows.GetString(0));
        return originals;
    }

    public static async Task<object?> Run(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(cancel);
    }
}
