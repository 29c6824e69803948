using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Worksheets.Making;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Tag = PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>Lays a lesson's hand-out on paper: each entry with its picture beside its measures, the run drawn below.</summary>
internal sealed class HandOutPages(Sheet sheet, HandOut handOut)
{
    private const double Between = 14;

    private static readonly double PictureWidth = Sheet.Mm(58), PictureHeight = Sheet.Mm(62);

    public void Write()
    {
        sheet.Text(T("Hand-out"), Fonts.Bold(9), Sheet.Accent, after: 2);
        sheet.Text(handOut.Title, Fonts.Name(21), Sheet.Ink, Tag.Heading1, after: 3);
        if (handOut.Under.Length > 0)
        {
            sheet.Text(handOut.Under, Fonts.Body(10), Sheet.Quiet, after: 4);
        }

        if (handOut.EachNeeds.Length > 0)
        {
            sheet.Heading(T("You need"));
            sheet.Text(handOut.EachNeeds, Fonts.Body(10), Sheet.Ink);
        }

        foreach (var entry in handOut.Entries)
        {
            Entry(entry);
        }

        sheet.Heading(T("Before you touch anything"), keepWith: 160);
        sheet.TwoColumns(handOut.Cautions);
        if (Letters.Missing(string.Concat(Texts())) is { Count: > 0 } missing)
        {
            sheet.Gap(8);
            sheet.Text(T($"The record holds {Printing.Listed(missing)}; the print has no letters for them and leaves them out."), Fonts.Body(8.5), Sheet.Quiet);
        }
    }

    private IEnumerable<string> Texts() =>
        [handOut.Title, handOut.Under, handOut.EachNeeds, .. handOut.Entries.SelectMany(e => (string[])[e.Title, e.Of, e.Note, .. e.Facts.SelectMany(f => (string[])[f.Label, f.Text])])];

    private void Entry(HandOutEntry entry)
    {
        using var image = PrintPicture.Open(entry.Picture);
        var by = image is null ? 1 : Math.Min(PictureWidth / image.PixelWidth, PictureHeight / image.PixelHeight);
        var (wide, tall) = image is null ? (0, 0) : (image.PixelWidth * by, image.PixelHeight * by);
        var beside = image is null ? 0 : PictureWidth + Between;
        sheet.Gap(12);

        // Kept together as far as a page goes: the heading, the picture and what stands beside it, the drawing.
        var head = 12 + sheet.Tall(entry.Title, Fonts.Name(13.5), sheet.Width) + sheet.Tall(entry.Of, Fonts.Body(9.5), sheet.Width);
        sheet.Need(Math.Min(head + Math.Max(tall, Tall(entry, sheet.Width - beside)) + Drawn(entry.Plan), sheet.Height - 1));
        Line();
        sheet.Text(entry.Title, Fonts.Name(13.5), Sheet.Accent, Tag.Heading2, after: 1);
        if (entry.Of.Length > 0)
        {
            sheet.Text(entry.Of, Fonts.Body(9.5), Sheet.Quiet, after: 5);
        }

        var top = sheet.Y;
        if (image is not null)
        {
            sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, entry.Alt, new XRect(sheet.Left, top, wide, tall));
            sheet.Graphics.DrawImage(image, sheet.Left, top, wide, tall);
            sheet.Tags.End();
        }

        foreach (var line in Facts(entry))
        {
            sheet.Text(line, Fonts.Body(10), Sheet.Ink, indent: beside, after: 2);
        }

        if (entry.Note.Length > 0)
        {
            sheet.Gap(3);
            sheet.Text(entry.Note, Fonts.Bold(10), Sheet.Ink, indent: beside);
        }

        // On the next page the picture is no longer beside it.
        sheet.Y = sheet.Y >= top ? Math.Max(sheet.Y, top + tall) : sheet.Y;
        if (entry.Plan is { } plan)
        {
            Run(plan);
        }
    }

    private void Run(TuckPlan plan)
    {
        var panel = Fitted(plan);
        sheet.Gap(6);
        sheet.Need(Sheet.Mm(panel.Height) + 14);
        sheet.Tags.BeginElement(PdfIllustrationElementTag.Figure, HandOut.Sizes(plan), new XRect(sheet.Left, sheet.Y, sheet.Width, Sheet.Mm(panel.Height)));
        PanelDrawing.Draw(sheet, panel);
        sheet.Tags.End();
        sheet.Gap(Sheet.Mm(panel.Height) + 2);
        sheet.Text(HandOut.Sizes(plan), Fonts.Body(8.5), Sheet.Quiet);
    }

    /// <summary>The run as sewn, without the drawing's caption, as wide as the paper takes it.</summary>
    private Panel Fitted(TuckPlan plan)
    {
        var sewn = RunSketch.Of(plan).Last();
        var by = sheet.Width * 25.4 / 72 / sewn.Width;
        return new(sewn.Width * by, sewn.Height * by, [.. sewn.Shapes.Where(s => s is not Label { Ink: Ink.Caption }).Select(s => Scaled(s, by))]);
    }

    private static Shape Scaled(Shape shape, double by) => shape switch
    {
        Box b => b with { X = b.X * by, Y = b.Y * by, Width = b.Width * by, Height = b.Height * by },
        Stroke s => s with { X1 = s.X1 * by, Y1 = s.Y1 * by, X2 = s.X2 * by, Y2 = s.Y2 * by },
        Label t => t with { X = t.X * by, Y = t.Y * by, Size = t.Size * by },
        _ => shape,
    };

    private double Drawn(TuckPlan? plan) => plan is null ? 0 : Sheet.Mm(Fitted(plan).Height) + 24;

    private double Tall(HandOutEntry entry, double width) =>
        Facts(entry).Sum(line => sheet.Tall(line, Fonts.Body(10), width) + 2) + 3 + sheet.Tall(entry.Note, Fonts.Bold(10), width);

    /// <summary>What is long has a line of its own; all that is short goes on one after the other.</summary>
    private static IEnumerable<string> Facts(HandOutEntry entry)
    {
        var said = entry.Facts.Select(f => $"{f.Label}: {f.Text}").ToLookup(text => text.Length > 48);
        return said[false].Any() ? [.. said[true], string.Join(" · ", said[false])] : said[true];
    }

    private void Line()
    {
        sheet.Tags.BeginArtifact();
        sheet.Graphics.DrawLine(new XPen(Sheet.Rule, 0.8), sheet.Left, sheet.Y, sheet.Right, sheet.Y);
        sheet.Tags.End();
        sheet.Gap(6);
    }
}
