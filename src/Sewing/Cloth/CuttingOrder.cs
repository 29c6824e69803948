namespace HeirloomArchive.Sewing.Cloth;

/// <summary>A shape to cut, its length along the warp.</summary>
/// <param name="Name">In her words.</param>
/// <param name="Length">Along the warp.</param>
/// <param name="Width">Along the weft.</param>
/// <param name="Count">How many.</param>
public sealed record CutPiece(string Name, Length Length, Length Width, int Count);

/// <summary>A piece laid on the cloth.</summary>
/// <param name="Piece">What it is.</param>
/// <param name="Row">From the cut end of the cloth, from 1.</param>
/// <param name="FromEnd">From the cut end of the cloth to the piece.</param>
/// <param name="FromEdge">From the usable edge of the cloth to the piece.</param>
public sealed record LaidPiece(CutPiece Piece, int Row, Length FromEnd, Length FromEdge);

/// <summary>
/// Pieces laid on a cloth on the straight grain, in rows across it: the longest first, of equal length the widest;
/// each goes into the first row that has room, or begins a new row of its own length. Simple and easy to cut; not always the least cloth.
/// </summary>
/// <param name="Usable">Width of the cloth without its selvages.</param>
/// <param name="Laid">In the order they are laid and cut.</param>
public sealed record CuttingOrder(Length Usable, IReadOnlyList<LaidPiece> Laid)
{
    /// <summary>Along the cloth, all rows.</summary>
    public Length Cloth => Laid.Select(l => l.FromEnd + l.Piece.Length).Max();

    /// <summary>How much of the usable cloth the pieces cover, in per cent to two places.</summary>
    public decimal Covered => decimal.Round(
        100m * Laid.Sum(l => l.Piece.Length.Millimetres * l.Piece.Width.Millimetres) / (Cloth.Millimetres * Usable.Millimetres), 2);

    /// <summary>No layout can do with less: the pieces' area over the usable width, and the longest piece.</summary>
    public Length Least
    {
        get
        {
            var byArea = Length.FromMillimetres(Laid.Sum(l => l.Piece.Length.Millimetres * l.Piece.Width.Millimetres) / Usable.Millimetres);
            var longest = Laid.Max(l => l.Piece.Length);
            return byArea > longest ? byArea : longest;
        }
    }

    /// <summary>Lays the pieces.</summary>
    /// <param name="usable">Width of the cloth without its selvages, at least as wide as each piece.</param>
    /// <param name="pieces">At least one.</param>
    /// <exception cref="ArgumentException">A piece is wider than the cloth.</exception>
    public static CuttingOrder Lay(Length usable, IEnumerable<CutPiece> pieces)
    {
        var rows = new List<(Length FromEnd, Length Filled)>();
        var laid = new List<LaidPiece>();
        var end = Length.Zero;
        foreach (var piece in pieces.OrderByDescending(p => p.Length).ThenByDescending(p => p.Width).SelectMany(p => Enumerable.Repeat(p, p.Count)))
        {
            if (piece.Width > usable)
            {
                throw new ArgumentException("A piece is wider than the cloth.", nameof(pieces));
            }

            var row = rows.FindIndex(r => r.Filled + piece.Width <= usable);
            if (row < 0)
            {
                row = rows.Count;
                rows.Add((end, Length.Zero));
                end += piece.Length;
            }

            laid.Add(new(piece, row + 1, rows[row].FromEnd, rows[row].Filled));
            rows[row] = (rows[row].FromEnd, rows[row].Filled + piece.Width);
        }

        return new(usable, [.. laid.OrderBy(l => l.Row)]);
    }
}
