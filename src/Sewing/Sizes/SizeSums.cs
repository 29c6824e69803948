namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class SizeSums
{
    public static IReadOnlyList<Sum> All { get; } = [Sizes.SeveralSum.Sum, Sizes.GroupsSum.Sum, Sizes.Scaling.Sum, Sizes.MeasuredSum.Sum];
}
