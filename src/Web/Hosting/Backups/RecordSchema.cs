using HeirloomArchive.Catalogue;
using Npgsql;

namespace HeirloomArchive.Web.Hosting.Backups;

/// <summary>The tables and sequences that hold the record, as PostgreSQL lists them.</summary>
internal static class RecordSchema
{
    private static readonly string[] Schemas = [CatalogueStore.Schema, CatalogueStore.EventSchema];

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

    public static async Task<List<Sequence>> Sequences(NpgsqlConnection connection, CancellationToken cancel)
    {
        var sequences = new List<Sequence>();
        await using var command = new NpgsqlCommand("SELECT schemaname::text, sequencename::text, last_value FROM pg_sequences WHERE schemaname = ANY($1) ORDER BY 1, 2", connection)
        {
            Parameters = { new() { Value = Schemas } },
        };
        await using var rows = await command.ExecuteReaderAsync(cancel);
        while (await rows.ReadAsync(cancel)) sequences.Add(new(rows.GetString(0), rows.GetString(1), rows.IsDBNull(2) ? null : rows.GetInt64(2)));
        return sequences;
    }
}
