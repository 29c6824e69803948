using HeirloomArchive.Pictures;
using SkiaSharp;

namespace HeirloomArchive.Support;

/// <summary>Picture files made for the tests: four quarters of one colour each, so that a turn shows.</summary>
public static class Made
{
    public static readonly SKColor TopLeft = new(200, 30, 30), TopRight = new(30, 160, 30), BottomLeft = new(30, 30, 200), BottomRight = new(220, 220, 220);

    /// <param name="width">Pixels as stored.</param>
    /// <param name="height">Pixels as stored.</param>
    /// <param name="orientation">Exif's, 0 for none.</param>
    /// <param name="placed">With camera, place, maker's notes, a small picture and XMP in it.</param>
    public static byte[] Jpeg(int width = 64, int height = 48, ushort orientation = 0, bool placed = false)
    {
        using var bitmap = Quarters(width, height);
        var file = Jpeg(bitmap);
        if (placed)
        {
            file = JpegParts.With(file, 0xE1, [.. "http://ns.adobe.com/xap/1.0/\0"u8, .. "<x:xmpmeta xmlns:x='adobe:ns:meta/'>a place</x:xmpmeta>"u8]);
        }

        return orientation > 0 || placed ? JpegParts.With(file, 0xE1, [.. "Exif\0\0"u8, .. Exif.Block(orientation, placed)]) : file;
    }

    /// <inheritdoc cref="Jpeg(int, int, ushort, bool)"/>
    public static byte[] Png(int width = 64, int height = 48, byte alpha = 255, ushort orientation = 0)
    {
        using var bitmap = Quarters(width, height, alpha);
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(SKPngEncoderOptions.Default);
        return orientation > 0 ? PngParts.With(data!.ToArray(), PngParts.Chunk("eXIf"u8, Exif.Block(orientation, placed: true))) : data!.ToArray();
    }

    /// <inheritdoc cref="Jpeg(int, int, ushort, bool)"/>
    public static byte[] WebP(int width = 64, int height = 48, bool lossless = false, ushort orientation = 0)
    {
        using var bitmap = Quarters(width, height);
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(new SKWebpEncoderOptions(lossless ? SKWebpEncoderCompression.Lossless : SKWebpEncoderCompression.Lossy, 80));
        return orientation > 0 ? WebPParts.With(data!.ToArray(), width, height, ("EXIF", [.. "Exif\0\0"u8, .. Exif.Block(orientation, placed: true)])) : data!.ToArray();
    }

    public static byte[] Of(PictureFormat format, int width = 64, int height = 48) => format switch
    {
        PictureFormat.Jpeg => Jpeg(width, height),
        PictureFormat.Png => Png(width, height),
        _ => WebP(width, height),
    };

    public static byte[] Jpeg(SKBitmap bitmap, int quality = 95)
    {
        ArgumentNullException.ThrowIfNull(bitmap);
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(new SKJpegEncoderOptions(quality, SKJpegEncoderDownsample.Downsample444, SKJpegEncoderAlphaOption.Ignore));
        return data!.ToArray();
    }

    /// <summary>A picture decoded by the test's own process: our own derivatives, and files we made.</summary>
    public static SKBitmap Decoded(byte[] file) => SKBitmap.Decode(file) ?? throw new InvalidDataException("It can't be decoded.");

    /// <summary>The four quarters, the upper left one see-through as asked.</summary>
    public static SKBitmap Quarters(int width, int height, byte alpha = 255)
    {
        // Without a colour space no profile is written.
        var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, alpha < 255 ? SKAlphaType.Unpremul : SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { BlendMode = SKBlendMode.Src, IsAntialias = false };
        var (x, y) = (width / 2, height / 2);
        Fill(0, 0, x, y, TopLeft.WithAlpha(alpha));
        Fill(x, 0, width, y, TopRight);
        Fill(0, y, x, height, BottomLeft);
        Fill(x, y, width, height, BottomRight);
        return bitmap;

        void Fill(int left, int top, int right, int bottom, SKColor colour)
        {
            paint.Color = colour;
            canvas.DrawRect(new SKRect(left, top, right, bottom), paint);
        }
    }
}
