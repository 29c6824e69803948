using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The last page: control marks and gauges, all at true size.</summary>
internal sealed class GaugePage(Sheet sheet, Printer? printer)
{
    private const double CardHeight = 78, NotchDepth = 7, NotchHalf = 1.7, Beyond = 40;

    private static readonly XPen Thin = new(Sheet.Ink, 0.6), Cut = new(Sheet.Quiet, 0.6) { DashPattern = [5, 3.5] }, Register = new(Sheet.Accent, 0.4);

    private readonly double stretch = printer?.Stretch() ?? 1;

    public void Write(JsonObject result)
    {
        var gauges = result["gauges"].Each().ToList();
        sheet.NewPage();
        sheet.Heading(T("Is it true size?"));
        sheet.Text(
            T("Print at 100 % (“actual size”, no fitting to the page). Then lay a ruler on both marks. If either measures differently, do not use the gauge: mend the printer's setting and print again, or enter what the 50 mm mark measures and take a print made for that printer, or work from the table with a ruler. The table is right either way."),
            Fonts.Body(10), Sheet.Ink, after: 8);
        if (printer is not null)
        {
            sheet.Text(T($"Drawn for “{printer.Name}”, on which the 50 mm mark measured {printer.Typed}; on another printer it is not true."), Fonts.Bold(10), Sheet.Ink, after: 8);
        }

        Mark(sheet, 50, stretch, "50 mm");
        Mark(sheet, 50.8, stretch, "2 in");
        if (gauges.Count > 0)
        {
            sheet.Heading(gauges.Count == 1 ? T("Gauge") : T("Gauges"));
        }

        foreach (var text in result["gaugeText"].Texts())
        {
            sheet.Text(text, Fonts.Body(10), Sheet.Ink, after: 3);
        }

        foreach (var gauge in gauges)
        {
            Card(gauge);
        }
    }

    /// <summary>A length to check the print by, with a tick at either end.</summary>
    public static void Mark(Sheet sheet, double millimetres, double stretch, string name)
    {
        var (x, length, y) = (sheet.Left, Sheet.Mm(millimetres) * stretch, sheet.Y + 8);
        sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, T($"Control mark: {name} long."), new XRect(x, sheet.Y, length, 16));
        sheet.Graphics.DrawLine(Thin, x, y, x + length, y);
        sheet.Graphics.DrawLine(Thin, x, y - 6, x, y + 6);
        sheet.Graphics.DrawLine(Thin, x + length, y - 6, x + length, y + 6);
        sheet.Write(T($"this line is {name} long"), Fonts.Body(9.5), Sheet.Ink, x + length + 10, y - 6);
        sheet.Tags.End();
        sheet.Gap(26);
    }

    private void Card(JsonObject gauge)
    {
        var notches = gauge["notches"].Each().ToList();
        var longest = notches.Max(n => n["at"].Mm());
        var length = Math.Max(longest + (Beyond / Sheet.Mm(stretch)), 60);
        sheet.Need(CardHeight + 40 + (notches.Count * 14));
        sheet.Gap(8);
        sheet.Text(gauge["title"].Text(), Fonts.Bold(10.5), Sheet.Ink, after: 5);
        if (length > TrueSize.LongestUnasked)
        {
            sheet.Text(T("This gauge would be longer than 3 m of paper: mark these from the table with a ruler."), Fonts.Body(10), Sheet.Ink, after: 4);
        }
        else
        {
            var pieces = TrueSize.Pieces(length, sheet.Paper.Room / stretch);
            if (pieces.Count > 1)
            {
                sheet.Text(T($"This gauge is longer than the paper: paste its {pieces.Count} pieces together, register mark (R) on register mark, before you cut the notches."), Fonts.Body(10), Sheet.Ink, after: 4);
            }

            for (var i = 0; i < pieces.Count; i++)
            {
                sheet.Need(CardHeight + 12);
                Draw(gauge, notches, pieces, i);
            }
        }

        sheet.List(() =>
        {
            foreach (var notch in notches)
            {
                sheet.Entry(notch["letter"].Text(), notch["text"].Text());
            }
        });
    }

    private void Draw(JsonObject gauge, List<JsonObject> notches, IReadOnlyList<(double From, double To)> pieces, int index)
    {
        var (from, to) = pieces[index];
        var (x, y, bottom, length) = (sheet.Left, sheet.Y, sheet.Y + CardHeight, True(to - from));
        double X(double at) => x + True(at - from);
        var title = gauge["title"].Text();
        var alt = pieces.Count == 1 ? T($"{title}, at true size.") : T($"{title}, piece {index + 1} of {pieces.Count}, at true size.");
        sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, alt, new XRect(x, y, length, CardHeight));
        sheet.Graphics.DrawRectangle(Cut, x, y, length, CardHeight);

        // The first notch has the longest line, so that no letter stands on the line of the next.
        var places = notches.GroupBy(n => n["at"].Mm()).OrderBy(g => g.Key).ToList();
        for (var i = 0; i < places.Count; i++)
        {
            var place = places[i];
            if (place.Key < from - 1e-9 || place.Key > to + 1e-9)
            {
                continue;
            }

            var at = X(place.Key);
            var foot = y + NotchDepth + 12 + (Math.Min(places.Count - 1 - i, 3) * 13);
            sheet.Graphics.DrawLine(Thin, at, y, at, foot);
            var half = Math.Min(NotchHalf, Math.Min(at - x, x + length - at));
            sheet.Graphics.DrawPolygon(Thin, XBrushes.White,
                [new XPoint(at - half, y), new XPoint(at, y + NotchDepth), new XPoint(at + half, y)], XFillMode.Winding);
            sheet.Write(string.Join(" ", place.Select(n => n["letter"].Text())), Fonts.Bold(9), Sheet.Accent, at + 2, foot - 9);
        }

        foreach (var (at, joint) in TrueSize.RegisterMarks(pieces, index))
        {
            sheet.Graphics.DrawLine(Register, X(at) - 5, bottom - 26, X(at) + 5, bottom - 26);
            sheet.Graphics.DrawLine(Register, X(at), bottom - 31, X(at), bottom - 21);
            sheet.Write($"R{joint}", Fonts.Body(6), Sheet.Accent, X(at) + 1, bottom - 34);
        }

        if (index == 0)
        {
            sheet.Graphics.DrawLine(new XPen(Sheet.Ink, 1.6), x, y, x, bottom);
            sheet.Write(T("this end on the line you measure from"), Fonts.Body(7.5), Sheet.Quiet, x + 5, bottom - 12);
        }

        sheet.Tags.End();
        sheet.Y = bottom + 8;
    }

    /// <summary>A true length on her paper, in points.</summary>
    private double True(double millimetres) => Sheet.Mm(millimetres) * stretch;
}
