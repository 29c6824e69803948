using System.ComponentModel;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>How a pleat is laid.</summary>
public enum PleatKind
{
    /// <summary>Knife pleats as deep as they are wide: they meet, three layers everywhere.</summary>
    Normal,

    /// <summary>Knife pleats less deep than wide.</summary>
    Shallow,

    /// <summary>Knife pleats deeper than wide: each lies over the next.</summary>
    Overlapping,

    /// <summary>Two folds turned away from each other.</summary>
    Box,

    /// <summary>Two folds turned towards each other, meeting.</summary>
    Inverted,
}

/// <summary>One line of a pleat on the flat cloth and where it comes to lie.</summary>
/// <param name="Pleat">From 1.</param>
/// <param name="What">In words: <c>fold</c>, <c>under fold</c>, <c>placement line</c>.</param>
/// <param name="Flat">From the start of the flat cloth.</param>
/// <param name="Finished">From the start of the finished section; an under fold may lie beyond it.</param>
public sealed record PleatLine(int Pleat, [Localizable(true)] string What, Length Flat, Length Finished);

/// <summary>
/// Pleats laid in a section: tucks that are not sewn down, so cloth = finished + 2 × depth × folds.
/// Each pleat has its share of the section; the shares differ by at most a nanometre and add up exactly.
/// </summary>
/// <remarks>Dress Making, NIMI, pp. 202–205; Baldt, Clothing for Women (1916), p. 401.</remarks>
/// <param name="Kind">How they are laid.</param>
/// <param name="Count">1 or more.</param>
/// <param name="Finished">The section when pleated.</param>
/// <param name="Depth">From a fold to its under fold.</param>
/// <param name="Face">Of a box pleat, from fold to fold; zero for all others.</param>
public sealed record Pleats(PleatKind Kind, int Count, Length Finished, Length Depth, Length Face)
{
    /// <summary>Folds that take cloth: one in a knife pleat, two in a box or inverted pleat.</summary>
    public static int Sides(PleatKind kind) => kind is PleatKind.Box or PleatKind.Inverted ? 2 : 1;

    /// <summary>Normal, shallow or overlapping, by depth against width.</summary>
    /// <remarks>NIMI, p. 202.</remarks>
    public static PleatKind Classify(Length depth, Length width) =>
        depth == width ? PleatKind.Normal : depth < width ? PleatKind.Shallow : PleatKind.Overlapping;

    /// <summary>How they lie, in a word of the reader's language.</summary>
    internal static string Word(PleatKind kind) => kind switch
    {
        PleatKind.Normal => T("normal"),
        PleatKind.Shallow => T("shallow"),
        PleatKind.Overlapping => T("overlapping"),
        PleatKind.Box => T("box"),
        _ => T("inverted"),
    };

    /// <summary>Flat cloth for each finished length: 1 + 2 × depth × sides / width; 3 where knife pleats meet.</summary>
    public static decimal Ratio(PleatKind kind, Length depth, Length width) => 1 + (2m * Sides(kind) * depth.Nanometres / width.Nanometres);

    /// <summary>What all pleats take up. Exact.</summary>
    public Length TakeUp => 2 * Sides(Kind) * Count * Depth;

    /// <summary>The flat cloth, without seams. Exact.</summary>
    public Length Cloth => Finished + TakeUp;

    /// <summary>What each pleat has of the section, rounded once to the nanometre.</summary>
    public Length Width => Finished.DividedBy(Count);

    /// <summary>Every line of every pleat from start to end.</summary>
    public IReadOnlyList<PleatLine> Lines() => [.. Enumerable.Range(0, Count).SelectMany(Of)];

    // A knife pleat is a tuck towards the end: stitching line, fold, second line, each its depth further (as TuckPlan has it).
    private IEnumerable<PleatLine> Of(int i)
    {
        var start = (i * Finished).DividedBy(Count);
        var taken = 2 * Sides(Kind) * i * Depth;
        switch (Kind)
        {
            case PleatKind.Box:
                var left = start + (((i + 1) * Finished).DividedBy(Count) - start - Face).DividedBy(2);
                var right = left + Face;
                yield return new(i + 1, "placement line", left + taken, left);
                yield return new(i + 1, "under fold", left + taken + Depth, left + Depth);
                yield return new(i + 1, "fold", left + taken + (2 * Depth), left);
                yield return new(i + 1, "fold", right + taken + (2 * Depth), right);
                yield return new(i + 1, "under fold", right + taken + (3 * Depth), right - Depth);
                yield return new(i + 1, "placement line", right + taken + (4 * Depth), right);
                break;
            case PleatKind.Inverted:
                var middle = start + (((i + 1) * Finished).DividedBy(Count) - start).DividedBy(2);
                yield return new(i + 1, "fold", middle + taken, middle);
                yield return new(i + 1, "under fold", middle + taken + Depth, middle - Depth);
                yield return new(i + 1, "middle", middle + taken + (2 * Depth), middle);
                yield return new(i + 1, "under fold", middle + taken + (3 * Depth), middle + Depth);
                yield return new(i + 1, "fold", middle + taken + (4 * Depth), middle);
                break;
            default:
                yield return new(i + 1, "placement line", start + taken, start);
                yield return new(i + 1, "fold", start + taken + Depth, start + Depth);
                yield return new(i + 1, "under fold", start + taken + (2 * Depth), start);
                break;
        }
    }
}
