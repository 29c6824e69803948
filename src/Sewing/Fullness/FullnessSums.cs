namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class FullnessSums
{
    public static IReadOnlyList<Sum> All { get; } = [Fullness.Ruffle.Sum, Fullness.Gathers.Sum, Fullness.Puffing.Sum, Fullness.Smocking.Sum, Fullness.PleatSum.Sum, Fullness.KiltedSkirt.Sum];
}
