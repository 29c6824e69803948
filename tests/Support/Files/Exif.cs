using System.Buffers.Binary;

namespace HeirloomArchive.Support;

/// <summary>Exif blocks made for the tests (CIPA DC-008; TIFF 6.0).</summary>
public static class Exif
{
    /// <param name="orientation">0 for none.</param>
    /// <param name="placed">With camera, place, a maker's note and a small picture.</param>
    public static byte[] Block(ushort orientation, bool placed)
    {
        List<Entry> main = [];
        if (placed)
        {
            main.Add(new(0x010F, 2, "A camera's maker\0"u8.ToArray()));
        }

        if (orientation > 0)
        {
            main.Add(new(0x0112, 3, [0, (byte)orientation, 0, 0], 1));
        }

        if (!placed)
        {
            return [.. "MM\0*"u8, 0, 0, 0, 8, .. Directory(main, 8, 0)];
        }

        // Its two lower directories and the small picture lie behind the main one; lengths don't depend on the pointers.
        List<Entry> all(int exif, int gps) => [.. main, new(0x8769, 4, Number(exif), 1), new(0x8825, 4, Number(gps), 1)];
        var first = 8 + Directory(all(0, 0), 8, 0).Length;
        var exif = Directory([new(0x927C, 7, "a maker's note of a camera"u8.ToArray()), new(0xA431, 2, "serial 12345\0"u8.ToArray())], first, 0);
        List<Entry> place = [new(1, 2, [(byte)'N', 0, 0, 0], 2), new(2, 5, [.. Ratio(51, 1), .. Ratio(30, 1), .. Ratio(0, 1)], 3), new(3, 2, [(byte)'W', 0, 0, 0], 2), new(4, 5, [.. Ratio(0, 1), .. Ratio(7, 1), .. Ratio(0, 1)], 3)];
        var gps = Directory(place, first + exif.Length, 0);
        var small = Made.Jpeg(16, 12);
        var second = first + exif.Length + gps.Length;
        var thumbnail = Directory([new(0x0103, 3, [0, 6, 0, 0], 1), new(0x0201, 4, Number(second + 42), 1), new(0x0202, 4, Number(small.Length), 1)], second, 0);
        return [.. "MM\0*"u8, 0, 0, 0, 8, .. Directory(all(first, first + exif.Length), 8, second), .. exif, .. gps, .. thumbnail, .. small];
    }

    /// <summary>An entry of a directory; what is longer than four bytes lies behind the directory.</summary>
    private sealed record Entry(ushort Tag, ushort Type, byte[] Value, int? Count = null);

    private static byte[] Directory(List<Entry> entries, int at, int next)
    {
        List<byte> front = [.. Two(entries.Count)], behind = [];
        var end = at + 2 + (12 * entries.Count) + 4;
        foreach (var entry in entries)
        {
            front.AddRange([.. Two(entry.Tag), .. Two(entry.Type), .. Number(entry.Count ?? entry.Value.Length)]);
            front.AddRange(entry.Value.Length <= 4 ? [.. entry.Value, .. new byte[4 - entry.Value.Length]] : Number(end + behind.Count));
            behind.AddRange(entry.Value.Length <= 4 ? [] : [.. entry.Value, .. new byte[entry.Value.Length & 1]]);
        }

        return [.. front, .. Number(next), .. behind];
    }

    private static byte[] Ratio(int above, int below) => [.. Number(above), .. Number(below)];

    private static byte[] Two(int number) => [(byte)(number >> 8), (byte)number];

    private static byte[] Number(int number)
    {
        var four = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(four, number);
        return four;
    }
}
