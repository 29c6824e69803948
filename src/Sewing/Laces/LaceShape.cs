namespace HeirloomArchive.Sewing.Laces;

/// <summary>
/// A shape repeated in straight insertion, its corners mitred: the four sides of a diamond, or the legs of a zigzag.
/// Floating point inside, each length rounded once to the nanometre.
/// </summary>
/// <param name="Width">Across one repeat, over its outer edges (of a zigzag from point to point).</param>
/// <param name="Height">Over its outer edges.</param>
/// <param name="Insertion">Width of the insertion.</param>
/// <param name="Zigzag">False: diamonds standing point to point.</param>
public sealed record LaceShape(Length Width, Length Height, Length Insertion, bool Zigzag)
{
    private double HalfWidth => Width.Nanometres / 2.0;

    private double HalfHeight => Height.Nanometres / 2.0;

    /// <summary>The slope of a side against the level, in radians. Of a zigzag that of the leg whose outer points are the height apart.</summary>
    internal double Slope => Zigzag
        ? Math.Acos(Insertion.Nanometres / Math.Sqrt((HalfWidth * HalfWidth) + ((double)Height.Nanometres * Height.Nanometres))) - Math.Atan2(HalfWidth, Height.Nanometres)
        : Math.Atan2(HalfHeight, HalfWidth);

    /// <summary>The widest insertion that leaves an opening: of a diamond half the distance of its sides, of a zigzag the height.</summary>
    public Length Widest => Zigzag ? Height : Length.FromNanometres((long)Math.Floor(HalfWidth * HalfHeight / Math.Sqrt((HalfWidth * HalfWidth) + (HalfHeight * HalfHeight))));

    /// <summary>Sides in each repeat.</summary>
    public int Sides => Zigzag ? 2 : 4;

    /// <summary>A side from point to point: of a diamond along its outer edge, of a zigzag along either edge.</summary>
    public Length Side => Length.FromNanometres((long)Math.Round((Zigzag ? HalfWidth / Math.Cos(Slope) : Math.Sqrt((HalfWidth * HalfWidth) + (HalfHeight * HalfHeight)))));

    /// <summary>A diamond's side along its inner edge; of a zigzag as <see cref="Side"/>.</summary>
    public Length InnerSide => Zigzag ? Side : Side - Insertion.Times(Math.Tan(Slope) + (1 / Math.Tan(Slope)));

    /// <summary>Along the mitre at the upper and lower points.</summary>
    public Length PointMitre => Insertion.Times(1 / Math.Cos(Slope));

    /// <summary>Along the mitre at the points on both sides of a diamond.</summary>
    public Length SideMitre => Insertion.Times(1 / Math.Sin(Slope));

    /// <summary>How far a fold at a zigzag's point takes the strip along.</summary>
    public Length FoldAtPoint => Insertion.Times(Math.Tan(Slope));

    /// <summary>Lace for so many repeats folded from one strip (each diamond from its own), without ends.</summary>
    /// <param name="repeats">1 or more.</param>
    public Length Folded(int repeats) => Zigzag
        ? Length.FromNanometres((long)Math.Round(2 * repeats * HalfWidth / Math.Cos(Slope))) + Insertion.Times(2 * repeats * Math.Tan(Slope))
        : repeats * 4 * Side;

    /// <summary>One side cut apart for seamed mitres: as long as it reaches, and an allowance straight across each mitre.</summary>
    /// <param name="seam">Kept beyond each mitre.</param>
    public Length CutSide(Length seam) => Side + (Zigzag
        ? FoldAtPoint + seam.Times(2 / Math.Cos(Slope))
        : seam.Times((1 / Math.Cos(Slope)) + (1 / Math.Sin(Slope))));
}
