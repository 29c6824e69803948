namespace HeirloomArchive.Support;

/// <summary>
/// JPEG files of one flat colour written marker by marker (ISO/IEC 10918-1, annexes B, F and G): baseline in one interleaved scan
/// or progressive in two, each block nothing but its mean.
/// </summary>
public static class PlainJpeg
{
    /// <param name="width">Pixels.</param>
    /// <param name="height">Pixels.</param>
    /// <param name="samples">The value of each component, 0 to 255: one for grey, three for Y Cb Cr, four for C M Y K as Adobe stores them.</param>
    /// <param name="blocks">Blocks of each component really coded; all that the size asks for when left out.</param>
    public static byte[] Of(int width, int height, byte[] samples, int? blocks = null)
    {
        ArgumentNullException.ThrowIfNull(samples);
        return
        [
            .. Head(0xC0, width, height, samples), 0xFF, 0xDA, 0, (byte)(6 + (2 * samples.Length)), (byte)samples.Length, .. Enumerable.Range(1, samples.Length).SelectMany(c => new byte[] { (byte)c, 0 }), 0, 63, 0,
            .. Coded(samples, blocks ?? Blocks(width, height), ends: true), 0xFF, 0xD9,
        ];
    }

    /// <summary>In grey and progressive: a scan of the means of all blocks, then one of all else, each saying that there is nothing.</summary>
    /// <param name="width">Pixels.</param>
    /// <param name="height">Pixels.</param>
    /// <param name="sample">0 to 255.</param>
    /// <param name="means">Blocks really coded in the first scan; all when left out.</param>
    /// <param name="rest">The same of the second.</param>
    public static byte[] Progressive(int width, int height, byte sample, int? means = null, int? rest = null) =>
    [
        .. Head(0xC2, width, height, [sample]),
        0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 0, 0, .. Coded([sample], means ?? Blocks(width, height), ends: false),
        0xFF, 0xDA, 0, 8, 1, 1, 0, 1, 63, 0, .. Enumerable.Repeat((byte)0, (rest ?? Blocks(width, height)) / 8), 0xFF, 0xD9, // One bit a block.
    ];

    private static int Blocks(int width, int height) => (width + 7) / 8 * ((height + 7) / 8);

    private static byte[] Head(byte kind, int width, int height, byte[] samples)
    {
        byte[] adobe = samples.Length == 4 ? [0xFF, 0xEE, 0, 14, .. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0] : [];
        byte[] quantities = [0xFF, 0xDB, 0, 67, 0, .. Enumerable.Repeat((byte)8, 64)]; // With 8, a block's number is its mean.
        byte[] frame =
        [
            0xFF, kind, 0, (byte)(8 + (3 * samples.Length)), 8, (byte)(height >> 8), (byte)height, (byte)(width >> 8), (byte)width, (byte)samples.Length,
            .. Enumerable.Range(1, samples.Length).SelectMany(c => new byte[] { (byte)c, 0x11, 0 }),
        ];
        // Means: twelve codes of four bits, for 0 to 11 bits of difference. All else: one code of one bit, "nothing more".
        byte[] means = [0xFF, 0xC4, 0, 31, 0x00, 0, 0, 0, 12, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, .. Enumerable.Range(0, 12).Select(i => (byte)i)];
        byte[] rest = [0xFF, 0xC4, 0, 20, 0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        return [0xFF, 0xD8, .. adobe, .. quantities, .. frame, .. means, .. rest];
    }

    private static List<byte> Coded(byte[] samples, int blocks, bool ends)
    {
        List<byte> bytes = [];
        var (bits, held) = (0UL, 0);
        for (var block = 0; block < blocks; block++)
        {
            foreach (var sample in samples)
            {
                var difference = block == 0 ? sample - 128 : 0; // To the block before.
                var size = difference == 0 ? 0 : 32 - int.LeadingZeroCount(Math.Abs(difference));
                Put((ulong)size, 4);
                Put((ulong)(difference >= 0 ? difference : difference + (1 << size) - 1), size);
                Put(0, ends ? 1 : 0);
            }
        }

        Put((1UL << (-held & 7)) - 1, -held & 7);
        return bytes;

        void Put(ulong value, int count)
        {
            (bits, held) = ((bits << count) | value, held + count);
            for (; held >= 8; held -= 8)
            {
                var next = (byte)(bits >> (held - 8));
                bytes.Add(next);
                if (next == 0xFF)
                {
                    bytes.Add(0);
                }
            }

            bits &= (1UL << held) - 1;
        }
    }
}
