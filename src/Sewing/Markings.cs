namespace HeirloomArchive.Sewing;

/// <summary>The finest markings that a tape or a ruler has.</summary>
internal static class Markings
{
    public const string Words = // texts
        "1/16 in, 1/32 in, 1/64 in, 1 mm, 0.5 mm or 0.25 mm";

    public static IReadOnlyList<(string Slug, Length Length)> All { get; } =
    [
        ("1/16 in", Length.FromSixtyFourthsOfInch(4)), ("1/32 in", Length.FromSixtyFourthsOfInch(2)), ("1/64 in", Length.FromSixtyFourthsOfInch(1)),
        ("1 mm", Length.FromMillimetres(1m)), ("0.5 mm", Length.FromMillimetres(0.5m)), ("0.25 mm", Length.FromMillimetres(0.25m)),
    ];

    public static bool Has(Length length) => All.Any(m => m.Length == length);
}
