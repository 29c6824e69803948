using HeirloomArchive.Worksheets.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>What a print is of; all that its file says of itself, so that two prints are the same bytes.</summary>
/// <param name="Id">Of the worksheet or the lesson.</param>
/// <param name="Title">Of the file, and at the foot of every page.</param>
/// <param name="Made">When what is printed was made or last changed.</param>
/// <param name="Engine">The release.</param>
/// <param name="Paper">Its sheets.</param>
/// <param name="Language">What its sentences are in, as BCP 47 writes it.</param>
internal sealed record Printed(Guid Id, string Title, DateTimeOffset Made, string Engine, PaperSize Paper, string Language)
{
    // The writer of PDF files keeps its font tables for the whole program and does not say that two may use them at once.
    private static readonly Lock OneAtATime = new();

    public static Printed Of(Worksheet worksheet) =>
        new(worksheet.Id, worksheet.Title, worksheet.Made, worksheet.Engine, PaperSize.Of(worksheet.Paper, worksheet.Landscape), worksheet.Language);

    /// <summary>The whole file: laid out once to count the pages, and then with their number at the foot of each.</summary>
    public byte[] Draw(Action<Sheet> write) => SheetLanguage.In(Language, () => Drawn(write));

    private byte[] Drawn(Action<Sheet> write)
    {
        lock (OneAtATime)
        {
            using var first = new PdfDocument();
            using var counted = On(first, null);
            using var document = new PdfDocument();
            document.Info.Title = Title;
            document.Info.Creator = "Heirloom Archive " + Engine;
            UAManager.ForDocument(document).SetDocumentLanguage(Language);
            FixedBytes.Date(document, this);
            On(document, counted).Dispose();
            using var file = new MemoryStream();
            document.Save(file);
            return FixedBytes.Of(file.ToArray(), this);
        }

        Sheet On(PdfDocument document, Sheet? counted)
        {
            var footer = $"{Title} · {SheetLanguage.Day(Made, Language)}";
            var sheet = new Sheet(document, Paper, footer, counted);
            write(sheet);
            return sheet;
        }
    }
}
