using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>A picture that can't be packed, so that it is large enough to come in several parts; each another.</summary>
internal static class NoisePicture
{
    /// <summary>A PNG file of some 2.5 MB (ISO/IEC 15948: signature, IHDR, IDAT, IEND).</summary>
    public static FilePayload Named(string name)
    {
        const int Side = 900;
        var rows = new byte[Side * ((Side * 3) + 1)];
        Random.Shared.NextBytes(rows);
        for (var y = 0; y < Side; y++)
        {
            rows[y * ((Side * 3) + 1)] = 0;
        }

        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            zlib.Write(rows);
        }

        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, Side);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), Side);
        (head[8], head[9]) = (8, 2);
        return new()
        {
            Name = name, MimeType = "image/png",
            Buffer = [0x89, .. "PNG\r\n"u8, 0x1A, 0x0A, .. Chunk("IHDR", head), .. Chunk("IDAT", packed.ToArray()), .. Chunk("IEND", [])],
        };
    }

    private static byte[] Chunk(string type, byte[] data)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(type), .. data];
        var crc = uint.MaxValue;
        foreach (var b in named)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc >> 1) ^ (0xEDB88320 & (uint)-(int)(crc & 1));
            }
        }

        var (length, check) = (new byte[4], new byte[4]);
        BinaryPrimitives.WriteInt32BigEndian(length, data.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, ~crc);
        return [.. length, .. named, .. check];
    }
}
