namespace HeirloomArchive.Support;

/// <summary>
/// JPEG files of one flat colour written marker by marker (ISO/IEC 10918-1, annexes B and F): baseline, one interleaved scan,
/// each block nothing but its mean.
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
        byte[] adobe = samples.Length == 4 ? [0xFF, 0xEE, 0, 14, .. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0] : [];
        byte[] quantities = [0xFF, 0xDB, 0, 67, 0, .. Enumerable.Repeat((byte)8, 64)]; // With 8, a block's number is its mean.
        byte[] frame =
        [
            0xFF, 0xC0, 0, (byte)(8 + (3 * samples.Length)), 8, (byte)(height >> 8), (byte)height, (byte)(width >> 8), (byte)width, (byte)samples.Length,
            .. Enumerable.Range(1, samples.Length).SelectMany(c => new byte[] { (byte)c, 0x11, 0 }),
        ];
        // Means: twelve codes of four bits, for 0 to 11 bits of difference. All else: one code of one bit, "nothing more".
        byte[] means = [0xFF, 0xC4, 0, 31, 0x00, 0, 0, 0, 12, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, .. Enumerable.Range(0, 12).Select(i => (byte)i)];
        byte[] rest = [0xFF, 0xC4, 0, 20, 0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        byte[] scan = [0xFF, 0xDA, 0, (byte)(6 + (2 * samples.Length)), (byte)samples.Length, .. Enumerable.Range(1, samples.Length).SelectMany(c => new byte[] { (byte)c, 0 }), 0, 63, 0];
        return
        [
            0xFF, 0xD8, .. adobe, .. quantities, .. frame, .. means, .. rest, .. scan,
            .. Coded(samples, blocks ?? ((width + 7) / 8 * ((height + 7) / 8))), 0xFF, 0xD9,
        ];
    }

    private static List<byte> Coded(byte[] samples, int blocks)
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
                Put(0, 1);
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
