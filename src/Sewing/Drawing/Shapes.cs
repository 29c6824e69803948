namespace HeirloomArchive.Sewing.Drawing;

/// <summary>What a shape or a label stands for; each renderer gives it its look, told apart without colour too.</summary>
public enum Ink
{
    /// <summary>The ground the drawing lies on.</summary>
    Ground,

    /// <summary>Cloth, seen from the right side.</summary>
    Cloth,

    /// <summary>Cloth outside the seam line.</summary>
    Allowance,

    /// <summary>Flat cloth that a tuck or a pleat will take up.</summary>
    TakenUp,

    /// <summary>A tuck or a pleat as it lies when sewn.</summary>
    Tuck,

    /// <summary>Lace, insertion or entredeux.</summary>
    Lace,

    /// <summary>Where to cut.</summary>
    CutEdge,

    /// <summary>A fold.</summary>
    Fold,

    /// <summary>A fold where there are too many for a broad line.</summary>
    FoldFine,

    /// <summary>A line of stitching.</summary>
    Stitching,

    /// <summary>The line that all is measured from, or any line of measure.</summary>
    Datum,

    /// <summary>The number of a fold, or of a part.</summary>
    Number,

    /// <summary>The number of a stitching line.</summary>
    StitchNumber,

    /// <summary>What a drawing or a part of it is.</summary>
    Caption,
}

/// <summary>Which point of a text stands at its place.</summary>
public enum Anchor
{
    /// <summary>Its first letter.</summary>
    Start,

    /// <summary>Its middle.</summary>
    Middle,

    /// <summary>Its last letter.</summary>
    End,
}

/// <summary>One thing drawn. All lengths are millimetres of the drawing, x to the right, y downwards.</summary>
/// <param name="Ink">What it stands for.</param>
public abstract record Shape(Ink Ink);

/// <summary>A rectangle, filled.</summary>
public sealed record Box(double X, double Y, double Width, double Height, Ink Ink) : Shape(Ink);

/// <summary>A straight line.</summary>
public sealed record Stroke(double X1, double Y1, double X2, double Y2, Ink Ink) : Shape(Ink);

/// <summary>A line through points, or with <paramref name="Filled"/> the area they enclose. Curves come as points close enough to look round.</summary>
/// <param name="Points">Two or more.</param>
/// <param name="Ink">What it stands for.</param>
/// <param name="Filled">Closed and filled instead of drawn as a line.</param>
public sealed record Outline(IReadOnlyList<(double X, double Y)> Points, Ink Ink, bool Filled = false) : Shape(Ink);

/// <summary>A text on one line; <c>Size</c> is its height in mm, <c>Y</c> its baseline.</summary>
public sealed record Label(double X, double Y, string Text, Ink Ink, double Size = 2.4, Anchor Anchor = Anchor.Middle) : Shape(Ink);

/// <summary>One strip of a diagram, drawn in millimetres of the paper from its upper left corner.</summary>
/// <param name="Width">In mm.</param>
/// <param name="Height">In mm.</param>
/// <param name="Shapes">In the order they are drawn, the covered first.</param>
public sealed record Panel(double Width, double Height, IReadOnlyList<Shape> Shapes);
