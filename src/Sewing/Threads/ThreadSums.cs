namespace HeirloomArchive.Sewing.Sums;

/// <summary>The sums on this shelf, in the order of the page.</summary>
internal static class ThreadSums
{
    public static IReadOnlyList<Sum> All { get; } = [Threads.NeedleForThreadSum.Sum, Threads.ThreadCountSum.Sum, Threads.HandNeedles.Sum, Threads.NeedleChange.Sum, Threads.StitchCountSum.Sum, Threads.RegularitySum.Sum];
}
