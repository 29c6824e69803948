using HeirloomArchive.Support;
using SkiaSharp;
using static HeirloomArchive.Pictures.Tests.Workers;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>
/// Colours of files with a profile come out as the sRGB that is published for them, within a difference of 1 by the formula
/// of 1976 (CIE 15:2018, 8.2.1.1: the distance in L*a*b*).
/// </summary>
[Collection(nameof(Workers))]
public class ColourTests
{
    // The named colours of CSS Color Module Level 4 as sRGB, and the same in Display P3 and in Adobe RGB as the W3C's tests of
    // that module have them (web-platform-tests, css/css-color: display-p3-001 and on, a98rgb-001, and the keywords in color()).
    private static readonly (double[] Display, int[] Srgb)[] P3 =
    [
        ([0.91749, 0.20029, 0.13856], [255, 0, 0]), ([0.94965, 0.66290, 0.23297], [255, 165, 0]), ([1, 1, 0.33090], [255, 255, 0]),
        ([0.21604, 0.49418, 0.13151], [0, 128, 0]), ([0, 0, 0.95959], [0, 0, 255]), ([0.26681, 0.03018, 0.48951], [75, 0, 130]),
        ([0.87709, 0.53133, 0.91095], [238, 130, 238]), ([1, 1, 1], [255, 255, 255]),
    ];

    private static readonly (double[] Display, int[] Srgb)[] Adobe =
        [([0.281363, 0.498012, 0.116746], [0, 128, 0]), ([0, 0, 0], [0, 0, 0]), ([1, 1, 1], [255, 255, 255])];

    [Fact]
    public async Task A_png_of_16_bits_in_Display_P3() => await Check(P3, colour => PngParts.Stored(
        64, 64, 2, 16, false, (_, _, c) => (int)Math.Round(colour[c] * 65_535), PngParts.Profile(IccProfile.DisplayP3)));

    [Fact]
    public async Task A_png_of_16_bits_in_Adobe_RGB() => await Check(Adobe, colour => PngParts.Stored(
        64, 64, 2, 16, false, (_, _, c) => (int)Math.Round(colour[c] * 65_535), PngParts.Profile(IccProfile.AdobeRgb)));

    /// <summary>
    /// Of 125 colours of sRGB, five steps a channel, another's library says what they are in the wider space: all in one PNG of 16 bits, and
    /// each must come out as the sRGB it was; no nearer, though, than the JPEG that is made can hold it, which the same colours as plain sRGB show.
    /// </summary>
    [Theory]
    [InlineData("p3")]
    [InlineData("a98")]
    public async Task Colours_from_all_over_sRGB_come_through_a_wider_space(string space)
    {
        const int Across = 12, Side = 32;
        int[] steps = [0, 64, 128, 191, 255];
        int[][] srgb = [.. steps.SelectMany(r => steps.SelectMany(g => steps.Select(b => (int[])[r, g, b])))];
        var wide = await ColourJudge.Convert("rgb", space, srgb.Select(c => c.Select(v => v / 255.0).ToArray()));
        var file = PngParts.Stored(
            Across * Side, 11 * Side, 2, 16, false,
            (x, y, c) => (int)Math.Round(Math.Clamp(wide[Math.Min(wide.Length - 1, (y / Side * Across) + (x / Side))][c], 0, 1) * 65_535),
            PngParts.Profile(space == "p3" ? IccProfile.DisplayP3 : IccProfile.AdobeRgb));
        var plain = PngParts.Stored(Across * Side, 11 * Side, 2, 8, false, (x, y, c) => srgb[Math.Min(srgb.Length - 1, (y / Side * Across) + (x / Side))][c]);
        var done = await Make(Usual, Program, file, plain);
        var (came, held) = (Differences(done[0]), Differences(done[1]));
        Assert.All(srgb.Zip(came, held), p => Assert.True(p.Second <= Math.Max(1, p.Third), $"{string.Join(' ', p.First)} came out {p.Second:0.00} away, as plain sRGB {p.Third:0.00}."));
        Assert.InRange(came.Count(by => by > 1), 0, 3);

        double[] Differences(WorkDone of)
        {
            using var image = Made.Decoded(of.Made!.Files[0]);
            return [.. srgb.Select((c, n) => Difference(image.GetPixel((n % Across * Side) + (Side / 2), (n / Across * Side) + (Side / 2)), c))];
        }
    }

    /// <summary>
    /// A JPEG holds a colour only as brightness and tint of 8 bits in its own space: what it holds is read without the profile and
    /// converted by another's library, and that is what must come out.
    /// </summary>
    [Fact]
    public async Task A_jpeg_in_Display_P3_comes_out_as_what_it_holds()
    {
        var plain = P3.Select(p => Flat(p.Display, b => Made.Jpeg(b, 100))).ToArray();
        var holds = plain.Select(file =>
        {
            using var image = Made.Decoded(file);
            var c = image.GetPixel(32, 32);
            return new[] { c.Red / 255.0, c.Green / 255.0, c.Blue / 255.0 };
        });
        var srgb = await ColourJudge.Convert("p3", "rgb", holds);
        var done = await Make(Usual, Program, [.. plain.Select(file => JpegParts.WithProfile(file, IccProfile.DisplayP3))]);
        Assert.All(done.Zip(srgb), pair =>
        {
            using var image = Made.Decoded(pair.First.Made!.Files[0]);
            var (came, expected) = (image.GetPixel(32, 32), pair.Second.Select(v => Math.Clamp(v, 0, 1) * 255).ToArray());
            var difference = Distance(Lab(came.Red, came.Green, came.Blue), Lab(expected[0], expected[1], expected[2]));
            Assert.True(difference <= 1, $"{string.Join(' ', expected.Select(v => $"{v:0.0}"))} came out as {came}: {difference:0.00} away.");
        });
    }

    [Fact]
    public async Task A_webp_in_Display_P3() => await Check(P3, colour => WebPParts.With(Flat(colour, WebP), 64, 64, ("ICCP", IccProfile.DisplayP3)));

    /// <summary>The other way round: without its profile the same file is another colour.</summary>
    [Fact]
    public async Task Without_its_profile_it_would_be_another_colour()
    {
        var done = await Make(Usual, Program, Flat(P3[0].Display, b => Made.Jpeg(b, 100)));
        using var image = Made.Decoded(done[0].Made!.Files[0]);
        Assert.True(Difference(image.GetPixel(32, 32), P3[0].Srgb) > 10);
    }

    private static async Task Check((double[] Display, int[] Srgb)[] patches, Func<double[], byte[]> file)
    {
        var done = await Make(Usual, Program, [.. patches.Select(p => file(p.Display))]);
        Assert.All(done.Zip(patches), pair =>
        {
            using var image = Made.Decoded(pair.First.Made!.Files[0]);
            var colour = image.GetPixel(32, 32);
            var difference = Difference(colour, pair.Second.Srgb);
            Assert.True(difference <= 1, $"{string.Join(' ', pair.Second.Srgb)} came out as {colour.Red} {colour.Green} {colour.Blue}: {difference:0.00} away.");
        });
    }

    private static byte[] Flat(double[] colour, Func<SKBitmap, byte[]> save)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(64, 64, SKColorType.Rgba8888, SKAlphaType.Opaque));
        bitmap.Erase(new SKColor(Byte(colour[0]), Byte(colour[1]), Byte(colour[2])));
        return save(bitmap);

        static byte Byte(double value) => (byte)Math.Round(value * 255);
    }

    private static byte[] WebP(SKBitmap bitmap)
    {
        using var pixels = bitmap.PeekPixels();
        return pixels.Encode(new SKWebpEncoderOptions(SKWebpEncoderCompression.Lossless, 50))!.ToArray();
    }

    private static double Difference(SKColor colour, int[] srgb) => Distance(Lab(colour.Red, colour.Green, colour.Blue), Lab(srgb[0], srgb[1], srgb[2]));

    private static double Distance((double L, double A, double B) a, (double L, double A, double B) b) =>
        Math.Sqrt(Math.Pow(a.L - b.L, 2) + Math.Pow(a.A - b.A, 2) + Math.Pow(a.B - b.B, 2));

    /// <summary>IEC 61966-2-1 to XYZ of D65, then CIE 15:2018, 8.2.1.</summary>
    private static (double L, double A, double B) Lab(double red, double green, double blue)
    {
        var (r, g, b) = (Linear(red), Linear(green), Linear(blue));
        var (x, y, z) = (F(((0.4124 * r) + (0.3576 * g) + (0.1805 * b)) / 0.9505), F((0.2126 * r) + (0.7152 * g) + (0.0722 * b)), F(((0.0193 * r) + (0.1192 * g) + (0.9505 * b)) / 1.089));
        return ((116 * y) - 16, 500 * (x - y), 200 * (y - z));

        static double Linear(double v) => v / 255.0 <= 0.04045 ? v / 255.0 / 12.92 : Math.Pow(((v / 255.0) + 0.055) / 1.055, 2.4);
        static double F(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : ((24389.0 / 27 * t) + 16) / 116;
    }
}
