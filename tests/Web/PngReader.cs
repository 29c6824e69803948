using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace HeirloomArchive.Web.Tests;

/// <summary>Reads the drawings by the standard alone.</summary>
internal static class PngReader
{
    // Reads what the writer wrote by the standard alone (ISO/IEC 15948), sums of the chunks included.
    public static byte[] Decode(byte[] png, out int width, out int height)
    {
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        (width, height) = (0, 0);
        using var packed = new MemoryStream();
        for (var at = 8; at < png.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
            var body = png.AsSpan(at + 8, length);
            Assert.Equal(Crc(png.AsSpan(at + 4, length + 4)), BinaryPrimitives.ReadUInt32BigEndian(png.AsSpan(at + 8 + length)));
            switch (Encoding.ASCII.GetString(png, at + 4, 4))
            {
                case "IHDR":
                    width = BinaryPrimitives.ReadInt32BigEndian(body);
                    height = BinaryPrimitives.ReadInt32BigEndian(body[4..]);
                    Assert.Equal([8, 2, 0, 0, 0], body[8..].ToArray());
                    break;
                case "IDAT": packed.Write(body); break;
            }

            at += 12 + length;
        }

        packed.Position = 0;
        using var rows = new ZLibStream(packed, CompressionMode.Decompress);
        var rgb = new byte[width * height * 3];
        var stride = width * 3;
        for (var y = 0; y < height; y++)
        {
            Assert.Equal(2, rows.ReadByte());
            rows.ReadExactly(rgb.AsSpan(y * stride, stride));
            for (var i = 0; y > 0 && i < stride; i++) rgb[y * stride + i] += rgb[(y - 1) * stride + i];
        }

        return rgb;
    }

    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++) crc = (crc >> 1) ^ (0xEDB88320 & (uint)-(int)(crc & 1));
        }

        return ~crc;
    }
}
