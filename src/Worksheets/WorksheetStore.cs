using Marten;

namespace HeirloomArchive.Worksheets;

/// <summary>How worksheets are kept: a plain document, written once; ticks, printers and what came of it beside it.</summary>
public static class WorksheetStore
{
    /// <summary>Adds the room's documents to the archive's store.</summary>
    public static void Configure(StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.Schema.For<Worksheet>();
        options.Schema.For<Ticks>();
        options.Schema.For<Printer>();
        options.Schema.For<MadeUp>().Index(m => m.Worksheet);
    }

    /// <summary>Keeps a new worksheet; from then on it stays as it is.</summary>
    public static async Task Keep(this IDocumentStore store, Worksheet worksheet, CancellationToken ct)
    {
        ArgumentNullException.ThrowIfNull(store);
        await using var session = store.LightweightSession();
        session.Insert(worksheet);
        await session.SaveChangesAsync(ct);
    }
}
