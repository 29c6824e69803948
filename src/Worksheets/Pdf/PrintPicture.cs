using PdfSharp.Drawing;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>A picture's bytes, ready to be drawn.</summary>
internal static class PrintPicture
{
    /// <summary>The picture; null where there is none, or the writer of PDF files can't take it: the words stay without it.</summary>
    public static XImage? Open(byte[]? bytes)
    {
        try
        {
            return bytes is null ? null : XImage.FromStream(new MemoryStream(bytes));
        }
        catch (Exception e) when (e is InvalidOperationException or NotImplementedException or NotSupportedException or ArgumentException)
        {
            return null;
        }
    }
}
