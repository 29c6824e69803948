using System.Buffers.Binary;
using System.IO.Compression;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Writes PNG files (ISO/IEC 15948): 8 bits a channel, RGB, one image data chunk.</summary>
internal static class Png
{
    private static readonly uint[] Crc = Table();

    /// <param name="width">In pixels.</param>
    /// <param name="rgb">Three bytes a pixel, row by row from the top.</param>
    public static byte[] Write(int width, ReadOnlySpan<byte> rgb)
    {
        var stride = width * 3;
        var height = rgb.Length / stride;
        using var data = new MemoryStream();
        using (var packed = new ZLibStream(data, CompressionLevel.Fastest, leaveOpen: true))
        {
            var line = new byte[stride + 1];
            line[0] = 2; // each row as its difference from the one above
            for (var y = 0; y < height; y++)
            {
                var row = rgb.Slice(y * stride, stride);
                for (var i = 0; i < stride; i++) line[i + 1] = (byte)(row[i] - (y == 0 ? 0 : rgb[(y - 1) * stride + i]));
                packed.Write(line);
            }
        }

        using var file = new MemoryStream();
        file.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);
        Span<byte> head = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head[4..], height);
        head[8] = 8;
        head[9] = 2;
        Chunk(file, "IHDR"u8, head);
        Chunk(file, "IDAT"u8, data.GetBuffer().AsSpan(0, (int)data.Length));
        Chunk(file, "IEND"u8, []);
        return file.ToArray();
    }

    private static void Chunk(MemoryStream file, ReadOnlySpan<byte> name, ReadOnlySpan<byte> body)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, body.Length);
        file.Write(number);
        file.Write(name);
        file.Write(body);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Sum(Sum(uint.MaxValue, name), body));
        file.Write(number);
    }

    private static uint Sum(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var b in bytes) crc = Crc[(crc ^ b) & 0xFF] ^ (crc >> 8);
        return crc;
    }

    private static uint[] Table()
    {
        var table = new uint[256];
        for (uint n = 0; n < 256; n++)
        {
            var c = n;
            for (var bit = 0; bit < 8; bit++) c = (c & 1) != 0 ? 0xEDB88320 ^ (c >> 1) : c >> 1;
            table[n] = c;
        }

        return table;
    }
}
