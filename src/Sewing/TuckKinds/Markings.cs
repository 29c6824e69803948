namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>The finest markings that a tape or a ruler has.</summary>
internal static class Markings
{
    public const string Words = // texts
        "1/16 in, 1/32 in, 1/64 in, 1 mm, 0.5 mm or 0.25 mm";

    public static IReadOnlyList<Length> All { get; } =
    [
        Length.FromSixtyFourthsOfInch(4), Length.FromSixtyFourthsOfInch(2), Length.FromSixtyFourthsOfInch(1),
        Length.FromNanometres(1_000_000), Length.FromNanometres(500_000), Length.FromNanometres(250_000),
    ];
}
