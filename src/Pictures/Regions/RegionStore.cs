using Marten;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>How regions are kept: a document each, found by picture, by garment and by what they show.</summary>
public static class RegionStore
{
    /// <summary>Adds the regions to the archive's store.</summary>
    public static void Configure(StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.Schema.For<Region>().UseNumericRevisions(true).Index(r => r.Picture).Index(r => r.Garment);
    }
}
