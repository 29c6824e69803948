using HeirloomArchive.Sewing.Cloth;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class ClothSums
{
    public static IReadOnlyList<Sum> All { get; } = [ReleaseFlare.Sum, CircularTucks.Sum, GoredTucks.Sum, BreadthsSum.Sum, CuttingOrderSum.Sum, BiasStrip.Sum, PetticoatCloth.Sum, OldUnit.Sum];
}
