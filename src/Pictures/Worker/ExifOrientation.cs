using System.Buffers.Binary;

namespace HeirloomArchive.Pictures;

/// <summary>
/// The orientation that the Exif block of a PNG or WebP names; the library reads it in JPEG, but not in PNG, nor in a WebP
/// whose block begins as in a JPEG. Runs in the worker, on files whose chunks the host has found to add up.
/// </summary>
internal static class ExifOrientation
{
    private const ushort Tag = 0x0112, Short = 3;

    /// <summary>Null when none is named, or none that has a meaning.</summary>
    public static Orientation? Of(ReadOnlySpan<byte> file, PictureFormat format) => format switch
    {
        PictureFormat.Png => InPng(file),
        PictureFormat.WebP => InWebP(file),
        _ => null,
    };

    private static Orientation? InPng(ReadOnlySpan<byte> file)
    {
        for (var at = 8; at + 12 <= file.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(file[at..]);
            if (length < 0 || length > file.Length - at - 12)
            {
                return null;
            }

            if (file.Slice(at + 4, 4).SequenceEqual("eXIf"u8))
            {
                return InTiff(file.Slice(at + 8, length));
            }

            at += 12 + length;
        }

        return null;
    }

    private static Orientation? InWebP(ReadOnlySpan<byte> file)
    {
        for (var at = 12; at + 8 <= file.Length;)
        {
            var length = BinaryPrimitives.ReadInt32LittleEndian(file[(at + 4)..]);
            if (length < 0 || length > file.Length - at - 8)
            {
                return null;
            }

            if (file.Slice(at, 4).SequenceEqual("EXIF"u8))
            {
                var block = file.Slice(at + 8, length);
                return InTiff(block.StartsWith("Exif\0\0"u8) ? block[6..] : block);
            }

            at += 8 + length + (length & 1);
        }

        return null;
    }

    /// <summary>The first image file directory of the block (TIFF 6.0, section 2).</summary>
    private static Orientation? InTiff(ReadOnlySpan<byte> block)
    {
        if (block.Length < 8 || !(block.StartsWith("II*\0"u8) || block.StartsWith("MM\0*"u8)))
        {
            return null;
        }

        var little = block[0] == 'I';
        var directory = Four(block, 4);
        if (directory > block.Length - 2)
        {
            return null;
        }

        var entries = block[((int)directory + 2)..];
        for (int left = Two(block, (int)directory); left > 0 && entries.Length >= 12; left--, entries = entries[12..])
        {
            if (Two(entries, 0) == Tag)
            {
                return Two(entries, 2) == Short && Two(entries, 8) is >= 1 and <= 8 and var value ? (Orientation)value : null;
            }
        }

        return null;

        ushort Two(ReadOnlySpan<byte> from, int at) =>
            little ? BinaryPrimitives.ReadUInt16LittleEndian(from[at..]) : BinaryPrimitives.ReadUInt16BigEndian(from[at..]);
        uint Four(ReadOnlySpan<byte> from, int at) =>
            little ? BinaryPrimitives.ReadUInt32LittleEndian(from[at..]) : BinaryPrimitives.ReadUInt32BigEndian(from[at..]);
    }
}
