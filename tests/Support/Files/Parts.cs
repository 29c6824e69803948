using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace HeirloomArchive.Support;

/// <summary>JPEG files put together from parts.</summary>
public static class JpegParts
{
    /// <summary>The same file with a segment more, just after its start.</summary>
    public static byte[] With(byte[] file, byte marker, ReadOnlySpan<byte> content) =>
        [.. file[..2], 0xFF, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content, .. file[2..]];

    /// <summary>The same file with an ICC profile in as many segments as it takes (ICC.1:2022, annex B.4).</summary>
    public static byte[] WithProfile(byte[] file, byte[] profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        const int Most = 65_519;
        var count = (profile.Length + Most - 1) / Most;
        for (var i = count; i > 0; i--)
        {
            var part = profile[((i - 1) * Most)..Math.Min(i * Most, profile.Length)];
            file = With(file, 0xE2, [.. "ICC_PROFILE\0"u8, (byte)i, (byte)count, .. part]);
        }

        return file;
    }
}

/// <summary>PNG files put together from parts (ISO/IEC 15948).</summary>
public static class PngParts
{
    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>A PNG of a few dozen bytes that says it is as large as asked; all its checksums are right.</summary>
    public static byte[] Saying(int width, int height) => Of(width, height, 2, 8, false, [0x78, 0x9C, 0x03, 0, 0, 0, 0, 1]);

    /// <summary>The same file with a chunk more, just after its header.</summary>
    public static byte[] With(byte[] file, byte[] chunk) => [.. file[..33], .. chunk, .. file[33..]];

    /// <summary>A chunk with an ICC profile.</summary>
    public static byte[] Profile(byte[] profile) => Chunk("iCCP"u8, [.. "a profile\0\0"u8, .. Deflated(profile)]);

    /// <summary>A file of these compressed rows.</summary>
    public static byte[] Of(int width, int height, byte colour, byte depth, bool interlaced, byte[] data, params byte[][] chunks)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9], header[12]) = (depth, colour, interlaced ? (byte)1 : (byte)0);
        return [.. Signature, .. Chunk("IHDR"u8, header), .. chunks.SelectMany(c => c), .. Chunk("IDAT"u8, data), .. Chunk("IEND"u8, [])];
    }

    /// <summary>A file in one of the ways of storing a PNG, each sample from a function of x, y and channel, in 0 to 2^depth - 1.</summary>
    public static byte[] Stored(int width, int height, byte colour, byte depth, bool interlaced, Func<int, int, int, int> sample, params byte[][] chunks)
    {
        ArgumentNullException.ThrowIfNull(sample);
        var channels = colour switch { 2 => 3, 4 => 2, 6 => 4, _ => 1 };
        using var rows = new MemoryStream();
        (int X, int Y, int Across, int Down)[] passes = interlaced
            ? [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)]
            : [(0, 0, 1, 1)];
        foreach (var pass in passes.Where(p => p.X < width))
        {
            for (var y = pass.Y; y < height; y += pass.Down)
            {
                rows.WriteByte(0);
                var (bits, held) = (0, 0);
                for (var x = pass.X; x < width; x += pass.Across)
                {
                    for (var channel = 0; channel < channels; channel++)
                    {
                        (bits, held) = ((bits << depth) | sample(x, y, channel), held + depth);
                        for (; held >= 8; held -= 8)
                        {
                            rows.WriteByte((byte)(bits >> (held - 8)));
                        }
                    }
                }

                if (held > 0)
                {
                    rows.WriteByte((byte)(bits << (8 - held)));
                }
            }
        }

        return Of(width, height, colour, depth, interlaced, Deflated(rows.ToArray()), chunks);
    }

    /// <summary>A chunk with its checksum, worked out bit by bit, otherwise than in the product.</summary>
    public static byte[] Chunk(ReadOnlySpan<byte> type, ReadOnlySpan<byte> data)
    {
        byte[] body = [.. type, .. data];
        var crc = uint.MaxValue;
        foreach (var b in body)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
            }
        }

        var length = new byte[4];
        var check = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, data.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, ~crc);
        return [.. length, .. body, .. check];
    }

    public static byte[] Deflated(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        using var to = new MemoryStream();
        using (var zlib = new ZLibStream(to, CompressionLevel.Optimal, leaveOpen: true))
        {
            zlib.Write(bytes);
        }

        return to.ToArray();
    }
}

/// <summary>WebP files put together from parts (RFC 9649).</summary>
public static class WebPParts
{
    /// <summary>The same still picture in an extended file, with chunks more; ICCP goes before the picture, all else behind.</summary>
    public static byte[] With(byte[] file, int width, int height, params (string Name, byte[] Content)[] chunks)
    {
        var flags = (byte)chunks.Sum(c => c.Name switch { "ICCP" => 0x20, "EXIF" => 0x08, "XMP " => 0x04, _ => 0 });
        var (w, h) = (width - 1, height - 1);
        byte[] head = [flags, 0, 0, 0, (byte)w, (byte)(w >> 8), (byte)(w >> 16), (byte)h, (byte)(h >> 8), (byte)(h >> 16)];
        return Riff([
            .. Chunk("VP8X", head), .. chunks.Where(c => c.Name == "ICCP").SelectMany(c => Chunk(c.Name, c.Content)),
            .. file[12..], .. chunks.Where(c => c.Name != "ICCP").SelectMany(c => Chunk(c.Name, c.Content)),
        ]);
    }

    public static byte[] Riff(byte[] chunks)
    {
        ArgumentNullException.ThrowIfNull(chunks);
        return [.. "RIFF"u8, .. BitConverter.GetBytes(chunks.Length + 4), .. "WEBP"u8, .. chunks];
    }

    public static byte[] Chunk(string name, byte[] content)
    {
        ArgumentNullException.ThrowIfNull(content);
        return [.. Encoding.ASCII.GetBytes(name), .. BitConverter.GetBytes(content.Length), .. content, .. new byte[content.Length & 1]];
    }
}
