using HeirloomArchive.Catalogue;
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

    /// <summary>Changes what is ticked off, one change at a time, so that none is written over by another.</summary>
    /// <param name="store">The archive's store.</param>
    /// <param name="worksheet">Its id.</param>
    /// <param name="change">From what is ticked off now to what is to be.</param>
    /// <param name="ct">Gives up before it is kept.</param>
    public static async Task<Ticks> Tick(this IDocumentStore store, Guid worksheet, Func<Ticks, Ticks> change, CancellationToken ct)
    {
        ArgumentNullException.ThrowIfNull(change);
        await using var session = await Turn.Take(store, $"ticks {worksheet}", ct);
        var ticks = change(await session.LoadAsync<Ticks>(worksheet, ct) ?? new Ticks { Id = worksheet });
        session.Store(ticks);
        await session.SaveChangesAsync(ct);
        return ticks;
    }
}
