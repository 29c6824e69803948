using System.IO.Compression;
using System.Text;
using HeirloomArchive.Support;
using SkiaSharp;

namespace HeirloomArchive.Hostile.Tests;

internal static class Others
{
    public static IEnumerable<HostileFile> All() => [.. WebPs(), .. Foreign(), .. Names(), .. Large()];

    private static IEnumerable<HostileFile> WebPs()
    {
        var whole = WebPParts.With(Made.WebP(300, 200), 300, 200, ("ICCP", IccProfile.DisplayP3), ("EXIF", Exif.Block(1, true)));
        List<int> places = [12, 14, 18, 25];
        for (var at = 12; at < whole.Length;)
        {
            var length = BitConverter.ToInt32(whole, at + 4);
            places.AddRange([at + 2, at + 6, at + 8 + (length / 2), at + 8 + length - 1]);
            at += 8 + length + (length & 1);
        }

        foreach (var p in places.Distinct().Where(p => p < whole.Length - 1))
        {
            yield return new($"WebP cut off after {p} of {whole.Length} bytes", () => whole[..p], new Refused(422, "cut off"));
        }

        byte[] still = Made.WebP(), lossless = Made.WebP(lossless: true);
        var damaged = new Refused(422, "damaged");
        yield return new("WebP lossless", () => lossless, new Taken(64, 48, Jpegs.Quarters));
        yield return new("WebP of 1 × 16 383", () => Saved(1, 16_383), new Taken(1, 16_383, [new(191, 191, 191)]));
        yield return new("WebP of one pixel", () => Saved(1, 1), new Taken(1, 1, [new(191, 191, 191)]));
        yield return new("WebP animated", () => WebPParts.Riff([.. WebPParts.Chunk("VP8X", [2, 0, 0, 0, 63, 0, 0, 47, 0, 0]), .. WebPParts.Chunk("ANIM", new byte[6]), .. WebPParts.Chunk("ANMF", [.. new byte[16], .. still[12..]])]), new Refused(422, "animated"));
        yield return new("WebP with a frame and no animation", () => WebPParts.Riff([.. still[12..], .. WebPParts.Chunk("ANMF", new byte[16])]), new Refused(422, "animated"));
        yield return new("WebP with two pictures", () => WebPParts.Riff([.. still[12..], .. still[12..]]), damaged);
        yield return new("WebP without a picture", () => WebPParts.Riff(WebPParts.Chunk("EXIF", [1, 2])), damaged);
        yield return new("WebP whose canvas is larger than its picture", () => WebPParts.With(still, 16_000, 16_000), damaged);
        yield return new("WebP whose chunk is longer than the file", () => WebPParts.Riff([.. "VP8 "u8, 0xFF, 0xFF, 0xFF, 0x7F, .. still[20..]]), damaged);
        yield return new("WebP that says it is 4 GB", () => [.. "RIFF"u8, 0xFE, 0xFF, 0xFF, 0xFF, .. still[8..]], new Refused(422, ""));
        yield return new("WebP that says it is empty", () => [.. "RIFF"u8, 0, 0, 0, 0, .. still[8..]], damaged);
        yield return new("WebP with things behind it", () => [.. still, .. "<script>"u8], new Taken(64, 48, Jpegs.Quarters, 24));
        yield return new("WebP with 10 000 unknown chunks", () => WebPParts.Riff([.. still[12..], .. Enumerable.Repeat(WebPParts.Chunk("JUNK", [1]), 10_000).SelectMany(c => c)]), new Taken(64, 48, Jpegs.Quarters, 24));
        yield return new("WebP with a profile of rubbish", () => WebPParts.With(still, 64, 48, ("ICCP", [.. Enumerable.Range(0, 5000).Select(i => (byte)(i * 7))])), new Taken(64, 48, Jpegs.Quarters, 24));
        yield return new("WebP with an Exif that lies far away", () => WebPParts.With(still, 64, 48, ("EXIF", [.. "II*\0"u8, 0xF0, 0xFF, 0xFF, 0xFF])), new Taken(64, 48, Jpegs.Quarters, 24));
        yield return new("WebP lossless full of rubbish", () => [.. lossless[..30], .. Enumerable.Repeat((byte)0xAA, lossless.Length - 32), .. lossless[^2..]], new Refused(422, "can't be decoded"));
        yield return new("WebP with a picture between keys", () => Changed(still, 20, 1), damaged);
        yield return new("WebP whose picture begins as none", () => Changed(still, 23, 0), damaged);
        yield return new("WebP lossless of another version", () => Changed(lossless, 24, 0xE0), damaged);
        yield return new("WAV file", () => [.. "RIFF"u8, 36, 0, 0, 0, .. "WAVEfmt "u8, .. new byte[28]], new Refused(415, "something else"));
    }

    private static IEnumerable<HostileFile> Foreign()
    {
        (string Name, byte[] Begins, string Says)[] kinds =
        [
            ("TIFF little-endian", [.. "II*\0"u8, 8, 0, 0, 0], "TIFF"), ("TIFF big-endian", [.. "MM\0*"u8, 0, 0, 0, 8], "TIFF"),
            ("BigTIFF of 24 bytes", [(byte)'I', (byte)'I', 43, 0, 8, 0, 0, 0, 16, 0, 0, 0, 0, 0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 127], "TIFF"),
            ("BigTIFF big-endian", [(byte)'M', (byte)'M', 0, 43], "TIFF"), ("GIF 87", "GIF87a"u8.ToArray(), "GIF"), ("GIF 89", "GIF89a"u8.ToArray(), "GIF"),
            ("HEIC", "\0\0\0\u0018ftypheic"u8.ToArray(), "HEIC"), ("HEIC sequence", "\0\0\0\u0018ftyphevc"u8.ToArray(), "HEIC"), ("HEIF", "\0\0\0\u0018ftypmif1"u8.ToArray(), "HEIC"),
            ("AVIF", "\0\0\0\u0018ftypavif"u8.ToArray(), "AVIF"), ("AVIF sequence", "\0\0\0\u0018ftypavis"u8.ToArray(), "AVIF"),
            ("Photoshop", "8BPS\0\u0001"u8.ToArray(), "Photoshop"), ("BMP", "BM\0\0"u8.ToArray(), "BMP"), ("PDF", "%PDF-1.7"u8.ToArray(), "PDF"),
            ("SVG", "<svg xmlns='http://www.w3.org/2000/svg'/>"u8.ToArray(), "SVG"), ("XML with an entity bomb", "<?xml version='1.0'?><!DOCTYPE a [<!ENTITY b 'c'>]>"u8.ToArray(), "SVG"),
            ("icon", [0, 0, 1, 0, 1, 0], "something else"), ("JPEG 2000", [0, 0, 0, 12, 0x6A, 0x50, 0x20, 0x20, 0x0D, 0x0A, 0x87, 0x0A], "something else"),
            ("JPEG XL", [0xFF, 0x0A, 0, 0], "something else"), ("JPEG XR", "II\u00BC\u0001"u8.ToArray(), "something else"), ("QOI", "qoif"u8.ToArray(), "something else"),
            ("PBM", "P1 1 1 0"u8.ToArray(), "something else"), ("EXR", [0x76, 0x2F, 0x31, 0x01], "something else"), ("film", "\0\0\0\u0018ftypisom"u8.ToArray(), "something else"),
            ("ELF program", [0x7F, .. "ELF"u8, 2, 1, 1], "something else"), ("Windows program", "MZ\u0090\0"u8.ToArray(), "something else"), ("shell script", "#!/bin/sh\nrm -rf /\n"u8.ToArray(), "something else"),
            ("GZIP", [0x1F, 0x8B, 8, 0], "something else"), ("nothing but zeros", new byte[64], "something else"), ("PostScript", "%!PS-Adobe"u8.ToArray(), "something else"),
            ("PNG with its first byte changed", [0x88, .. Made.Png()[1..]], "something else"), ("PNG sent as text", [.. PngParts.Signature[..4], 0x0A, 0x1A, 0x0A, .. Made.Png()[8..]], "something else"),
            ("MNG", [0x8A, .. "MNG"u8, 0x0D, 0x0A, 0x1A, 0x0A], "something else"), ("JNG", [0x8B, .. "JNG"u8, 0x0D, 0x0A, 0x1A, 0x0A], "something else"),
        ];
        foreach (var (name, begins, says) in kinds)
        {
            yield return new($"{name}", () => begins.Length < 64 && name != "BigTIFF of 24 bytes" ? [.. begins, .. new byte[300]] : begins, new Refused(415, says));
        }

        yield return new("nothing", () => [], new Refused(415, "empty file"));
        yield return new("one byte", () => [0xFF], new Refused(415, "something else"));
        yield return new("two bytes of a JPEG", () => [0xFF, 0xD8], new Refused(415, "something else"));
        yield return new("seven bytes of a PNG", () => PngParts.Signature[..7].ToArray(), new Refused(415, "something else"));
        yield return new("ZIP bomb of 100 MB", Zip, new Refused(415, "something else"));
    }

    /// <summary>Names that mean something to a file system, a page or a reader; none of them is ever used.</summary>
    private static IEnumerable<HostileFile> Names()
    {
        string[] names =
        [
            "../../../../etc/passwd", "..\\..\\windows\\win.ini", "/etc/shadow", "C:\\autoexec.bat", "CON", "NUL.png", "aux.jpg", "LPT1", "picture.png/", ".", "..", "~", " ", "$(touch x).png", "`id`.png",
            "a;rm -rf x.png", "<script>alert(1)</script>.png", "a.png%00.exe", "a%2e%2e%2fb.png", "\u202Egnp.exe", "\u200F\u202Apicture.png", "pic\u0301ture.png", "絹の服.png", "👗.png", new('a', 5_000), "picture.php.png", "--help", "-rf",
        ];
        foreach (var name in names)
        {
            yield return new($"name {(name.Length > 40 ? "of 5 000 letters" : name)}", () => Made.Png(), new Taken(64, 48, Jpegs.Quarters)) { SentAs = Encoding.UTF8.GetBytes(name.Replace("\\", "\\\\", StringComparison.Ordinal)) };
        }

        yield return new("name that is no UTF-8", () => Made.Png(), new Taken(64, 48, Jpegs.Quarters)) { SentAs = [(byte)'a', 0xE9, 0xFF, (byte)'.', (byte)'p'] };
    }

    private static IEnumerable<HostileFile> Large() =>
    [
        new("61 MB of a JPEG", () => [.. Made.Jpeg(), .. new byte[61_000_000]], new Refused(413, "60 MB")),
        new("60 000 001 bytes of nothing", () => new byte[60_000_001], new Refused(413, "60 MB")),
        new("59 MB behind a PNG", () => [.. Made.Png(), .. new byte[59_000_000]], new Taken(64, 48, Jpegs.Quarters)),
    ];

    private static byte[] Changed(byte[] file, int at, byte to)
    {
        var changed = file.ToArray();
        changed[at] = to;
        return changed;
    }

    private static byte[] Zip()
    {
        using var to = new MemoryStream();
        using (var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true))
        using (var entry = zip.CreateEntry("picture.png").Open())
        {
            entry.Write(new byte[100_000_000]);
        }

        return to.ToArray();
    }

    private static byte[] Saved(int width, int height)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        bitmap.Erase(new SKColor(191, 191, 191));
        using var pixels = bitmap.PeekPixels();
        return pixels.Encode(new SKWebpEncoderOptions(SKWebpEncoderCompression.Lossless, 50))!.ToArray();
    }
}
