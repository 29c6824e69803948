using HeirloomArchive.Support;
using SkiaSharp;

namespace HeirloomArchive.Hostile.Tests;

internal static class Jpegs
{
    internal static readonly SKColor[] Quarters = [Made.TopLeft, Made.TopRight, Made.BottomLeft, Made.BottomRight];

    public static IEnumerable<HostileFile> All() => [.. Cuts(), .. Damaged(), .. Sizes(), .. Colours(), .. Turned(), .. Bombs(), .. Polyglots()];

    /// <summary>Cut off at every border of a segment, one byte to either side of it, and within the coded data.</summary>
    private static IEnumerable<HostileFile> Cuts()
    {
        var whole = Made.Jpeg(640, 480, orientation: 1, placed: true);
        List<int> places = [3, 4];
        var scan = 0;
        for (var at = 2; scan == 0;)
        {
            places.AddRange([at, at + 1, at + 3]);
            scan = whole[at + 1] == 0xDA ? at : 0;
            at += 2 + (whole[at + 2] << 8) + whole[at + 3];
        }

        places.AddRange(Enumerable.Range(1, 8).Select(i => scan + 14 + ((whole.Length - scan - 20) * i / 9)));
        places.AddRange([whole.Length - 1, whole.Length - 2]);
        return places.Distinct().Where(p => p > 2).Select(p => new HostileFile($"JPEG cut off after {p} of {whole.Length} bytes", () => whole[..p], new Refused(422, "cut off")));
    }

    private static IEnumerable<HostileFile> Damaged()
    {
        var whole = Made.Jpeg(64, 48);
        var scan = whole.AsSpan().IndexOf([(byte)0xFF, (byte)0xDA]);
        var frame = whole.AsSpan().IndexOf([(byte)0xFF, (byte)0xC0]);
        byte[] Changed(int at, byte to)
        {
            var changed = whole.ToArray();
            changed[at] = to;
            return changed;
        }

        return
        [
            new("JPEG that is only its beginning", () => [0xFF, 0xD8, 0xFF], new Refused(422, "cut off")),
            new("JPEG that is a scan without a frame", () => [0xFF, 0xD8, 0xFF, 0xDA, 0, 2, 0xFF, 0xD9], new Refused(422, "damaged")),
            new("JPEG without a scan", () => [.. whole[..scan], 0xFF, 0xD9], new Refused(422, "damaged")),
            new("JPEG that is an end after its beginning", () => [0xFF, 0xD8, 0xFF, 0xD9], new Refused(422, "damaged")),
            new("JPEG with two frames", () => [.. whole[..frame], .. whole[frame..scan], .. whole[frame..]], new Refused(422, "damaged")),
            new("JPEG with a segment of length 0", () => [.. whole[..2], 0xFF, 0xE0, 0, 0, .. whole[2..]], new Refused(422, "damaged")),
            new("JPEG with a segment of length 1", () => [.. whole[..2], 0xFF, 0xE0, 0, 1, .. whole[2..]], new Refused(422, "damaged")),
            new("JPEG with rubbish between segments", () => [.. whole[..2], 1, 2, 3, .. whole[2..]], new Refused(422, "")),
            new("JPEG with a start within", () => [.. whole[..2], 0xFF, 0xD8, .. whole[2..]], new Refused(422, "damaged")),
            new("JPEG with 12 bits a sample in a baseline frame", () => Changed(frame + 4, 12), new Refused(422, "part of the picture")),
            new("JPEG with no component", () => Changed(frame + 9, 0), new Refused(422, "can't be decoded")),
            new("JPEG with 200 components", () => Changed(frame + 9, 200), new Refused(422, "can't be decoded")),
            new("JPEG with sampling 0", () => Changed(frame + 11, 0), new Refused(422, "can't be decoded")),
            new("JPEG with sampling 15", () => Changed(frame + 11, 0xFF), new Refused(422, "can't be decoded")),
            new("JPEG with a quantity table that is not there", () => Changed(frame + 12, 3), new Refused(422, "can't be decoded")),
            new("JPEG lossless (SOF3)", () => Changed(frame + 1, 0xC3), new Refused(422, "can't be decoded")),
            new("JPEG hierarchical (SOF5)", () => Changed(frame + 1, 0xC5), new Refused(422, "can't be decoded")),
            new("JPEG arithmetic lossless (SOF11)", () => Changed(frame + 1, 0xCB), new Refused(422, "can't be decoded")),
            new("JPEG whose codes are another's", () => Changed(whole.AsSpan().IndexOf([(byte)0xFF, (byte)0xC4]) + 5, 200), new Refused(422, "")),
            new("JPEG whose height comes after its scan", () => [.. whole[..^2], 0xFF, 0xDC, 0, 4, 0, 48, 0xFF, 0xD9], new Refused(422, "height")),
            new("JPEG with half its rows and an end", () => [.. whole[..(scan + 14 + ((whole.Length - scan) / 3))], 0xFF, 0xD9], new Refused(422, "part of the picture")),
            new("JPEG with half of its scan cut out of the middle", () => [.. whole[..(scan + 14 + ((whole.Length - scan) / 4))], .. whole[(scan + 14 + ((whole.Length - scan) * 3 / 4))..]], new Refused(422, "part of the picture")),
            // The library fills up what is missing of several scans and says nothing; docs/security.md says so too.
            new("progressive JPEG", () => PlainJpeg.Progressive(64, 48, 100), new Taken(64, 48, [new(100, 100, 100)])),
            new("progressive JPEG whose last scan is cut short, with an end", () => PlainJpeg.Progressive(64, 48, 100, rest: 8), new Taken(64, 48, [new(100, 100, 100)])),
            new("progressive JPEG whose first scan is cut short, with an end", () => PlainJpeg.Progressive(64, 48, 100, means: 8), new Taken(64, 48, [new(128, 128, 128)])),
            new("progressive JPEG cut off in its last scan", () => PlainJpeg.Progressive(64, 48, 100)[..^3], new Refused(422, "cut off")),
            new("JPEG with the data of one block and an end", () => PlainJpeg.Of(640, 480, [100, 128, 128], blocks: 1), new Refused(422, "part of the picture")),
            new("JPEG with things after its end", () => [.. whole, .. Made.Png(), 0xFF, 0xD8, 0xFF], new Taken(64, 48, Quarters, 20)),
        ];
    }

    private static IEnumerable<HostileFile> Sizes() =>
    [
        new("JPEG of one pixel", () => PlainJpeg.Of(1, 1, [200]), new Taken(1, 1, [new(200, 200, 200)])),
        new("JPEG of 1 × 60 000", () => PlainJpeg.Of(1, 60_000, [90]), new Taken(1, 60_000, [new(90, 90, 90)])),
        new("JPEG of 60 000 × 1", () => PlainJpeg.Of(60_000, 1, [90]), new Taken(60_000, 1, [new(90, 90, 90)])),
        new("JPEG of 65 500 × 763", () => PlainJpeg.Of(65_500, 763, [90]), new Taken(65_500, 763, [new(90, 90, 90)])),
        new("JPEG of 65 501 × 1", () => PlainJpeg.Of(65_501, 1, [90]), new Refused(422, "65500 a side")),
        new("JPEG that says 30 000 × 30 000 in a few hundred bytes", () => PlainJpeg.Of(30_000, 30_000, [90], blocks: 4), new Refused(422, "30000 × 30000")),
        new("JPEG that says 65 535 × 65 535", () => PlainJpeg.Of(65_535, 65_535, [90], blocks: 4), new Refused(422, "50 megapixels")),
        new("JPEG that says 7 000 × 7 000 and has four blocks", () => PlainJpeg.Of(7_000, 7_000, [90, 128, 128], blocks: 4), new Refused(422, "part of the picture")),
        new("JPEG of width 0", () => PlainJpeg.Of(0, 100, [90], blocks: 4), new Refused(422, "above 0")),
        new("JPEG of height 0", () => PlainJpeg.Of(100, 0, [90], blocks: 4), new Refused(422, "above 0")),
        new("JPEG of 49 megapixels", () => PlainJpeg.Of(7_000, 7_000, [77]), new Taken(7_000, 7_000, [new(77, 77, 77)])),
    ];

    private static IEnumerable<HostileFile> Colours() =>
    [
        new("JPEG in grey", () => PlainJpeg.Of(40, 30, [120]), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG in colour", () => PlainJpeg.Of(40, 30, [76, 85, 255]), new Taken(40, 30, [new(254, 0, 0)])),
        new("JPEG in CMYK as Adobe stores it: red", () => PlainJpeg.Of(40, 30, [255, 0, 0, 255]), new Taken(40, 30, [new(255, 0, 0)])),
        new("JPEG in CMYK as Adobe stores it: grey", () => PlainJpeg.Of(40, 30, [255, 255, 255, 128]), new Taken(40, 30, [new(128, 128, 128)])),
        new("JPEG in Display P3", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), IccProfile.DisplayP3), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG with a profile cut short", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), IccProfile.DisplayP3[..200]), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG with a profile of rubbish", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), [.. Enumerable.Range(0, 5000).Select(i => (byte)(i * 7))]), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG with a profile of 16 MB", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), [.. IccProfile.DisplayP3, .. new byte[16_000_000]]), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG with a profile that says it is 4 GB", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), [0xFF, 0xFF, 0xFF, 0xFF, .. IccProfile.DisplayP3[4..]]), new Taken(40, 30, [new(120, 120, 120)])),
        new("JPEG with a profile of a billion tags", () => JpegParts.WithProfile(PlainJpeg.Of(40, 30, [120, 128, 128]), [.. IccProfile.DisplayP3[..128], 0x3B, 0x9A, 0xCA, 0, .. IccProfile.DisplayP3[132..]]), new Taken(40, 30, [new(120, 120, 120)])),
    ];

    private static IEnumerable<HostileFile> Turned()
    {
        // Which stored corner is seen where: CIPA DC-008, tag Orientation.
        string[] corners = ["ABCD", "BADC", "DCBA", "CDAB", "ACBD", "CADB", "DBCA", "BDAC"];
        for (var o = 1; o <= 8; o++)
        {
            var orientation = (ushort)o;
            SKColor[] seen = [.. corners[o - 1].Select(c => Quarters[c - 'A'])];
            var (width, height) = o < 5 ? (64, 48) : (48, 64);
            yield return new($"JPEG of orientation {o}", () => Made.Jpeg(64, 48, orientation), new Taken(width, height, seen));
            yield return new($"PNG of orientation {o}", () => Made.Png(64, 48, orientation: orientation), new Taken(width, height, seen));
            yield return new($"WebP of orientation {o}", () => Made.WebP(64, 48, orientation: orientation), new Taken(width, height, seen, 24));
        }

        foreach (ushort senseless in new ushort[] { 9, 255 })
        {
            yield return new($"JPEG of orientation {senseless}", () => Made.Jpeg(64, 48, senseless), new Taken(64, 48, Quarters));
        }
    }

    private static IEnumerable<HostileFile> Bombs()
    {
        byte[] With(byte[] block) => JpegParts.With(Made.Jpeg(), 0xE1, [.. "Exif\0\0"u8, .. block]);
        return
        [
            new("JPEG whose Exif leads to itself", () => With([.. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x87, 0x69, 0, 4, 0, 0, 0, 1, 0, 0, 0, 8, 0, 0, 0, 8]), new Taken(64, 48, Quarters)),
            new("JPEG whose Exif has 65 535 entries", () => With([.. "MM\0*"u8, 0, 0, 0, 8, 0xFF, 0xFF, .. new byte[60_000]]), new Taken(64, 48, Quarters)),
            new("JPEG whose Exif lies far away", () => With([.. "MM\0*"u8, 0xFF, 0xFF, 0xFF, 0xF0]), new Taken(64, 48, Quarters)),
            new("JPEG whose Exif says an entry is 4 GB", () => With([.. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x01, 0x0F, 0, 2, 0xFF, 0xFF, 0xFF, 0xFF, 0, 0, 0, 8, 0, 0, 0, 0]), new Taken(64, 48, Quarters)),
            new("JPEG with an empty Exif", () => With([]), new Taken(64, 48, Quarters)),
            new("JPEG with 500 Exif blocks", () => Enumerable.Range(0, 500).Aggregate(Made.Jpeg(), (file, _) => JpegParts.With(file, 0xE1, [.. "Exif\0\0"u8, .. Exif.Block(0, true)])), new Taken(64, 48, Quarters)),
            new("JPEG with 10 000 comments", () => [.. Made.Jpeg()[..2], .. Enumerable.Repeat<byte[]>([0xFF, 0xFE, 0, 4, 65, 66], 10_000).SelectMany(c => c), .. Made.Jpeg()[2..]], new Taken(64, 48, Quarters)),
            new("JPEG with a megabyte of fill bytes", () => [.. Made.Jpeg()[..2], .. Enumerable.Repeat((byte)0xFF, 1_000_000), .. Made.Jpeg()[2..]], new Taken(64, 48, Quarters)),
        ];
    }

    private static IEnumerable<HostileFile> Polyglots() =>
    [
        new("JPEG that is a page too", () => JpegParts.With(Made.Jpeg(), 0xFE, "--><html><script>alert(1)</script></html><!--"u8), new Taken(64, 48, Quarters)),
        new("JPEG with a page behind it", () => [.. Made.Jpeg(), .. "<html><script>alert(1)</script></html>"u8], new Taken(64, 48, Quarters)),
        new("JPEG with a PHP in its comment", () => JpegParts.With(Made.Jpeg(), 0xFE, "<?php system($_GET[0]); ?>"u8), new Taken(64, 48, Quarters)),
        new("JPEG that is a PDF too", () => JpegParts.With(Made.Jpeg(), 0xFE, "%PDF-1.7\n1 0 obj <</Type /Catalog>> endobj"u8), new Taken(64, 48, Quarters)),
        new("page that says it is a JPEG", () => "<html><img src=x onerror=alert(1)></html>"u8.ToArray(), new Refused(415, "JPEG, PNG or WebP")) { SentAs = "page.jpg"u8.ToArray() },
    ];
}
