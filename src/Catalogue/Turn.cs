using Marten;
using Npgsql;

namespace HeirloomArchive.Catalogue;

/// <summary>One writer at a time, on all nodes that share the database.</summary>
public static class Turn
{
    /// <summary>A session in whose transaction nobody else holds the same turn. Saving it, or disposing it unsaved, ends the turn.</summary>
    /// <param name="store">The archive's store.</param>
    /// <param name="of">What is done one at a time: <c>archive_own_words</c>.</param>
    /// <param name="ct">Gives up waiting.</param>
    public static async Task<IDocumentSession> Take(IDocumentStore store, string of, CancellationToken ct)
    {
        ArgumentNullException.ThrowIfNull(store);
        var session = store.LightweightSession();
        try
        {
            await session.BeginTransactionAsync(ct);
            await using var alone = new NpgsqlCommand("select pg_advisory_xact_lock(hashtext($1))") { Parameters = { new() { Value = of } } };
            await session.ExecuteAsync(alone, ct);
            return session;
        }
        catch
        {
            // Whoever gave up waiting leaves neither a connection nor a place in the queue behind.
            await session.DisposeAsync();
            throw;
        }
    }
}
