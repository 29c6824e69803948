using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Pdf;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>
/// Makes two prints of one thing the same bytes: the writer of the file draws a date, two identifiers and the letters
/// before each subset font's name anew each time.
/// </summary>
internal static partial class FixedBytes
{
    public static void Date(PdfDocument document, Printed printed)
    {
        document.Info.CreationDate = printed.Made.UtcDateTime;
        document.Info.ModificationDate = printed.Made.UtcDateTime;
        var id = Encoding.Latin1.GetString(printed.Id.ToByteArray());
        document.Internals.FirstDocumentID = id;
        document.Internals.SecondDocumentID = id;
    }

    /// <summary>Overwrites what is drawn at random, length for length, so that no offset in the file moves; and puts our metadata in.</summary>
    public static byte[] Of(byte[] pdf, Printed printed)
    {
        var text = Encoding.Latin1.GetString(pdf);
        text = RandomIdentifier().Replace(text, $"uuid:{printed.Id:D}");
        text = SubsetName().Replace(text, m => $"/{Letters(m.Groups[1].Value)}+{m.Groups[1].Value}");
        return Encoding.Latin1.GetBytes(Metadata.Put(text, printed));
    }

    /// <summary>Six capital letters that stand for this font in this release.</summary>
    private static string Letters(string font) =>
        string.Concat(SHA256.HashData(Encoding.Latin1.GetBytes(font)).Take(6).Select(b => (char)('A' + (b % 26))));

    [GeneratedRegex("uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex RandomIdentifier();

    [GeneratedRegex("/[A-Z]{6}\\+(Source#20[A-Za-z0-9#]+)")]
    private static partial Regex SubsetName();
}
