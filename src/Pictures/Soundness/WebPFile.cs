namespace HeirloomArchive.Pictures.Soundness;

/// <summary>The structure of a WebP file: RIFF chunks that add up, with one still picture in them (RFC 9649).</summary>
internal static class WebPFile
{
    private const uint Lossy = 0x20385056, Lossless = 0x4C385056, Extended = 0x58385056; // "VP8 ", "VP8L", "VP8X"
    private const uint Animation = 0x4D494E41, Frame = 0x464D4E41; // "ANIM", "ANMF"

    /// <summary>Width and height in pixels. What follows the RIFF container is no part of it and is let be.</summary>
    public static (long Width, long Height) Read(FileReader file)
    {
        file.Skip(4);
        var left = file.LittleEndian() - 4L;
        file.Skip(4);
        (long, long)? canvas = null, picture = null;
        while (left > 0)
        {
            if (left < 8)
            {
                throw Wrong(T("its chunks do not add up to its size"));
            }

            var name = file.LittleEndian();
            var length = (long)file.LittleEndian();
            var padded = length + (length & 1);
            left -= 8 + padded;
            if (left < 0)
            {
                throw Wrong(T("a chunk is longer than the file says it is"));
            }

            switch (name)
            {
                case Animation or Frame:
                    throw new UnsoundException(() => T("This WebP file is animated; send a still picture."));
                case Extended:
                    canvas = canvas is null && picture is null && length >= 10 ? Canvas(file) : throw Wrong(T("its header is not where it must be"));
                    padded -= 10;
                    break;
                case Lossy or Lossless when picture is not null:
                    throw Wrong(T("it holds more than one picture"));
                case Lossy:
                    picture = length >= 10 ? LossyFrame(file, length) : throw Wrong(T("its picture is too short"));
                    padded -= 10;
                    break;
                case Lossless:
                    picture = length >= 5 ? LosslessFrame(file) : throw Wrong(T("its picture is too short"));
                    padded -= 5;
                    break;
            }

            file.Skip(padded);
        }

        return picture is null ? throw Wrong(T("it has no picture data"))
            : canvas is null || canvas == picture ? picture.Value
            : throw Wrong(T("its header and its picture differ in size"));
    }

    private static (long, long) Canvas(FileReader file)
    {
        Span<byte> b = stackalloc byte[10];
        file.Read(b);
        return (1L + b[4] + (b[5] << 8) + (b[6] << 16), 1L + b[7] + (b[8] << 8) + (b[9] << 16));
    }

    /// <summary>The frame header of VP8 (RFC 6386, 9.1): key frame, size of the first partition, start code, sides in 14 bits.</summary>
    private static (long, long) LossyFrame(FileReader file, long length)
    {
        Span<byte> b = stackalloc byte[10];
        file.Read(b);
        var tag = b[0] | (b[1] << 8) | (b[2] << 16);
        return (tag & 1) == 0 && tag >> 5 <= length - 10 && b[3] == 0x9D && b[4] == 0x01 && b[5] == 0x2A
            ? ((b[6] | (b[7] << 8)) & 0x3FFF, (b[8] | (b[9] << 8)) & 0x3FFF)
            : throw Wrong(T("its picture does not begin as one"));
    }

    private static (long, long) LosslessFrame(FileReader file)
    {
        var mark = file.Byte();
        var bits = file.LittleEndian();
        return mark == 0x2F && bits >> 29 == 0
            ? (1L + (bits & 0x3FFF), 1L + ((bits >> 14) & 0x3FFF))
            : throw Wrong(T("its picture does not begin as one"));
    }

    private static UnsoundException Wrong(string what) => new(() => T($"The WebP file is damaged: {what}. Copy or send it again."));
}
