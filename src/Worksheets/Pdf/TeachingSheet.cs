using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>A hand-out for a class: the plan in words, the picture without its numbers, blanks to fill in; or the same with the answers.</summary>
internal sealed class TeachingSheet(Sheet sheet, Worksheet worksheet, bool answers, int? pupils)
{
    /// <summary>Rows of the table a class fills in; the rest goes on in the same way.</summary>
    private const int MostRows = 12;

    private static readonly XPen Line = new(Sheet.Rule, 0.8);

    public void Write()
    {
        var result = worksheet.Result;
        sheet.Text(answers ? T("Answers") : T("Hand-out"), Fonts.Bold(9), Sheet.Accent, after: 2);
        sheet.Text(worksheet.Title, Fonts.Name(21), Sheet.Ink, Tag.Heading1, after: 3);
        sheet.Text(result["source"].Text(), Fonts.Body(10), Sheet.Quiet, after: 6);
        if (answers)
        {
            ForTheClass(result);
        }
        else
        {
            Blanks(T("Name"), T("Date"));
        }

        sheet.Heading(T("What is to be made"));
        Texts(result["given"].Texts());
        Picture(result);
        Questions(result);
        Table(result["positions"]!);
        if (!answers)
        {
            sheet.Heading(T("Before you begin"));
            Texts(worksheet.Cautions.Each().Where(c => c["reason"] is not null).Select(c => c["text"].Text()));
        }
    }

    /// <summary>What a class of so many needs.</summary>
    private void ForTheClass(JsonObject result)
    {
        if (pupils is not { } ofClass)
        {
            return;
        }

        var along = result["piece"]!["along"]!;
        var metres = (along.Mm() * ofClass / 1000).Invariant("0.##");
        sheet.Heading(T($"For a class of {ofClass.ToString(CultureInfo.InvariantCulture)}"));
        Texts(
        [
            N(
                ofClass,
                $"{ofClass} hand-out, and {ofClass} piece of cloth {along.Text()} along the row: {metres} m in all.",
                $"{ofClass} hand-outs, and {ofClass} pieces of cloth {along.Text()} along the row: one below the other {metres} m in all."),
            N(
                ofClass,
                $"{ofClass} needle, counted out and counted back in; pins in a box, counted too.",
                $"{ofClass} needles, counted out and counted back in; pins in a box, counted too."),
            T("One gauge each, cut from the worksheet's print."),
        ]);
    }

    private void Texts(IEnumerable<string> texts) => sheet.List(() =>
    {
        foreach (var text in texts)
        {
            sheet.Entry("·", text);
        }
    });

    private void Picture(JsonObject result)
    {
        var panels = Diagram.Panels(result, sheet.Width * 25.4 / 72, onPaper: true);
        sheet.Heading(answers ? T("The picture") : T("The picture: number every fold, and its stitching lines a and b"), keepWith: Sheet.Mm(panels[0].Height));
        foreach (var panel in panels)
        {
            var height = Sheet.Mm(panel.Height);
            sheet.Need(height);
            sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, answers ? WorksheetDiagram.Description(worksheet)
                : T("The lines of the work without their numbers, to be numbered: folds solid, stitching broken."), new XRect(sheet.Left, sheet.Y, sheet.Width, height));
            PanelDrawing.Draw(sheet, answers ? panel : panel with { Shapes = [.. panel.Shapes.Where(s => s is not Label { Ink: Ink.Number or Ink.StitchNumber })] });
            sheet.Tags.End();
            sheet.Gap(height + 6);
        }
    }

    private void Questions(JsonObject result)
    {
        sheet.Heading(T("To find out"));
        var number = 0;
        sheet.List(() =>
        {
            foreach (var asked in result["teaching"].Each())
            {
                sheet.Need(44);
                sheet.Entry($"{++number}", asked["question"].Text(), answers ? $"{asked["answer"].Text()} {asked["working"].Text()}".Trim() : null, indent: 20);
                if (!answers)
                {
                    Rule();
                }
            }
        });
    }

    /// <summary>A line to write on.</summary>
    private void Rule()
    {
        sheet.Gap(16);
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawLine(Line, sheet.Left + 20, sheet.Y, sheet.Right, sheet.Y);
        sheet.Tags.End();
        sheet.Gap(6);
    }

    private void Blanks(params string[] names)
    {
        var width = sheet.Width / names.Length;
        sheet.Gap(10);
        sheet.Tags.BeginElement(Tag.Paragraph);
        for (var i = 0; i < names.Length; i++)
        {
            sheet.Write(names[i], Fonts.Body(9.5), Sheet.Quiet, sheet.Left + (i * width), sheet.Y);
        }

        sheet.Tags.End();
        sheet.Tags.BeginArtifact();
        for (var i = 0; i < names.Length; i++)
        {
            sheet.Graphics.DrawLine(Line, sheet.Left + (i * width) + 40, sheet.Y + 12, sheet.Left + ((i + 1) * width) - 12, sheet.Y + 12);
        }

        sheet.Tags.End();
        sheet.Gap(18);
    }

    /// <summary>Where every line falls: empty boxes, or the positions.</summary>
    private void Table(JsonNode positions)
    {
        var rows = positions["rows"].Each().ToList();
        if (rows.Count == 0)
        {
            return;
        }

        const double height = 19;
        sheet.Heading(T("Where every line falls"), keepWith: 100);
        var told = positions["unit"].Text() == "mm"
            ? T($"Measured {positions["fromDatum"].Text()}, in millimetres, on the flat cloth; never from the line before.")
            : T($"Measured {positions["fromDatum"].Text()}, in inches, on the flat cloth; never from the line before.");
        var rest = rows.Count > MostRows ? " " + T($"The first {MostRows} of {rows.Count}; the others go on in the same way.") : "";
        sheet.Text(told + rest, Fonts.Body(10), Sheet.Ink, after: 6);
        string[] heads = [T("Tuck"), T("a, stitching"), rows[0]["lines"]![1]!["what"].Text(), T("b, stitching")];
        var width = sheet.Width / heads.Length;
        sheet.Tags.BeginElement(Tag.Table);
        Row(heads, heading: true);
        foreach (var row in rows.Take(MostRows))
        {
            sheet.Need(height);
            Row([row["tuck"].Text(), .. row["lines"].Each().Select(l => answers ? l["fromDatum"].Text() : "")], heading: false);
        }

        sheet.Tags.End();

        void Row(string[] cells, bool heading)
        {
            sheet.Tags.BeginElement(Tag.TableRow);
            for (var i = 0; i < cells.Length; i++)
            {
                sheet.Tags.BeginElement(heading || i == 0 ? Tag.TableHeaderCell : Tag.TableDataCell);
                if (heading || i == 0)
                {
                    sheet.Scope(heading ? "/Column" : "/Row");
                }

                sheet.Write(cells[i], heading || i == 0 ? Fonts.Bold(9.5) : Fonts.Body(9.5), heading ? Sheet.Quiet : Sheet.Ink, sheet.Left + (i * width) + 6, sheet.Y + 3);
                sheet.Tags.End();
            }

            sheet.Tags.End();
            sheet.Tags.BeginArtifact();
            for (var i = 0; i < cells.Length; i++)
            {
                sheet.Graphics.DrawRectangle(Line, sheet.Left + (i * width), sheet.Y, width, height);
            }

            sheet.Tags.End();
            sheet.Y += height;
        }
    }
}
