using System.Globalization;
using System.Security;
using System.Text;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Worksheets.Pdf;

/// <summary>
/// What the file says of itself for programs: title, dates, and which standard of accessible files it is made to. The writer's own
/// packet says no standard and lets signs such as &lt; through; it is the last object of the file and is put in place of here.
/// </summary>
internal static partial class Metadata
{
    /// <summary>The file with our packet, the place of its table of objects moved accordingly.</summary>
    /// <param name="file">Read as Latin-1, a character a byte.</param>
    /// <param name="printed">What it is a print of.</param>
    public static string Put(string file, Printed printed)
    {
        var last = LastObject().Match(file);
        if (!last.Success)
        {
            throw new InvalidOperationException("The last object of the file is not its metadata.");
        }

        var packet = Encoding.Latin1.GetString(Encoding.UTF8.GetBytes(Packet(printed)));
        var put = $"{last.Groups["head"].Value}{packet.Length.ToString(CultureInfo.InvariantCulture)}>>\nstream\n{packet}\nendstream\nendobj\n";
        var table = last.Index + put.Length;
        var rest = StartOfTable().Replace(file[(last.Index + last.Length)..], $"startxref\n{table.ToString(CultureInfo.InvariantCulture)}\n");
        return file[..last.Index] + put + rest;
    }

    private static string Packet(Printed printed)
    {
        var made = printed.Made.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
        return $"""
            <?xpacket begin="{'\uFEFF'}" id="W5M0MpCehiHzreSzNTczkc9d"?>
            <x:xmpmeta xmlns:x="adobe:ns:meta/">
              <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
                <rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part></rdf:Description>
                <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">
                  <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{SecurityElement.Escape(printed.Title)}</rdf:li></rdf:Alt></dc:title>
                  <dc:language><rdf:Bag><rdf:li>{printed.Language}</rdf:li></rdf:Bag></dc:language>
                </rdf:Description>
                <rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
                  <xmp:CreatorTool>Heirloom Archive {printed.Engine}</xmp:CreatorTool>
                  <xmp:CreateDate>{made}</xmp:CreateDate><xmp:ModifyDate>{made}</xmp:ModifyDate>
                </rdf:Description>
                <rdf:Description rdf:about="" xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/">
                  <xmpMM:DocumentID>uuid:{printed.Id:D}</xmpMM:DocumentID><xmpMM:InstanceID>uuid:{printed.Id:D}</xmpMM:InstanceID>
                </rdf:Description>
              </rdf:RDF>
            </x:xmpmeta>
            <?xpacket end="w"?>
            """.ReplaceLineEndings("\n");
    }

    [GeneratedRegex(@"(?<head>\d+ 0 obj\n<</Type/Metadata/Subtype/XML/Length )\d+>>\nstream\n.*?endstream\nendobj\n(?=xref\n)", RegexOptions.Singleline | RegexOptions.RightToLeft)]
    private static partial Regex LastObject();

    [GeneratedRegex(@"startxref\n\d+\n")]
    private static partial Regex StartOfTable();
}
