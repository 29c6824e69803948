namespace HeirloomArchive.Sewing.Laces;

/// <summary>A straight part of an edge and the corner at its end.</summary>
/// <param name="Length">Along the sewn edge, from corner to corner.</param>
/// <param name="Turn">Degrees by which the edge turns at its end: 90 at a square corner, 0 straight on, below zero the other way.</param>
public sealed record MitredSide(Length Length, decimal Turn);

/// <summary>
/// Flat lace folded or cut in a mitre at each corner. Where the edge turns by an angle, the edge of the lace on the outside of the turn is longer than
/// the other by twice the width times the tangent of half the angle; the mitre is the width over the cosine of half the angle.
/// Floating point inside, each length rounded once to the nanometre.
/// </summary>
/// <param name="Sides">One or more; of an edge that does not close the last has no turn.</param>
/// <param name="Width">Of the lace.</param>
/// <param name="Within">False: the lace lies outside the turns, sewn by its inner edge. True: it lies within them, sewn by its outer edge.</param>
/// <param name="Seam">Kept beyond each mitre where the sides are cut apart; zero when the lace is folded.</param>
/// <param name="Ends">Kept at each end.</param>
public sealed record MitredLace(IReadOnlyList<MitredSide> Sides, Length Width, bool Within, Length Seam, Length Ends)
{
    /// <summary>Along the edge that is sewn.</summary>
    public Length Sewn => Sides.Aggregate(Length.Zero, (sum, s) => sum + s.Length);

    /// <summary>Along the edge that hangs free.</summary>
    public Length Free => Sewn + Sides.Aggregate(Length.Zero, (sum, s) => sum + Gain(s.Turn));

    /// <summary>The length to cut: each part needs its longer edge.</summary>
    public Length Lace => Sewn + (2 * Ends) + Sides.Aggregate(Length.Zero, (sum, s) => sum + AtCorner(s.Turn));

    /// <summary>By how much the free edge is longer at a corner; below zero it is shorter.</summary>
    public Length Gain(decimal turn) => (2 * Width).Times(Math.Tan(Curves.Radians(Within ? -turn : turn) / 2));

    /// <summary>What a corner adds to the lace.</summary>
    public Length AtCorner(decimal turn)
    {
        var gain = Gain(turn);
        return (gain > Length.Zero ? gain : Length.Zero) + (turn == 0 ? Length.Zero : (2 * Seam).Times(1 / Math.Cos(Curves.Radians(turn) / 2)));
    }

    /// <summary>Along the mitre, from edge to edge.</summary>
    public Length Mitre(decimal turn) => Width.Times(1 / Math.Cos(Curves.Radians(turn) / 2));

    /// <summary>The free edge of a side, from mitre to mitre.</summary>
    /// <param name="side">From 0.</param>
    public Length FreeOf(int side)
    {
        var before = side > 0 ? Sides[side - 1].Turn : Sides[^1].Turn;
        return Sides[side].Length + (Gain(before) + Gain(Sides[side].Turn)).DividedBy(2);
    }
}
