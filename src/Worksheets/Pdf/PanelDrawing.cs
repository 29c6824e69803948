using HeirloomArchive.Sewing.Drawing;
using PdfSharp.Drawing;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>Draws a strip of the diagram on the sheet, at its size.</summary>
internal static class PanelDrawing
{
    public static void Draw(Sheet sheet, Panel panel)
    {
        var (left, top) = (sheet.Left, sheet.Y);
        foreach (var shape in panel.Shapes)
        {
            switch (shape)
            {
                case Box { Ink: Ink.Ground } b:
                    sheet.Graphics.DrawRoundedRectangle(Fill(b.Ink), left + P(b.X), top + P(b.Y), P(b.Width), P(b.Height), 8, 8);
                    break;
                case Box { Ink: Ink.Lace } b:
                    sheet.Graphics.DrawRectangle(new XPen(LaceEdge, 0.6) { DashPattern = [1, 1.6] }, Fill(b.Ink), left + P(b.X), top + P(b.Y), P(b.Width), P(b.Height));
                    break;
                case Box b:
                    sheet.Graphics.DrawRectangle(Fill(b.Ink), left + P(b.X), top + P(b.Y), P(b.Width), P(b.Height));
                    break;
                case Stroke s:
                    sheet.Graphics.DrawLine(Pen(s.Ink), left + P(s.X1), top + P(s.Y1), left + P(s.X2), top + P(s.Y2));
                    break;
                case Label t:
                    var font = t.Ink == Ink.Number ? Fonts.Bold(P(t.Size)) : Fonts.Body(P(t.Size));
                    var align = t.Anchor switch { Anchor.Start => 0, Anchor.Middle => 0.5, _ => 1 };
                    sheet.Write(t.Text, font, Colour(t.Ink), left + P(t.X), top + P(t.Y) - (font.Size * Sheet.Baseline), align);
                    break;
            }
        }
    }

    /// <summary>Lines of stitching and their numbers.</summary>
    public static readonly XColor Thread = XColor.FromArgb(0x9c, 0x42, 0x21);

    private static readonly XColor LaceEdge = XColor.FromArgb(0x8a, 0x7a, 0x5c);

    private static double P(double millimetres) => Sheet.Mm(millimetres);

    private static XSolidBrush Fill(Ink ink) => new(Colour(ink));

    private static XColor Colour(Ink ink) => ink switch
    {
        Ink.Ground => Sheet.Ground,
        Ink.Cloth => XColors.White,
        Ink.Allowance => XColor.FromArgb(0xef, 0xe7, 0xd8),
        Ink.TakenUp => XColor.FromArgb(0xee, 0xf3, 0xf5),
        Ink.Lace => XColor.FromArgb(0xf4, 0xef, 0xe6),
        Ink.Tuck => XColor.FromArgb(0xe3, 0xeb, 0xee),
        Ink.CutEdge => Sheet.Quiet,
        Ink.Stitching or Ink.StitchNumber => Thread,
        Ink.Datum => Sheet.Accent,
        Ink.Caption => Sheet.Quiet,
        _ => Sheet.Ink,
    };

    private static XPen Pen(Ink ink) => ink switch
    {
        Ink.Stitching => new XPen(Colour(ink), 0.8) { DashPattern = [4, 2.6] },
        Ink.CutEdge => new XPen(Colour(ink), 0.8) { DashPattern = [1.2, 2.4] },
        Ink.FoldFine => new XPen(Colour(ink), 0.4),
        Ink.Datum => new XPen(Colour(ink), 1.4),
        _ => new XPen(Colour(ink), 1.1),
    };
}
