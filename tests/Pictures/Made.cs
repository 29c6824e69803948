using System.Buffers.Binary;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.Formats.Webp;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;
using SixLabors.ImageSharp.Metadata.Profiles.Xmp;
using SixLabors.ImageSharp.PixelFormats;

namespace HeirloomArchive.Pictures.Tests;

/// <summary>Picture files made for the tests: four quarters of one colour each, so that a turn shows.</summary>
internal static class Made
{
    public static readonly Rgba32 TopLeft = new(200, 30, 30), TopRight = new(30, 160, 30), BottomLeft = new(30, 30, 200), BottomRight = new(220, 220, 220);

    public static byte[] Jpeg(int width = 64, int height = 48, ushort orientation = 0, bool placed = false)
    {
        using var image = Quarters<Rgb24>(width, height);
        if (orientation > 0 || placed)
        {
            image.Metadata.ExifProfile = Exif(orientation, placed);
        }

        if (placed)
        {
            image.Metadata.XmpProfile = new XmpProfile("<x:xmpmeta xmlns:x='adobe:ns:meta/'>a place</x:xmpmeta>"u8.ToArray());
        }

        return Saved(image, new JpegEncoder { Quality = 95, ColorType = JpegColorType.YCbCrRatio444 });
    }

    public static byte[] Png(int width = 64, int height = 48, byte alpha = 255, ushort orientation = 0)
    {
        using var image = Quarters<Rgba32>(width, height);
        image.Mutate(TopLeft with { A = alpha });
        if (orientation > 0)
        {
            image.Metadata.ExifProfile = Exif(orientation, placed: true);
        }

        return Saved(image, new PngEncoder { ColorType = PngColorType.RgbWithAlpha });
    }

    public static byte[] Png(int width, int height, PngEncoder encoder)
    {
        using var image = Quarters<Rgba32>(width, height);
        return Saved(image, encoder);
    }

    public static byte[] WebP(int width = 64, int height = 48, bool lossless = false)
    {
        using var image = Quarters<Rgb24>(width, height);
        return Saved(image, new WebpEncoder { FileFormat = lossless ? WebpFileFormatType.Lossless : WebpFileFormatType.Lossy });
    }

    public static byte[] Of(PictureFormat format, int width = 64, int height = 48) => format switch
    {
        PictureFormat.Jpeg => Jpeg(width, height),
        PictureFormat.Png => Png(width, height),
        _ => WebP(width, height),
    };

    /// <summary>A PNG of a few dozen bytes that says it is as large as asked; all its checksums are right.</summary>
    public static byte[] PngSaying(int width, int height)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        header[8] = 8;
        header[9] = 2;
        return
        [
            0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A,
            .. Chunk("IHDR"u8, header), .. Chunk("IDAT"u8, [0x78, 0x9C, 0x03, 0, 0, 0, 0, 1]), .. Chunk("IEND"u8, []),
        ];
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

    private static ExifProfile Exif(ushort orientation, bool placed)
    {
        var exif = new ExifProfile();
        if (orientation > 0)
        {
            exif.SetValue(ExifTag.Orientation, orientation);
        }

        if (placed)
        {
            exif.SetValue(ExifTag.GPSLatitudeRef, "N");
            exif.SetValue(ExifTag.Make, "A camera's maker");
        }

        return exif;
    }

    private static void Mutate(this Image<Rgba32> image, Rgba32 topLeft) => image.ProcessPixelRows(rows =>
    {
        for (var y = 0; y < rows.Height / 2; y++)
        {
            rows.GetRowSpan(y)[..(rows.Width / 2)].Fill(topLeft);
        }
    });

    private static Image<TPixel> Quarters<TPixel>(int width, int height)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        var image = new Image<TPixel>(width, height);
        image.ProcessPixelRows(rows =>
        {
            for (var y = 0; y < rows.Height; y++)
            {
                var top = y < rows.Height / 2;
                TPixel left = default, right = default;
                left.FromRgba32(top ? TopLeft : BottomLeft);
                right.FromRgba32(top ? TopRight : BottomRight);
                var row = rows.GetRowSpan(y);
                row[..(rows.Width / 2)].Fill(left);
                row[(rows.Width / 2)..].Fill(right);
            }
        });
        return image;
    }

    private static byte[] Saved(Image image, SixLabors.ImageSharp.Formats.IImageEncoder encoder)
    {
        using var to = new MemoryStream();
        image.Save(to, encoder);
        return to.ToArray();
    }
}
