using Marten;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Weasel.Core;

namespace HeirloomArchive.Catalogue;

/// <summary>Brings pieces into the list of all that were entered before it was kept; nothing to do at all later starts.</summary>
public sealed class ListFilling(IDocumentStore store, ILogger<ListFilling> log) : BackgroundService
{
    private const int Batch = 1_000;

    /// <summary>Lists what is missing.</summary>
    /// <returns>How many pieces that were.</returns>
    public async Task<int> Fill(CancellationToken ct)
    {
        for (var filled = 0; ;)
        {
            IReadOnlyList<Guid> missing;
            IReadOnlyList<Garment> garments;
            await using (var session = store.QuerySession())
            {
                missing = await session.AdvancedSql.QueryAsync<Guid>(
                    $"select g.id from {CatalogueStore.Schema}.mt_doc_garment g where not exists (select 1 from {CatalogueStore.Schema}.mt_doc_listedpiece l where l.id = g.id) limit {Batch}", ct);
                garments = await session.LoadManyAsync<Garment>(ct, [.. missing]);
            }

            if (garments.Count == 0)
            {
                return filled;
            }

            // One that was changed meanwhile has its row already, and keeps it.
            await store.BulkInsertAsync([.. garments.Select(g => ListedPiece.Of(g.Id, g.Version, g.Fields, g.Changed, g.IsAside))], BulkInsertMode.IgnoreDuplicates, Batch, cancellation: ct);
            filled += garments.Count;
        }
    }

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await Fill(stoppingToken);
            await new CareLists(store).Fill(stoppingToken);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The next start goes on.
        }
#pragma warning disable CA1031 // The archive works without; what is missing in one list is said here and tried again at the next start.
        catch (Exception e)
#pragma warning restore CA1031
        {
            log.NotFilled(e);
        }
    }
}

internal static partial class ListLog
{
    [LoggerMessage(Level = LogLevel.Warning, Message = "The list of all pieces could not be filled; it is tried again at the next start.")]
    public static partial void NotFilled(this ILogger log, Exception e);
}
