using System.Text.Json.Nodes;
using PdfSharp.Drawing;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>The table of positions: a row a tuck, its heading again on every page.</summary>
internal static class PositionsTable
{
    private const double RowHeight = 15, HeadHeight = 42;

    private static readonly string[] LineNames = ["a", "fold", "b"];

    public static void Write(Sheet sheet, JsonObject result)
    {
        var table = result["positions"]!;
        sheet.Heading("Where every line falls", keepWith: HeadHeight + 80);
        sheet.Text(table["text"].Text(), Fonts.Body(10), Sheet.Ink, after: 8);
        var columns = Columns(sheet);
        sheet.Tags.BeginElement(Tag.Table);
        Head(sheet, table, columns);
        var row = 0;
        foreach (var tuck in table["rows"].Each())
        {
            if (sheet.Need(RowHeight))
            {
                Head(sheet, table, columns);
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

    private static void Head(Sheet sheet, JsonNode table, double[] columns)
    {
        var (y, font) = (sheet.Y, Fonts.Bold(8.5));
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawRoundedRectangle(new XSolidBrush(Sheet.Ground), sheet.Left, y, sheet.Width, HeadHeight, 6, 6);
        sheet.Tags.End();
        sheet.Tags.BeginElement(Tag.TableRow);
        Group(1, 4, table["fromDatum"].Text());
        Group(4, 7, table["fromCutEdge"].Text());
        Group(7, 9, table["sewn"].Text());
        sheet.Tags.End();
        sheet.Tags.BeginElement(Tag.TableRow);
        string[] names = ["tuck", "width", .. LineNames, .. LineNames, "stitching", "fold"];
        for (var i = 0; i < names.Length; i++)
        {
            Cell(sheet, Tag.TableHeaderCell, names[i], font, Sheet.Quiet, columns[i], y + 28);
        }

        sheet.Tags.End();
        sheet.Y = y + HeadHeight + 2;

        void Group(int first, int last, string text)
        {
            sheet.Tags.BeginElement(Tag.TableHeaderCell);
            var (from, to) = (columns[first], columns[last] - 4);
            var width = to - from - 6;
            var lines = sheet.Wrap(text, font, width);
            for (var i = 0; i < lines.Count && i < 2; i++)
            {
                sheet.Write(lines[i], font, Sheet.Accent, to, y + 4 + (i * 11), align: 1);
            }

            sheet.Tags.End();
        }
    }

    private static void Row(Sheet sheet, JsonObject tuck, double[] columns, int row)
    {
        var (y, plain, bold) = (sheet.Y, Fonts.Body(9.5), Fonts.Bold(9.5));
        var lines = tuck["lines"].Each().ToList();
        string[] cells =
        [
            tuck["tuck"].Text(), Bare(tuck["width"]), .. lines.Select(l => Bare(l["fromDatum"])),
            .. lines.Select(l => Bare(l["fromCutEdge"])), Bare(tuck["sewnStitching"]), Bare(tuck["sewnFold"]),
        ];
        sheet.Tags.BeginElement(Tag.TableRow);
        for (var i = 0; i < cells.Length; i++)
        {
            var fold = i is 0 or 3 or 6;
            Cell(sheet, i == 0 ? Tag.TableHeaderCell : Tag.TableDataCell, cells[i], fold ? bold : plain, Sheet.Ink, columns[i], y);
        }

        sheet.Tags.End();
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawLine(new XPen(Sheet.Rule, row % 5 == 0 ? 1 : 0.3), sheet.Left, y + RowHeight - 1, sheet.Right, y + RowHeight - 1);
        sheet.Tags.End();
        sheet.Y = y + RowHeight;
    }

    private static void Cell(Sheet sheet, Tag tag, string text, XFont font, XColor color, double right, double y)
    {
        sheet.Tags.BeginElement(tag);
        sheet.Write(text, font, color, right - 4, y, align: 1);
        sheet.Tags.End();
    }

    /// <summary>The number without its unit, which the heading of the section names.</summary>
    private static string Bare(JsonNode? length)
    {
        var text = length.Text();
        var unit = text.LastIndexOf(' ');
        return unit > 0 && char.IsLetter(text[^1]) ? text[..unit] : text;
    }
}
