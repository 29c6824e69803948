namespace HeirloomArchive.Sewing.Sums;

/// <summary>Every sum there is, in the order of the page. A new one is added here and has its route, its page and its tests at once.</summary>
public static class AllSums
{
    /// <summary>In the order of their shelves.</summary>
    public static IReadOnlyList<Sum> InOrder { get; } =
    [
        .. TuckSums.All, .. SizeSums.All, .. ClothSums.All, .. LaceSums.All, .. FullnessSums.All, .. ThreadSums.All,
    ];

    /// <summary>A sum by its slug, or null.</summary>
    public static Sum? Find(string slug) => InOrder.FirstOrDefault(s => s.Slug == slug);
}
