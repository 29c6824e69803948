using System.Globalization;
using HeirloomArchive.Worksheets.Pdf;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace HeirloomArchive.Worksheets;

/// <summary>
/// The print of a worksheet at true size: tagged, its text selectable, its fonts within. The same bytes every time within a
/// release.
/// </summary>
public static class WorksheetPdf
{
    // The writer of PDF files keeps its font tables for the whole program and does not say that two may use them at once.
    private static readonly Lock OneAtATime = new();

    /// <summary>The whole PDF file; for a printer that she has measured, its gauges and marks drawn so that they come out true.</summary>
    public static byte[] Render(Worksheet worksheet, Printer? printer = null)
    {
        ArgumentNullException.ThrowIfNull(worksheet);
        lock (OneAtATime)
        {
            var (_, pages) = Draw(worksheet, printer, 0);
            return Draw(worksheet, printer, pages).File;
        }
    }

    private static (byte[] File, int Pages) Draw(Worksheet worksheet, Printer? printer, int pagesInAll)
    {
        using var document = new PdfDocument();
        document.Info.Title = worksheet.Title;
        document.Info.Creator = "Heirloom Archive " + worksheet.Engine;
        UAManager.ForDocument(document).SetDocumentLanguage("en");
        FixedBytes.Date(document, worksheet);
        var footer = $"{worksheet.Title} · {worksheet.Made.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}";
        using (var sheet = new Sheet(document, worksheet.Paper, worksheet.Landscape, footer, pagesInAll))
        {
            Contents.Write(sheet, worksheet, printer);
        }

        var pages = document.PageCount;
        using var file = new MemoryStream();
        document.Save(file);
        return (FixedBytes.Of(file.ToArray(), worksheet), pages);
    }
}
