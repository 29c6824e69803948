namespace HeirloomArchive.Pictures;

/// <summary>The kinds of file taken, told by content and never by name.</summary>
public enum PictureFormat
{
    /// <summary>JPEG (ISO/IEC 10918-1), baseline or progressive.</summary>
    Jpeg,

    /// <summary>PNG (ISO/IEC 15948).</summary>
    Png,

    /// <summary>WebP (RFC 9649), a still picture.</summary>
    WebP,
}

/// <summary>Tells a file's kind from its first bytes.</summary>
public static class PictureFormats
{
    /// <summary>How many bytes of the beginning are looked at.</summary>
    public const int HeadLength = 16;

    /// <summary>The format that begins so, or null when it is none of the three.</summary>
    public static PictureFormat? Of(ReadOnlySpan<byte> head) =>
        head.StartsWith(JpegStart) ? PictureFormat.Jpeg
        : head.StartsWith(PngSignature) ? PictureFormat.Png
        : head.StartsWith("RIFF"u8) && Has(head, 8, "WEBP"u8) ? PictureFormat.WebP
        : null;

    /// <summary>The media type of a format.</summary>
    public static string MediaType(this PictureFormat format) => format switch
    {
        PictureFormat.Jpeg => "image/jpeg",
        PictureFormat.Png => "image/png",
        _ => "image/webp",
    };

    /// <summary>What a file that is none of the three seems to be, for the sentence that refuses it.</summary>
    internal static string Foreign(ReadOnlySpan<byte> head) =>
        head.IsEmpty ? T("an empty file")
        : head.StartsWith("II*\0"u8) || head.StartsWith("MM\0*"u8) || head.StartsWith("II+\0"u8) || head.StartsWith("MM\0+"u8) ? T("a TIFF file")
        : head.StartsWith("GIF8"u8) ? T("a GIF file")
        : head.StartsWith("BM"u8) ? T("a BMP file")
        : head.StartsWith("8BPS"u8) ? T("a Photoshop file")
        : head.StartsWith("%PDF"u8) ? T("a PDF file")
        : Has(head, 4, "ftypavif"u8) || Has(head, 4, "ftypavis"u8) ? T("an AVIF file")
        : Has(head, 4, "ftyphe"u8) || Has(head, 4, "ftypmif1"u8) ? T("a HEIC file")
        : head.StartsWith("<svg"u8) || head.StartsWith("<?xml"u8) ? T("an SVG or XML file")
        : T("something else");

    private static ReadOnlySpan<byte> JpegStart => [0xFF, 0xD8, 0xFF];

    private static ReadOnlySpan<byte> PngSignature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    private static bool Has(ReadOnlySpan<byte> head, int at, ReadOnlySpan<byte> mark) =>
        head.Length >= at + mark.Length && head.Slice(at, mark.Length).SequenceEqual(mark);
}
