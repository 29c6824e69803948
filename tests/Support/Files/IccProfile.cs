using System.Buffers.Binary;
using System.Text;

namespace HeirloomArchive.Support;

/// <summary>ICC profiles of RGB displays made for the tests (ICC.1:2022): three colorants adapted to D50, and one curve.</summary>
public static class IccProfile
{
    /// <summary>Display P3, colorants as in Apple's profile of that name; the curve of IEC 61966-2-1.</summary>
    public static byte[] DisplayP3 { get; } = Of(
        [0.51512, 0.24120, -0.00105, 0.29198, 0.69225, 0.04189, 0.15710, 0.06657, 0.78407], Curve(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045));

    /// <summary>Adobe RGB (1998) Color Image Encoding, version 2005-05, annex on its ICC profile: colorants, and a power of 2.19921875.</summary>
    public static byte[] AdobeRgb { get; } = Of(
        [0.60974, 0.31111, 0.01947, 0.20528, 0.62567, 0.06087, 0.14919, 0.06322, 0.74457], Curve(0, 2.19921875));

    private static byte[] Of(double[] colorants, byte[] curve)
    {
        List<(string Name, byte[] Data)> tags =
        [
            ("desc", Text("a display of the tests")), ("cprt", Text("none")), ("wtpt", Xyz(0.9642, 1, 0.8249)),
            ("rXYZ", Xyz(colorants[0], colorants[1], colorants[2])), ("gXYZ", Xyz(colorants[3], colorants[4], colorants[5])),
            ("bXYZ", Xyz(colorants[6], colorants[7], colorants[8])), ("rTRC", curve), ("gTRC", curve), ("bTRC", curve),
        ];
        List<byte> table = [.. Number(tags.Count)], data = [];
        var at = 128 + 4 + (12 * tags.Count);
        foreach (var (name, content) in tags)
        {
            table.AddRange([.. Encoding.ASCII.GetBytes(name), .. Number(at + data.Count), .. Number(content.Length)]);
            data.AddRange([.. content, .. new byte[-content.Length & 3]]);
        }

        byte[] head =
        [
            .. Number(at + data.Count), .. new byte[4], 4, 0x40, 0, 0, .. "mntrRGB XYZ "u8, 7, 234, 0, 1, 0, 1, .. new byte[6], .. "acsp"u8,
            .. new byte[28], .. Fixed(0.9642), .. Fixed(1), .. Fixed(0.8249), .. new byte[48],
        ];
        return [.. head, .. table, .. data];
    }

    private static byte[] Curve(byte kind, params double[] values) => [.. "para"u8, 0, 0, 0, 0, 0, kind, 0, 0, .. values.SelectMany(Fixed)];

    private static byte[] Xyz(double x, double y, double z) => [.. "XYZ "u8, 0, 0, 0, 0, .. Fixed(x), .. Fixed(y), .. Fixed(z)];

    private static byte[] Text(string text)
    {
        var bytes = Encoding.BigEndianUnicode.GetBytes(text);
        return [.. "mluc"u8, 0, 0, 0, 0, .. Number(1), .. Number(12), .. "enUS"u8, .. Number(bytes.Length), .. Number(28), .. bytes];
    }

    private static byte[] Fixed(double value) => Number((int)Math.Round(value * 65_536));

    private static byte[] Number(int number)
    {
        var four = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(four, number);
        return four;
    }
}
