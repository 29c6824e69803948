namespace HeirloomArchive.Pictures.Soundness;

/// <summary>The structure of a JPEG file, from the start of image to the end of image (ISO/IEC 10918-1, annex B).</summary>
internal static class JpegFile
{
    private const byte EndOfImage = 0xD9, StartOfScan = 0xDA, DefineLines = 0xDC;

    /// <summary>Width and height in pixels. What follows the end of image is no part of it and is let be.</summary>
    public static (long Width, long Height) Read(FileReader file) => Walk(file).Size;

    /// <summary>The same, and where the end of image stands, when all of the picture is in one scan that is read once from front to back.</summary>
    public static ((long Width, long Height) Size, long? EndOfOnlyScan) Walk(FileReader file)
    {
        file.Skip(2);
        (long Width, long Height)? frame = null;
        var inOne = false;
        var scans = 0;
        for (var marker = Marker(file); marker != EndOfImage;)
        {
            if (marker is 0xD8 or 0x01 or >= 0xD0 and <= 0xD7)
            {
                throw Wrong(T($"a mark {marker:X2} where none may stand"));
            }

            if (marker == StartOfScan && frame is null)
            {
                throw Wrong(T("a scan before its frame header"));
            }

            var length = file.TwoBytes() - 2;
            if (length < 0)
            {
                throw Wrong(T($"a segment {marker:X2} of impossible length"));
            }

            if (IsFrame(marker))
            {
                if (frame is not null || length < 6)
                {
                    throw Wrong(T("a second or too short frame header"));
                }

                inOne = marker is 0xC0 or 0xC1; // Sequential with Huffman codes.
                file.Skip(1);
                var height = file.TwoBytes();
                frame = (file.TwoBytes(), height);
                length -= 5;
            }

            file.Skip(length);
            if (marker == StartOfScan)
            {
                scans++;
                marker = AfterScan(file);
            }
            else
            {
                marker = marker == DefineLines ? throw Wrong(T("its height only after its first scan")) : Marker(file);
            }
        }

        return scans > 0 ? (frame!.Value, inOne && scans == 1 ? file.Position - 2 : null) : throw Wrong(T("an end before any picture"));
    }

    /// <summary>SOF0 to SOF15 without the three marks of that range that mean something else (DHT, JPG, DAC).</summary>
    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

    private static byte Marker(FileReader file)
    {
        if (file.Byte() != 0xFF)
        {
            throw Wrong(T("bytes between its segments that belong to none"));
        }

        byte marker;
        do
        {
            marker = file.Byte();
        }
        while (marker == 0xFF);
        return marker == 0 ? throw Wrong(T("bytes between its segments that belong to none")) : marker;
    }

    /// <summary>Past the coded data: a stuffed zero and the restart marks belong to it, the next other mark ends it.</summary>
    private static byte AfterScan(FileReader file)
    {
        while (true)
        {
            file.SkipPast(0xFF);
            byte marker;
            do
            {
                marker = file.Byte();
            }
            while (marker == 0xFF);
            if (marker is not 0 and not (>= 0xD0 and <= 0xD7))
            {
                return marker;
            }
        }
    }

    private static UnsoundException Wrong(string what) => new(() => T($"The JPEG file is damaged: it has {what}. Copy or send it again."));
}
