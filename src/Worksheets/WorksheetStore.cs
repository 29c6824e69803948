using Marten;

namespace HeirloomArchive.Worksheets;

/// <summary>How worksheets are kept: plain documents, written once.</summary>
public static class WorksheetStore
{
    /// <summary>Adds the room's documents to the archive's store.</summary>
    public static void Configure(StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.Schema.For<Worksheet>();
    }
}
