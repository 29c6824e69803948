using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The table of positions: a row a tuck, its heading again on every page.</summary>
internal static class PositionsTable
{
    private const double RowHeight = 23, LineHeight = 11;

    public static void Write(Sheet sheet, JsonObject result)
    {
        var table = result["positions"]!;
        sheet.Heading(T("Where every line falls"), keepWith: 140);
        sheet.Text(table["text"].Text(), Fonts.Body(10), Sheet.Ink, after: 8);
        var columns = Columns(sheet);
        var unit = table["unit"].Text() == "mm" ? "mm" : "in";
        sheet.Tags.BeginElement(Tag.Table);
        var isTwin = DrawnTuck.All(result).All(t => t.TwinNeedle);
        Head(sheet, table, columns, isTwin, first: true);
        var row = 0;
        foreach (var tuck in table["rows"].Each().Concat(table["insertions"].Each()).OrderBy(r => r["section"].Whole()))
        {
            if (sheet.Need(RowHeight))
            {
                Head(sheet, table, columns, isTwin, first: false);
            }

            Row(sheet, tuck, columns, unit, ++row);
        }

        sheet.Tags.End();
        sheet.Gap(4);
    }

    /// <summary>Right edges of the ten columns: tuck, width, three lines twice, and two when sewn.</summary>
    private static double[] Columns(Sheet sheet)
    {
        double[] parts = [0.8, 1.1, 1.2, 1.2, 1.2, 1.25, 1.2, 1.2, 1.25, 1.2];
        var unit = sheet.Width / parts.Sum();
        var x = sheet.Left;
        return [.. parts.Select(p => x += p * unit)];
    }

    /// <summary>Two rows of headings, read out once: again on a further page they are only seen.</summary>
    private static void Head(Sheet sheet, JsonNode table, double[] columns, bool isTwin, bool first)
    {
        var (y, font) = (sheet.Y, Fonts.Bold(8.5));
        (double Right, int Columns, IReadOnlyList<string> Lines)[] upper =
            [Over(0, 2, ""), Over(2, 3, table["fromDatum"].Text()), Over(5, 3, table["fromCutEdge"].Text()), Over(8, 2, table["sewn"].Text())];
        var names = y + 6 + (upper.Max(o => o.Lines.Count) * LineHeight);
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawRoundedRectangle(new XSolidBrush(Sheet.Ground), sheet.Left, y, sheet.Width, names + 14 - y, 6, 6);
        if (first)
        {
            sheet.Tags.End();
        }

        Begin(Tag.TableRow);
        foreach (var (right, over, lines) in upper)
        {
            Begin(Tag.TableHeaderCell);
            Scope("/Column");
            if (first)
            {
                sheet.Tags.SetColSpan(over);
            }

            for (var i = 0; i < lines.Count; i++)
            {
                sheet.Write(lines[i], font, Sheet.Accent, right, y + 4 + (i * LineHeight), align: 1);
            }

            End();
        }

        End();
        Begin(Tag.TableRow);
        var middle = isTwin ? T("to follow") : T("fold");
        string[] lower = [T("tuck"), T("width"), "a", middle, "b", "a", middle, "b", T("stitching"), isTwin ? T("middle") : T("fold")];
        for (var i = 0; i < lower.Length; i++)
        {
            Begin(Tag.TableHeaderCell);
            Scope("/Column");
            sheet.Write(lower[i], font, Sheet.Quiet, columns[i] - 4, names, align: 1);
            End();
        }

        End();
        if (!first)
        {
            sheet.Tags.End();
        }

        sheet.Y = names + 16;

        // A heading over so many columns, from the first of them on.
        (double Right, int Columns, IReadOnlyList<string> Lines) Over(int from, int over, string text)
        {
            var right = columns[from + over - 1] - 4;
            return (right, over, sheet.Wrap(text, font, right - (from == 0 ? sheet.Left : columns[from - 1]) - 6));
        }

        void Scope(string scope)
        {
            if (first)
            {
                sheet.Scope(scope);
            }
        }

        void Begin(Tag tag)
        {
            if (first)
            {
                sheet.Tags.BeginElement(tag);
            }
        }

        void End()
        {
            if (first)
            {
                sheet.Tags.End();
            }
        }
    }

    private static void Row(Sheet sheet, JsonObject tuck, double[] columns, string unit, int row)
    {
        var (y, beside) = (sheet.Y, unit == "mm" ? "in" : "mm");
        var given = tuck["lines"].Each().ToList();

        // An insertion has its two edges under a and b, or under a alone where the cloth is cut.
        JsonObject?[] lines = [given[0], given.Count == 3 ? given[1] : null, given.Count == 1 ? null : given[^1]];
        var insertion = tuck["insertion"] is not null;
        (string Text, string Beside)[] cells =
        [
            (insertion ? $"L{tuck["insertion"].Text()}" : tuck["tuck"].Text(), ""), (Bare(tuck["width"], unit), ""),
            .. lines.Select(l => (Bare(l?["fromDatum"], unit), Bare(l?["fromDatumBeside"], beside))),
            .. lines.Select(l => (Bare(l?["fromCutEdge"], unit), Bare(l?["fromCutEdgeBeside"], beside))),
            (Bare(tuck["sewnStitching"] ?? tuck["sewnFrom"], unit), ""), (Bare(tuck["sewnFold"] ?? tuck["sewnTo"], unit), ""),
        ];
        sheet.Tags.BeginElement(Tag.TableRow);
        for (var i = 0; i < cells.Length; i++)
        {
            var fold = i is 0 or 3 or 6;
            sheet.Tags.BeginElement(i == 0 ? Tag.TableHeaderCell : Tag.TableDataCell);
            if (i == 0)
            {
                sheet.Scope("/Row");
            }

            Cell(cells[i].Text, fold ? Fonts.Bold : Fonts.Body, 9.5, Sheet.Ink, y, i);
            Cell(cells[i].Beside, Fonts.Body, 7.5, Sheet.Quiet, y + 11, i);
            sheet.Tags.End();
        }

        sheet.Tags.End();
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawLine(new XPen(Sheet.Rule, row % 5 == 0 ? 1 : 0.3), sheet.Left, y + RowHeight - 1, sheet.Right, y + RowHeight - 1);
        sheet.Tags.End();
        sheet.Y = y + RowHeight;

        // A long number is set smaller, on the same line.
        void Cell(string text, Func<double, XFont> face, double size, XColor color, double top, int column)
        {
            var font = sheet.Fitting(text, face, size, columns[column] - (column == 0 ? sheet.Left : columns[column - 1]) - 6);
            sheet.Write(text, font, color, columns[column] - 4, top + ((size - font.Size) * Sheet.Baseline), align: 1);
        }
    }

    /// <summary>The number without the unit that is told above the table; with its own where that is another, as she may type an insertion's.</summary>
    private static string Bare(JsonNode? length, string unit) =>
        length.Text() is var text && text.EndsWith($" {unit}", StringComparison.Ordinal) ? text[..^(unit.Length + 1)] : text;
}
