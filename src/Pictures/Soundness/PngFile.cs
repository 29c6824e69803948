using System.Text;

namespace HeirloomArchive.Pictures.Soundness;

/// <summary>The structure of a PNG file: every chunk with its checksum, from IHDR to IEND (ISO/IEC 15948, clause 5).</summary>
internal static class PngFile
{
    private const uint Ihdr = 0x49484452, Idat = 0x49444154, Iend = 0x49454E44;

    private static readonly uint[] Table = MakeTable();

    /// <summary>Width and height in pixels. What follows IEND is no part of it and is let be.</summary>
    public static (long Width, long Height) Read(FileReader file)
    {
        file.Skip(8);
        long width = 0, height = 0;
        var data = false;
        Span<byte> type = stackalloc byte[4];
        Span<byte> header = stackalloc byte[13];
        for (var first = true; ; first = false)
        {
            var length = file.BigEndian();
            file.Read(type);
            var name = ((uint)type[0] << 24) | ((uint)type[1] << 16) | ((uint)type[2] << 8) | type[3];
            if (length > int.MaxValue || type.ContainsAnyExcept(Letters) || first != (name == Ihdr) || (first && length != header.Length))
            {
                throw Wrong(first ? T("its header is not where it must be") : T("a chunk has an impossible name or length"));
            }

            var crc = Add(uint.MaxValue, type);
            if (first)
            {
                file.Read(header);
                crc = Add(crc, header);
                width = Number(header);
                height = Number(header[4..]);
            }
            else
            {
                for (long left = length; left > 0;)
                {
                    var part = file.Some(left);
                    crc = Add(crc, part);
                    left -= part.Length;
                }
            }

            if (file.BigEndian() != ~crc)
            {
                throw Wrong(T($"the checksum of its chunk {Encoding.ASCII.GetString(type)} is wrong"));
            }

            data |= name == Idat && length > 0;
            if (name == Iend)
            {
                return data ? (width, height) : throw Wrong(T("it has no picture data"));
            }
        }
    }

    private static System.Buffers.SearchValues<byte> Letters { get; } =
        System.Buffers.SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"u8);

    private static long Number(ReadOnlySpan<byte> four) => System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(four);

    private static uint Add(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var b in bytes)
        {
            crc = Table[(byte)(crc ^ b)] ^ (crc >> 8);
        }

        return crc;
    }

    /// <summary>The CRC of ISO 3309 with the reversed polynomial, as PNG's annex D has it.</summary>
    private static uint[] MakeTable()
    {
        var table = new uint[256];
        for (uint n = 0; n < 256; n++)
        {
            var c = n;
            for (var bit = 0; bit < 8; bit++)
            {
                c = (c & 1) == 0 ? c >> 1 : 0xEDB88320 ^ (c >> 1);
            }

            table[n] = c;
        }

        return table;
    }

    private static UnsoundException Wrong(string what) => new(() => T($"The PNG file is damaged: {what}. Copy or send it again."));
}
