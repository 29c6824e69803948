using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class TuckSums
{
    public static IReadOnlyList<Sum> All { get; } =
    [
        SpacingWays.Sum, GaugeCard.Sum, TuckerMarks.Sum, GraduatedTucks.Sum, NunsTucks.Sum, GrowthTucks.Sum, UnequalTucks.Sum, TwinNeedleTucks.Sum,
    ];
}
