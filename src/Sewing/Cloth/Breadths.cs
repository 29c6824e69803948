namespace HeirloomArchive.Sewing.Cloth;

/// <summary>A join of two breadths.</summary>
/// <param name="Position">From the start of the cloth wanted, seams not counted.</param>
/// <param name="UnderTuck">The tuck whose stitching covers it, from 1; null when it shows.</param>
public sealed record BreadthJoin(Length Position, int? UnderTuck);

/// <summary>
/// A wide piece made up of breadths joined at their long edges. Whole numbers throughout. Each breadth reaches as far as it can,
/// or only to the last tuck that hides the join.
/// </summary>
public sealed record Breadths
{
    /// <summary>Most breadths that are worked out.</summary>
    public const int Most = 500;

    /// <summary>Across the whole piece, seams not counted.</summary>
    public required Length Wanted { get; init; }

    /// <summary>Of the cloth from edge to edge.</summary>
    public required Length Loom { get; init; }

    /// <summary>Cut away at each side of the cloth.</summary>
    public Length Selvage { get; init; }

    /// <summary>What a join takes from each of its two edges.</summary>
    public Length Seam { get; init; }

    /// <summary>True when the last breadth is joined to the first.</summary>
    public bool Round { get; init; }

    /// <summary>Where a join would lie under a tuck, rising, with the number of the tuck; none when nothing hides it.</summary>
    public IReadOnlyList<(Length Position, int Tuck)> Hides { get; init; } = [];

    /// <summary>What is left of the cloth without its selvages.</summary>
    public Length Usable => Loom - (2 * Selvage);

    /// <summary>The joins from start to end, the closing one of a round piece not among them; null when more than <see cref="Most"/> breadths would be needed.</summary>
    public IReadOnlyList<BreadthJoin>? Joins
    {
        get
        {
            var joins = new List<BreadthJoin>();
            var at = Length.Zero;
            while (Wanted - at > Usable - StartSeam(at) - (Round ? Seam : Length.Zero))
            {
                if (joins.Count == Most - 1)
                {
                    return null;
                }

                var reach = at + Usable - StartSeam(at) - Seam;
                var hidden = Hides.LastOrDefault(h => h.Position > at && h.Position <= reach);
                joins.Add(hidden.Tuck > 0 ? new(hidden.Position, hidden.Tuck) : new(reach, null));
                at = joins[^1].Position;
            }

            return joins;
        }
    }

    /// <summary>How wide each breadth is cut, its seams in it.</summary>
    /// <param name="joins">From <see cref="Joins"/>.</param>
    public IReadOnlyList<Length> CutWidths(IReadOnlyList<BreadthJoin> joins)
    {
        ArgumentNullException.ThrowIfNull(joins);
        Length[] edges = [Length.Zero, .. joins.Select(j => j.Position), Wanted];
        return [.. edges.Zip(edges.Skip(1), (from, to) => to - from + StartSeam(from) + (Round || to != Wanted ? Seam : Length.Zero))];
    }

    private Length StartSeam(Length at) => Round || at > Length.Zero ? Seam : Length.Zero;

    /// <summary>Where a join would be covered: at the stitching line that lies beneath the tuck.</summary>
    /// <param name="plan">A run whose folds lie along the join.</param>
    public static IReadOnlyList<(Length Position, int Tuck)> UnderTucks(TuckPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Lines.Select(l => (l.FinishedFold > l.FinishedStitch ? l.SecondStitch : l.FirstStitch, l.Tuck))];
    }
}
