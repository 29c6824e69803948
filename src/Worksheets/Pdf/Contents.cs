using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>What stands on the sheet, in the order in which she needs it.</summary>
internal static class Contents
{
    public static void Write(Sheet sheet, Worksheet worksheet, Printer? printer, (byte[]? Bytes, string? Shows) picture, bool rule)
    {
        var result = worksheet.Result;
        Head(sheet, worksheet);
        Original(sheet, result, picture);
        Cautions(sheet, worksheet.Cautions);
        Section(sheet, T("To cut"), result["piece"]!["text"]);
        Picture(sheet, worksheet);
        PositionsTable.Write(sheet, result);
        Section(sheet, T("Ways to mark the lines"), result["marking"], "text", "suits");
        Strip(sheet, result["strip"]);
        Section(sheet, T("Needle, thread, machine"), result["settings"], "text", "source");
        Steps(sheet, result["steps"]!);
        Section(sheet, T("Lace"), result["lace"], "text", "working");
        Section(sheet, T("What else is on the piece"), result["also"], "text", "note");
        Section(sheet, T("Folding rule"), result["rule"] is { } told && told["needed"].Yes() ? new JsonArray(told["text"].Text()) : null);
        Section(sheet, T("To buy"), result["shopping"]);
        Section(sheet, T("Evidence and guess"), result["evidence"], "text", "is");
        Notes(sheet, worksheet.Request["notes"].Text());
        if (rule)
        {
            new RulePages(sheet, result, printer?.Stretch() ?? 1).Write(worksheet);
        }

        new GaugePage(sheet, printer).Write(result);
    }

    private static void Head(Sheet sheet, Worksheet worksheet)
    {
        var result = worksheet.Result;
        sheet.Text(T("Worksheet"), Fonts.Bold(9), Sheet.Accent, after: 2);
        sheet.Text(worksheet.Title, Fonts.Name(21), Sheet.Ink, Tag.Heading1, after: 3);
        sheet.Text(result["source"].Text(), Fonts.Body(10), Sheet.Quiet, after: 10);
        Figures(sheet, [.. result["figures"].Each().Select(f => (f["text"].Text(), f["label"].Text()))]);
    }

    /// <summary>The four numbers asked for first, side by side.</summary>
    private static void Figures(Sheet sheet, IReadOnlyList<(string Number, string Label)> figures)
    {
        const double height = 46;
        var width = sheet.Width / figures.Count;
        sheet.Need(height);
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawRoundedRectangle(new XSolidBrush(Sheet.Ground), sheet.Left, sheet.Y, sheet.Width, height, 8, 8);
        sheet.Tags.End();
        for (var i = 0; i < figures.Count; i++)
        {
            var x = sheet.Left + (i * width) + 12;
            sheet.Tags.BeginElement(Tag.Paragraph);
            sheet.Write(figures[i].Label, Fonts.Body(8.5), Sheet.Quiet, x, sheet.Y + 7);
            sheet.Write(figures[i].Number, sheet.Fitting(figures[i].Number, Fonts.Name, 15, width - 16), Sheet.Ink, x, sheet.Y + 20);
            sheet.Tags.End();
        }

        sheet.Gap(height);
    }

    /// <summary>The antique, small, or what is copied of it, from close; a picture that can't be drawn is left out.</summary>
    private static void Original(Sheet sheet, JsonObject result, (byte[]? Bytes, string? Shows) picture)
    {
        using var image = PrintPicture.Open(picture.Bytes);
        if (image is null)
        {
            return;
        }

        var scale = Math.Min(Sheet.Mm(70) / image.PixelWidth, Sheet.Mm(50) / image.PixelHeight);
        var (width, height) = (image.PixelWidth * scale, image.PixelHeight * scale);
        sheet.Gap(8);
        sheet.Need(height + 20);
        sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, picture.Shows is { } shows ? T($"The original: {shows}. {result["source"].Text()}") : T($"The original, as photographed. {result["source"].Text()}"), new XRect(sheet.Left, sheet.Y, width, height));
        sheet.Graphics.DrawImage(image, sheet.Left, sheet.Y, width, height);
        sheet.Tags.End();
        sheet.Gap(height + 3);
        sheet.Text(picture.Shows is null ? T("The original. Never lay this sheet or a gauge on it.") : T("A part of the original, seen close. Never lay this sheet or a gauge on it."), Fonts.Body(8.5), Sheet.Quiet);
    }

    /// <summary>What to sew first, and a box to write down what it measured.</summary>
    private static void Strip(Sheet sheet, JsonNode? strip)
    {
        if (strip is null)
        {
            return;
        }

        Section(sheet, T("A strip to sew first"), strip["text"]);
        const double height = 44;
        string[] labels = [T("tucks sewn"), T("width as marked"), T("flat, before"), T("finished, after")];
        var width = sheet.Width / labels.Length;
        sheet.Gap(4);
        sheet.Need(height);
        sheet.Tags.BeginArtifact();
        for (var i = 0; i < labels.Length; i++)
        {
            sheet.Graphics.DrawRectangle(new XPen(Sheet.Rule, 0.8), sheet.Left + (i * width), sheet.Y, width, height);
        }

        sheet.Tags.End();
        sheet.Tags.BeginElement(Tag.Paragraph);
        for (var i = 0; i < labels.Length; i++)
        {
            sheet.Write(labels[i], Fonts.Body(8.5), Sheet.Quiet, sheet.Left + (i * width) + 6, sheet.Y + 4);
        }

        sheet.Tags.End();
        sheet.Gap(height + 4);
    }

    private static void Cautions(Sheet sheet, JsonArray cautions)
    {
        if (cautions.Count == 0)
        {
            return;
        }

        sheet.Heading(T("Before you begin"));
        sheet.TwoColumns([.. cautions.Each().Select(c =>
        {
            var source = c["source"].Text();
            return (c["text"].Text(), $"{c["reason"].Text()}{(source.Length > 0 ? $" ({source})" : "")}".Trim());
        })]);
    }

    /// <summary>A heading and a list; nothing at all when there is nothing to say.</summary>
    private static void Section(Sheet sheet, string heading, JsonNode? list, string text = "text", string small = "")
    {
        if (list is not JsonArray { Count: > 0 } entries)
        {
            return;
        }

        sheet.Heading(heading);
        sheet.List(() =>
        {
            foreach (var entry in entries)
            {
                var chosen = entry is JsonObject c && c["chosen"].Yes();
                sheet.Entry(chosen ? "✓" : "·", entry is JsonObject o ? o[text].Text() : entry.Text(), entry is JsonObject s ? s[small].Text() : null);
            }
        });
    }

    private static void Steps(Sheet sheet, JsonNode steps)
    {
        sheet.Heading(T("Order of work"));
        sheet.List(() =>
        {
            foreach (var step in steps.Each())
            {
                sheet.Entry(step["number"].Text(), step["text"].Text(), indent: 24);
            }
        });
    }

    private static void Notes(Sheet sheet, string notes)
    {
        if (notes.Length > 0)
        {
            sheet.Heading(T("Notes"));
            sheet.Text(notes, Fonts.Body(10), Sheet.Ink);
        }
    }

    private static void Picture(Sheet sheet, Worksheet worksheet)
    {
        var panels = Diagram.Panels(worksheet.Result, sheet.Width * 25.4 / 72, onPaper: true);
        sheet.Heading(T("The picture"), keepWith: Sheet.Mm(panels[0].Height));
        var described = false;
        foreach (var panel in panels)
        {
            var height = Sheet.Mm(panel.Height);
            sheet.Need(height);
            var alt = described ? T("The diagram goes on; every position is in the table.") : WorksheetDiagram.Description(worksheet);
            described = true;
            sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, alt, new XRect(sheet.Left, sheet.Y, sheet.Width, height));
            PanelDrawing.Draw(sheet, panel);
            sheet.Tags.End();
            sheet.Gap(height + 6);
        }
    }
}
