using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The table of positions: a row a tuck, its heading again on every page.</summary>
internal static class PositionsTable
{
    private const double RowHeight = 23, HeadHeight = 42;

    public static void Write(Sheet sheet, JsonObject result)
    {
        var table = result["positions"]!;
        sheet.Heading(T("Where every line falls"), keepWith: HeadHeight + 80);
        sheet.Text(table["text"].Text(), Fonts.Body(10), Sheet.Ink, after: 8);
        var columns = Columns(sheet);
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

            Row(sheet, tuck, columns, ++row);
        }

        sheet.Tags.End();
        sheet.Gap(4);
    }

    /// <summary>Right edges of the nine columns: tuck, width, three lines twice, and two when sewn.</summary>
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
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawRoundedRectangle(new XSolidBrush(Sheet.Ground), sheet.Left, y, sheet.Width, HeadHeight, 6, 6);
        if (first)
        {
            sheet.Tags.End();
        }

        Begin(Tag.TableRow);
        Over(0, "", 2);
        Over(1, table["fromDatum"].Text(), 3);
        Over(4, table["fromCutEdge"].Text(), 3);
        Over(7, table["sewn"].Text(), 2);
        End();
        Begin(Tag.TableRow);
        var middle = isTwin ? T("to follow") : T("fold");
        string[] names = [T("tuck"), T("width"), "a", middle, "b", "a", middle, "b", T("stitching"), isTwin ? T("middle") : T("fold")];
        for (var i = 0; i < names.Length; i++)
        {
            Begin(Tag.TableHeaderCell);
            Scope("/Column");
            sheet.Write(names[i], font, Sheet.Quiet, columns[i] - 4, y + 28, align: 1);
            End();
        }

        End();
        if (!first)
        {
            sheet.Tags.End();
        }

        sheet.Y = y + HeadHeight + 2;

        void Over(int before, string text, int columnsOver)
        {
            Begin(Tag.TableHeaderCell);
            Scope("/Column");
            if (first)
            {
                sheet.Tags.SetColSpan(columnsOver);
            }

            var to = columns[before == 0 ? 1 : before + columnsOver] - 4;
            var lines = sheet.Wrap(text, font, to - columns[before] - 6);
            for (var i = 0; i < lines.Count && i < 2; i++)
            {
                sheet.Write(lines[i], font, Sheet.Accent, to, y + 4 + (i * 11), align: 1);
            }

            End();
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

    private static void Row(Sheet sheet, JsonObject tuck, double[] columns, int row)
    {
        var (y, plain, bold, small) = (sheet.Y, Fonts.Body(9.5), Fonts.Bold(9.5), Fonts.Body(7.5));
        var given = tuck["lines"].Each().ToList();

        // An insertion has its two edges under a and b, or under a alone where the cloth is cut.
        JsonObject?[] lines = [given[0], given.Count == 3 ? given[1] : null, given.Count == 1 ? null : given[^1]];
        var insertion = tuck["insertion"] is not null;
        (string Text, string Beside)[] cells =
        [
            (insertion ? $"L{tuck["insertion"].Text()}" : tuck["tuck"].Text(), ""), (Bare(tuck["width"]), ""),
            .. lines.Select(l => (Bare(l?["fromDatum"]), Bare(l?["fromDatumBeside"]))),
            .. lines.Select(l => (Bare(l?["fromCutEdge"]), Bare(l?["fromCutEdgeBeside"]))),
            (Bare(tuck["sewnStitching"] ?? tuck["sewnFrom"]), ""), (Bare(tuck["sewnFold"] ?? tuck["sewnTo"]), ""),
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

            sheet.Write(cells[i].Text, fold ? bold : plain, Sheet.Ink, columns[i] - 4, y, align: 1);
            sheet.Write(cells[i].Beside, small, Sheet.Quiet, columns[i] - 4, y + 11, align: 1);
            sheet.Tags.End();
        }

        sheet.Tags.End();
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawLine(new XPen(Sheet.Rule, row % 5 == 0 ? 1 : 0.3), sheet.Left, y + RowHeight - 1, sheet.Right, y + RowHeight - 1);
        sheet.Tags.End();
        sheet.Y = y + RowHeight;
    }

    /// <summary>The number without its unit, which the heading of the section names.</summary>
    private static string Bare(JsonNode? length)
    {
        var text = length.Text();
        var unit = text.LastIndexOf(' ');
        return unit > 0 && char.IsLetter(text[^1]) ? text[..unit] : text;
    }
}
