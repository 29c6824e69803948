using HeirloomArchive.Sewing.Laces;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class LaceSums
{
    public static IReadOnlyList<Sum> All { get; } =
    [
        LaceEdgingSum.Sum, MitredLaceSum.Sum, ShapedLace.Sum, InsertionSet.Sum, LaceShapeSum.Sum, ScallopedEdge.Sum, Entredeux.Sum, RollAndWhip.Sum, PatternRepeat.Sum,
    ];
}
