using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using Marten;
using Npgsql;

namespace HeirloomArchive.Search;

/// <summary>What the follower asks of the record: which garments were touched, how far it may read, how they stand now.</summary>
internal sealed class EventLog(IDocumentStore store)
{
    private const string Events = CatalogueStore.EventSchema + ".mt_events";

    /// <summary>
    /// The position up to which no event can still be missing. Beyond it a slower writer may yet fill a gap,
    /// so whoever reads by position alone loses events.
    /// </summary>
    public async Task<long> HighWaterMark(CancellationToken ct)
    {
        var progress = await store.Advanced.AllProjectionProgress(token: ct);
        return progress.FirstOrDefault(p => p.ShardName == "HighWaterMark")?.Sequence ?? 0;
    }

    /// <summary>The streams touched after one position, up to another, and the position the reading came to.</summary>
    public async Task<(HashSet<Guid> Streams, long Position)> Touched(long after, long upTo, int most, CancellationToken ct)
    {
        // Ids only: the events themselves are not needed. A failed save leaves a tombstone, whose stream is no garment.
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(ct);
        await using var command = new NpgsqlCommand(
            $"select seq_id, stream_id from {Events} where seq_id > $1 and seq_id <= $2 and type <> 'tombstone' order by seq_id limit $3", connection)
        {
            Parameters = { new() { Value = after }, new() { Value = upTo }, new() { Value = most } },
        };
        var streams = new HashSet<Guid>();
        var (count, position) = (0, upTo);
        await using var reader = await command.ExecuteReaderAsync(ct);
        while (await reader.ReadAsync(ct))
        {
            streams.Add(reader.GetGuid(1));
            if (++count == most)
            {
                position = reader.GetInt64(0);
            }
        }

        return (streams, position);
    }

    /// <summary>Whether an event has this position.</summary>
    public async Task<bool> Exists(long position, CancellationToken ct) =>
        await One($"select exists(select 1 from {Events} where seq_id = {position.ToString(CultureInfo.InvariantCulture)} and type <> 'tombstone')", ct) is true;

    /// <summary>The position of the newest event; 0 when there is none.</summary>
    public async Task<long> Newest(CancellationToken ct) => await One($"select coalesce(max(seq_id), 0) from {Events}", ct) as long? ?? 0;

    /// <summary>How these garments stand now; what is no garment is left out.</summary>
    public async Task<IReadOnlyList<Garment>> Garments(IEnumerable<Guid> ids, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.LoadManyAsync<Garment>(ct, ids);
    }

    /// <summary>How the garments stand whose ids follow this one, in their order; nothing private.</summary>
    public async Task<IReadOnlyList<(Guid Id, JsonObject State)>> StatesAfter(Guid id, int most, CancellationToken ct)
    {
        await using var session = store.QuerySession();
        var garments = await session.QueryAsync<Garment>("where d.id > ? order by d.id limit ?", ct, id, most);
        return [.. garments.Select(g => (g.Id, g.State(Sight.Pieces)))];
    }

    public async Task<long> CountGarments(CancellationToken ct)
    {
        await using var session = store.QuerySession();
        return await session.Query<Garment>().LongCountAsync(ct);
    }

    private async Task<object?> One(string sql, CancellationToken ct)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(ct);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(ct);
    }

    /// <summary>Calls back whenever some node has appended events, until stopped or the connection breaks.</summary>
    public async Task Listen(Action appended, CancellationToken ct)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(ct);
        connection.Notification += (_, _) => appended();
        await using (var listen = new NpgsqlCommand("listen mt_events_appended", connection))
        {
            await listen.ExecuteNonQueryAsync(ct);
        }

        while (true)
        {
            await connection.WaitAsync(ct);
        }
    }
}
