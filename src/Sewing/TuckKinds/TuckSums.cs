using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class TuckSums
{
    public static IReadOnlyList<Sum> All { get; } =
    [
        TuckKindsSum.Sum, SpacingWays.Sum, GaugeCard.Sum, TuckerMarks.Sum, StripSum.Sum, UnequalTucks.Sum, GraduatedTucks.Sum, NunsTucks.Sum,
        GrowthTucks.Sum, ReleaseTucks.Sum, ReceivingTuck.Sum, ShellTucks.Sum, CordedTucks.Sum, CrossedTucks.Sum, ScallopedTucks.Sum, TwinNeedleTucks.Sum,
    ];
}
