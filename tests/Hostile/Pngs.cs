using System.Buffers.Binary;
using HeirloomArchive.Support;
using SkiaSharp;

namespace HeirloomArchive.Hostile.Tests;

internal static class Pngs
{
    private static readonly SKColor Grey = new(191, 191, 191);

    public static IEnumerable<HostileFile> All() => [.. Cuts(), .. WrongSums(), .. Stored(), .. Sizes(), .. Damaged(), .. Bombs(), .. Polyglots()];

    private static List<(string Name, int At, int Length)> Chunks(byte[] file)
    {
        List<(string, int, int)> chunks = [];
        for (var at = 8; at < file.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at));
            chunks.Add((System.Text.Encoding.ASCII.GetString(file, at + 4, 4), at, length));
            at += 12 + length;
        }

        return chunks;
    }

    private static byte[] Rich() => PngParts.With(Made.Png(300, 200, orientation: 1), PngParts.Profile(IccProfile.DisplayP3));

    private static IEnumerable<HostileFile> Cuts()
    {
        var whole = Rich();
        var places = Chunks(whole).SelectMany(c => new[] { c.At, c.At + 2, c.At + 6, c.At + 8 + (c.Length / 2), c.At + 8 + c.Length, c.At + 10 + c.Length }).Append(8);
        return places.Distinct().Order().Select(p => new HostileFile($"PNG cut off after {p} of {whole.Length} bytes", () => whole[..p], new Refused(422, "cut off")));
    }

    private static IEnumerable<HostileFile> WrongSums()
    {
        var whole = Rich();
        return Chunks(whole).DistinctBy(c => c.Name).Select(c => new HostileFile($"PNG whose checksum of {c.Name} is wrong", () =>
        {
            var changed = whole.ToArray();
            changed[c.At + 8 + c.Length] ^= 1;
            return changed;
        }, new Refused(422, $"checksum of its chunk {c.Name}")));
    }

    /// <summary>Every colour type and depth of ISO/IEC 15948, table 11.1, in both orders of rows.</summary>
    private static IEnumerable<HostileFile> Stored()
    {
        (byte Colour, byte[] Depths)[] kinds = [(0, [1, 2, 4, 8, 16]), (2, [8, 16]), (3, [1, 2, 4, 8]), (4, [8, 16]), (6, [8, 16])];
        foreach (var (colour, depth, interlaced) in kinds.SelectMany(k => k.Depths.SelectMany(d => new[] { (k.Colour, d, false), (k.Colour, d, true) })))
        {
            var most = (1 << depth) - 1;
            int Sample(int x, int y, int channel) => colour == 4 && channel == 1 || colour == 6 && channel == 3 ? most : colour == 3 ? 1 : most * 3 / 4;
            var palette = PngParts.Chunk("PLTE"u8, [0, 0, 0, 191, 191, 191]);
            var value = (byte)(colour == 3 ? 191 : most * 3 / 4 * 255 / most);
            yield return new($"PNG of colour {colour}, {depth} bits{(interlaced ? ", interlaced" : "")}",
                () => PngParts.Stored(33, 21, colour, depth, interlaced, Sample, colour == 3 ? [palette] : []), new Taken(33, 21, [new(value, value, value)], 4));
        }
    }

    private static IEnumerable<HostileFile> Sizes()
    {
        byte[] Of(int width, int height) => PngParts.Stored(width, height, 0, 8, false, (_, _, _) => 191);
        return
        [
            new("PNG of one pixel", () => Of(1, 1), new Taken(1, 1, [Grey])),
            new("PNG of 1 × 60 000", () => Of(1, 60_000), new Taken(1, 60_000, [Grey])),
            new("PNG of 60 000 × 1", () => Of(60_000, 1), new Taken(60_000, 1, [Grey])),
            new("PNG of 1 × 70 000", () => Of(1, 70_000), new Refused(422, "65500 a side")),
            new("PNG that says 30 000 × 30 000 in 100 bytes", () => PngParts.Saying(30_000, 30_000), new Refused(422, "30000 × 30000")),
            new("PNG that says 2 147 483 647 × 2 147 483 647", () => PngParts.Saying(int.MaxValue, int.MaxValue), new Refused(422, "50 megapixels")),
            new("PNG that says -1 × -1", () => PngParts.Saying(-1, -1), new Refused(422, "50 megapixels")),
            new("PNG that says 65 536 × 65 536", () => PngParts.Saying(65_536, 65_536), new Refused(422, "50 megapixels")),
            new("PNG of 0 × 10", () => PngParts.Saying(0, 10), new Refused(422, "above 0")),
            new("PNG of 10 × 0", () => PngParts.Saying(10, 0), new Refused(422, "above 0")),
            new("PNG that says 49 megapixels and has none", () => PngParts.Saying(7_000, 7_000), new Refused(422, "part of the picture")),
            new("PNG of 49 megapixels in 50 kB", () => PngParts.Of(7_000, 7_000, 0, 8, false, PngParts.Deflated(new byte[7_000 * 7_001])), new Taken(7_000, 7_000, [SKColors.Black])),
        ];
    }

    private static IEnumerable<HostileFile> Damaged()
    {
        var rows = PngParts.Deflated(new byte[48 * (1 + (64 * 3))]);
        byte[] Header(byte colour, byte depth, byte compression = 0, byte filter = 0, byte interlace = 0)
        {
            byte[] header = [0, 0, 0, 64, 0, 0, 0, 48, depth, colour, compression, filter, interlace];
            return [.. PngParts.Signature, .. PngParts.Chunk("IHDR"u8, header), .. PngParts.Chunk("IDAT"u8, rows), .. PngParts.Chunk("IEND"u8, [])];
        }

        var refused = new Refused(422, "");
        return
        [
            new("PNG of colour type 1", () => Header(1, 8), refused),
            new("PNG of colour type 7", () => Header(7, 8), refused),
            new("PNG of 3 bits", () => Header(0, 3), refused),
            new("PNG of 255 bits", () => Header(2, 255), refused),
            new("PNG of an unknown compression", () => Header(2, 8, compression: 1), refused),
            new("PNG of an unknown filter", () => Header(2, 8, filter: 1), refused),
            new("PNG of an unknown order of rows", () => Header(2, 8, interlace: 2), refused),
            new("PNG with a palette missing", () => Header(3, 8), refused),
            new("PNG with rows of an unknown filter", () => PngParts.Of(64, 48, 2, 8, false, PngParts.Deflated([.. Enumerable.Repeat((byte)9, 48 * 193)])), refused),
            new("PNG whose data is no deflate", () => PngParts.Of(64, 48, 2, 8, false, [.. Enumerable.Range(0, 500).Select(i => (byte)(i * 31))]), refused),
            new("PNG without its last row", () => PngParts.Of(64, 48, 2, 8, false, PngParts.Deflated(new byte[47 * 193])), new Refused(422, "part of the picture")),
            new("PNG without its last byte", () => PngParts.Of(64, 48, 2, 8, false, PngParts.Deflated(new byte[(48 * 193) - 1])), new Refused(422, "part of the picture")),
            new("PNG with rows too many", () => PngParts.Of(64, 48, 2, 8, false, PngParts.Deflated(new byte[60 * 193])), new Taken(64, 48, [SKColors.Black])),
            new("PNG with two headers", () => PngParts.With(Made.Png(), Made.Png()[8..33]), refused),
            new("PNG with its header second", () => [.. PngParts.Signature, .. PngParts.Chunk("tEXt"u8, "a\0b"u8), .. Made.Png()[8..]], refused),
            new("PNG without data", () => [.. Made.Png()[..33], .. PngParts.Chunk("IEND"u8, [])], refused),
            new("PNG with an empty data chunk", () => PngParts.Of(64, 48, 2, 8, false, []), refused),
            new("PNG with a chunk of impossible length", () => [.. Made.Png()[..33], 0xFF, 0xFF, 0xFF, 0xFF, .. "tEXt"u8], refused),
            new("PNG with a chunk of no letters", () => PngParts.With(Made.Png(), PngParts.Chunk("\0\u0001\u0002\u0003"u8, [1])), refused),
            new("PNG that is only its signature", () => PngParts.Signature.ToArray(), refused),
        ];
    }

    private static IEnumerable<HostileFile> Bombs() =>
    [
        new("PNG with a text of 100 MB in 100 kB", () => PngParts.With(Made.Png(), PngParts.Chunk("zTXt"u8, [.. "a\0\0"u8, .. PngParts.Deflated(new byte[100_000_000])])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with a profile of 100 MB in 100 kB", () => PngParts.With(Made.Png(), PngParts.Profile(new byte[100_000_000])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with a profile of rubbish", () => PngParts.With(Made.Png(), PngParts.Profile([.. Enumerable.Range(0, 5000).Select(i => (byte)(i * 7))])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with a profile that does not inflate", () => PngParts.With(Made.Png(), PngParts.Chunk("iCCP"u8, [.. "a\0\0"u8, 1, 2, 3, 4])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with 10 000 texts", () => PngParts.With(Made.Png(), [.. Enumerable.Repeat(PngParts.Chunk("tEXt"u8, "a\0b"u8), 10_000).SelectMany(c => c)]), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with an Exif that leads to itself", () => PngParts.With(Made.Png(), PngParts.Chunk("eXIf"u8, [.. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x87, 0x69, 0, 4, 0, 0, 0, 1, 0, 0, 0, 8, 0, 0, 0, 8])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with an Exif that lies far away", () => PngParts.With(Made.Png(), PngParts.Chunk("eXIf"u8, [.. "II*\0"u8, 0xF0, 0xFF, 0xFF, 0xFF])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with an Exif of 65 535 entries", () => PngParts.With(Made.Png(), PngParts.Chunk("eXIf"u8, [.. "II*\0"u8, 8, 0, 0, 0, 0xFF, 0xFF, 1, 2, 3])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG animated", () => PngParts.With(Made.Png(), PngParts.Chunk("acTL"u8, [0, 0, 0, 2, 0, 0, 0, 0])), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG that is seen through", () => Made.Png(64, 48, alpha: 0), new Taken(64, 48, [SKColors.White, Made.TopRight, Made.BottomLeft, Made.BottomRight])),
    ];

    private static IEnumerable<HostileFile> Polyglots() =>
    [
        new("PNG with a ZIP behind it", () => [.. Made.Png(), .. "PK\u0003\u0004"u8, .. new byte[200]], new Taken(64, 48, Jpegs.Quarters)),
        new("PNG with a page in a text", () => PngParts.With(Made.Png(), PngParts.Chunk("tEXt"u8, "Comment\0<script>alert(1)</script>"u8)), new Taken(64, 48, Jpegs.Quarters)),
        new("PNG named .jpg", () => Made.Png(), new Taken(64, 48, Jpegs.Quarters)) { SentAs = "picture.jpg"u8.ToArray() },
        new("JPEG named .png", () => Made.Jpeg(), new Taken(64, 48, Jpegs.Quarters)),
        new("SVG with a script named .png", () => "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray(), new Refused(415, "SVG")),
    ];
}
