namespace HeirloomArchive.Worksheets.Drawing;

/// <summary>What a stroke, a box or a label stands for; each renderer gives it its look.</summary>
internal enum Ink
{
    Ground,
    Cloth,
    Allowance,
    TakenUp,
    Tuck,
    CutEdge,
    Fold,
    FoldFine,
    Stitching,
    Datum,
    Number,
    StitchNumber,
    Caption,
}

internal enum Anchor
{
    Start,
    Middle,
    End,
}

internal abstract record Shape(Ink Ink);

internal sealed record Box(double X, double Y, double Width, double Height, Ink Ink) : Shape(Ink);

internal sealed record Stroke(double X1, double Y1, double X2, double Y2, Ink Ink) : Shape(Ink);

/// <summary>A text on one line; <c>Size</c> is its height in mm, <c>Y</c> its baseline.</summary>
internal sealed record Label(double X, double Y, string Text, Ink Ink, double Size = 2.4, Anchor Anchor = Anchor.Middle) : Shape(Ink);

/// <summary>One strip of a diagram, drawn in millimetres of the paper from its upper left corner.</summary>
internal sealed record Panel(double Width, double Height, IReadOnlyList<Shape> Shapes);
