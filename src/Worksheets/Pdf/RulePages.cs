using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The folding rule: every fold and stitching line at true size along one edge, in as many pieces as the paper asks.</summary>
internal sealed class RulePages
{
    private const double RuleTop = 6, RuleHeight = 42, FoldLine = 17, StitchLine = 12, FirstRow = 21, RowHeight = 3, LabelSize = 2.3;
    private const int Rows = 6;

    private static readonly XPen Cut = new(Sheet.Quiet, 0.6) { DashPattern = [5, 3.5] }, End = new(Sheet.Ink, 1.6),
        Fold = new(Sheet.Ink, 0.5), Follow = new(Sheet.Ink, 0.3), Datum = new(Sheet.Accent, 1), Register = new(Sheet.Accent, 0.4),
        Stitching = new(PanelDrawing.Thread, 0.4) { DashPattern = [3, 2] }, Lace = new(Sheet.Quiet, 0.5) { DashPattern = [1.2, 1.6] };

    private readonly Sheet sheet;
    private readonly double stretch, before, length;
    private readonly IReadOnlyList<Mark> marks;
    private readonly IReadOnlyList<(double From, double To)> pieces;

    private sealed record Mark(double At, XPen Pen, double Long, string Label, bool Strong);

    public RulePages(Sheet sheet, JsonObject result, double stretch)
    {
        (this.sheet, this.stretch) = (sheet, stretch);
        before = result["piece"]!["startEdge"].Mm();
        length = result["piece"]!["along"].Mm();
        marks = [.. Marks(result).OrderBy(m => m.At)];
        pieces = TrueSize.Pieces(length, sheet.Paper.Room / stretch);
    }

    public void Write(Worksheet worksheet)
    {
        sheet.NewPage();
        var top = sheet.Y;
        sheet.Heading(T("Folding rule"));
        sheet.Text(
            DrawnTuck.All(worksheet.Result).Any(t => t.TwinNeedle)
                ? T("Check the 50 mm mark below with a ruler first. Cut the pieces out along the broken lines, lay each over the next until the register marks (R) cover one another, and paste. Lay the upper edge on the cloth with the thick end at its cut edge, and mark: a solid line is a fold (a thin one the line to follow with the twin needle), a broken one is stitching. Where lines stand too close for every number only some carry theirs.")
                : T("Check the 50 mm mark below with a ruler first. Cut the pieces out along the broken lines, lay each over the next until the register marks (R) cover one another, and paste. Lay the upper edge on the cloth with the thick end at its cut edge, and mark: a solid line is a fold, a broken one is stitching. Where lines stand too close for every number only some carry theirs."),
            Fonts.Body(10), Sheet.Ink, after: 4);
        GaugePage.Mark(sheet, 50, stretch, "50 mm");
        sheet.Y = top + Sheet.Mm(TrueSize.PieceHeight);
        for (var i = 0; i < pieces.Count; i++)
        {
            // The first page holds one piece fewer; the others are filled from the top.
            if ((i + 1) % TrueSize.PerPage(sheet.Paper) == 0)
            {
                sheet.NewPage();
            }

            Piece(i);
            sheet.Gap(Sheet.Mm(TrueSize.PieceHeight));
        }
    }

    private IEnumerable<Mark> Marks(JsonObject result)
    {
        foreach (var tuck in DrawnTuck.All(result))
        {
            yield return new Mark(before + tuck.First, Stitching, StitchLine, $"{tuck.Tuck}a", false);
            yield return new Mark(before + tuck.Fold, tuck.TwinNeedle ? Follow : Fold, FoldLine, $"{tuck.Tuck}", true);
            yield return new Mark(before + tuck.Second, Stitching, StitchLine, $"{tuck.Tuck}b", false);
        }

        foreach (var insertion in DrawnInsertion.All(result))
        {
            yield return new Mark(before + insertion.From, Lace, FoldLine, insertion.LaidOn ? $"{insertion.Name}a" : T($"{insertion.Name} cut"), true);
            if (insertion.LaidOn)
            {
                yield return new Mark(before + insertion.To, Lace, FoldLine, $"{insertion.Name}b", true);
            }
        }

        if (result["datum"]!["flat"].Mm() is var datum && datum > 0)
        {
            yield return new Mark(before + datum, Datum, RuleHeight - 3, T("centre"), true);
        }
    }

    private void Piece(int index)
    {
        var (from, to) = pieces[index];
        var (left, top) = (sheet.Left, sheet.Y + Sheet.Mm(RuleTop));
        var (width, bottom) = (Along(to - from), top + Sheet.Mm(RuleHeight));
        double X(double at) => left + Along(at - from);
        var here = marks.Where(m => m.At >= from - 1e-9 && m.At <= to + 1e-9).ToList();
        var name = T($"Folding rule, piece {index + 1} of {pieces.Count}: {from.Invariant("0.#")} mm to {to.Invariant("0.#")} mm from the cut edge at the start");
        sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, N(
            here.Count,
            $"{name}, {here.Count} line, at true size. Every position is in the table.",
            $"{name}, {here.Count} lines, at true size. Every position is in the table."), new XRect(left, sheet.Y, sheet.Width, Sheet.Mm(RuleTop + RuleHeight)));
        sheet.Write(name, Fonts.Bold(8.5), Sheet.Ink, left, sheet.Y + 2);
        sheet.Graphics.DrawRectangle(Cut, left, top, width, bottom - top);
        if (index == 0)
        {
            sheet.Graphics.DrawLine(End, left, top, left, bottom);
        }

        foreach (var mark in here)
        {
            sheet.Graphics.DrawLine(mark.Pen, X(mark.At), top, X(mark.At), top + Sheet.Mm(mark.Long));
        }

        Labels(here, X, top, left, left + width);
        foreach (var (at, joint) in TrueSize.RegisterMarks(pieces, index))
        {
            Cross(X(at), bottom - Sheet.Mm(4), $"R{joint}");
        }

        sheet.Tags.End();
    }

    /// <summary>Each number in the first row where it touches no other; left out where there is none.</summary>
    private void Labels(List<Mark> here, Func<double, double> x, double top, double left, double right)
    {
        var free = new double[Rows];
        foreach (var mark in here.OrderByDescending(m => m.Strong).ThenBy(m => m.At))
        {
            var font = mark.Strong ? Fonts.Bold(Sheet.Mm(LabelSize)) : Fonts.Body(Sheet.Mm(LabelSize));
            var width = sheet.Measure(mark.Label, font);
            var at = Math.Clamp(x(mark.At), left + (width / 2) + 1, Math.Max(left + (width / 2) + 1, right - (width / 2) - 1));

            // Folds have the first two rows for themselves, so that their numbers are never crowded out.
            for (var row = mark.Strong ? 0 : 2; row < (mark.Strong ? 2 : Rows); row++)
            {
                if (at - (width / 2) >= free[row])
                {
                    free[row] = at + (width / 2) + 1.5;
                    sheet.Write(mark.Label, font, mark.Strong ? Sheet.Ink : PanelDrawing.Thread, at, top + Sheet.Mm(FirstRow - 3 + (row * RowHeight)), align: 0.5);
                    break;
                }
            }
        }
    }

    /// <summary>Stands on two pieces at the same place of the cloth.</summary>
    private void Cross(double x, double y, string name)
    {
        var arm = Sheet.Mm(2);
        sheet.Graphics.DrawLine(Register, x - arm, y, x + arm, y);
        sheet.Graphics.DrawLine(Register, x, y - arm, x, y + arm);
        sheet.Write(name, Fonts.Body(6), Sheet.Accent, x + 1, y - 8);
    }

    /// <summary>A length of cloth on her paper, in points.</summary>
    private double Along(double millimetres) => Sheet.Mm(millimetres) * stretch;
}
