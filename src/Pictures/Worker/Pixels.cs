using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using SkiaSharp;

namespace HeirloomArchive.Pictures;

/// <summary>
/// A picture in memory: sRGB, 8 bits a channel (red, green, blue, alpha from the lowest byte), colours premultiplied where
/// something is seen through; row by row without gaps.
/// </summary>
internal sealed class Pixels : IDisposable
{
    private readonly SKBitmap bitmap = new();

    /// <exception cref="PictureException">There is no memory for it.</exception>
    public Pixels(int width, int height, bool opaque)
    {
        // Without a colour space nothing is converted from here on, and no profile is written: the web's default is sRGB.
        var info = new SKImageInfo(width, height, SKColorType.Rgba8888, opaque ? SKAlphaType.Opaque : SKAlphaType.Premul);
        if (!bitmap.TryAllocPixels(info, info.RowBytes))
        {
            bitmap.Dispose();
            throw new PictureException(WorkerOutcome.NoMemory);
        }
    }

    public int Width => bitmap.Width;

    public int Height => bitmap.Height;

    public bool Opaque => bitmap.AlphaType == SKAlphaType.Opaque;

    public IntPtr Address => bitmap.GetPixels();

    public Span<uint> Span => MemoryMarshal.Cast<byte, uint>(bitmap.GetPixelSpan());

    /// <summary>
    /// Half as large, each pixel the mean of four. Where a side is odd, the row or column left over stands alone: the last as
    /// it is seen, which in a picture stored backwards is the first.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Pixels Halved(Orientation orientation)
    {
        var half = new Pixels((Width + 1) / 2, (Height + 1) / 2, Opaque);
        var (left, top) = (Width & (orientation.ColumnsBackwards() ? 1 : 0), Height & (orientation.RowsBackwards() ? 1 : 0));
        for (var y = 0; y < half.Height; y++)
        {
            var upper = Span.Slice(Math.Max((2 * y) - top, 0) * Width, Width);
            var lower = Span.Slice(Math.Min((2 * y) - top + 1, Height - 1) * Width, Width);
            var to = half.Span.Slice(y * half.Width, half.Width);
            for (var x = 0; x < to.Length; x++)
            {
                var (a, b) = (Math.Max((2 * x) - left, 0), Math.Min((2 * x) - left + 1, Width - 1));
                to[x] = Mean(upper[a], upper[b], lower[a], lower[b]);
            }
        }

        return half;
    }

    /// <summary>A part as it is seen upright; the rectangle counts in the picture as seen.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Pixels Part(Orientation orientation, int left, int top, int width, int height)
    {
        var part = new Pixels(width, height, Opaque);
        // Where the pixel seen at 0, 0 is stored, and how far one to the right and one down lie from it.
        var origin = (orientation.ColumnsBackwards() ? Width - 1 : 0) + ((orientation.RowsBackwards() ? Height - 1 : 0) * Width);
        var column = orientation.ColumnsBackwards() ? -1 : 1;
        var row = orientation.RowsBackwards() ? -Width : Width;
        var (right, down) = orientation.OnItsSide() ? (row, column) : (column, row);
        var from = Span;
        var to = part.Span;
        for (var y = 0; y < height; y++)
        {
            var at = origin + ((top + y) * down) + (left * right);
            var line = to.Slice(y * width, width);
            if (right == 1)
            {
                from.Slice(at, width).CopyTo(line);
                continue;
            }

            for (var x = 0; x < line.Length; x++, at += right)
            {
                line[x] = from[at];
            }
        }

        return part;
    }

    /// <summary>A copy of the whole.</summary>
    public Pixels Whole() => Part(Orientation.TopLeft, 0, 0, Width, Height);

    /// <summary>A part drawn at another size; it may begin and end between pixels.</summary>
    /// <param name="x">Of the part, in pixels.</param>
    /// <param name="y">Of the part, in pixels.</param>
    /// <param name="width">Of the part, in pixels.</param>
    /// <param name="height">Of the part, in pixels.</param>
    /// <param name="outWidth">Pixels that come out.</param>
    /// <param name="outHeight">Pixels that come out.</param>
    public Pixels Scaled(float x, float y, float width, float height, int outWidth, int outHeight)
    {
        if ((width, height, x % 1, y % 1) == (outWidth, outHeight, 0, 0))
        {
            return Part(Orientation.TopLeft, (int)x, (int)y, outWidth, outHeight);
        }

        var scaled = new Pixels(outWidth, outHeight, Opaque);
        Resampling.Draw(this, x, y, width, height, scaled);
        return scaled;
    }

    /// <summary>Puts another picture over this one at a place; what of it stands out over the edges is left away.</summary>
    public void Place(Pixels other, int left, int top)
    {
        var (first, last) = (Math.Max(0, -left), Math.Min(other.Width, Width - left));
        for (var y = Math.Max(0, -top); y < Math.Min(other.Height, Height - top); y++)
        {
            other.Span[((y * other.Width) + first)..((y * other.Width) + last)].CopyTo(Span[(((top + y) * Width) + left + first)..]);
        }
    }

    /// <summary>Shades of grey by the luma of Rec. ITU-R BT.709, in place.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Grey()
    {
        foreach (ref var pixel in Span)
        {
            var luma = (((13_933 * (pixel & 0xFF)) + (46_871 * ((pixel >> 8) & 0xFF)) + (4_732 * ((pixel >> 16) & 0xFF))) + 32_768) >> 16;
            pixel = (pixel & 0xFF000000) | (luma * 0x010101);
        }
    }

    /// <summary>Encoded as a file without profile or anything said about it. What is seen through is white in a JPEG.</summary>
    /// <exception cref="PictureException">The library can't.</exception>
    public byte[] Encoded(PictureFormat format, int quality)
    {
        if (format == PictureFormat.Jpeg && !Opaque)
        {
            OnWhite();
        }

        using var pixels = bitmap.PeekPixels();
        using var data = format switch
        {
            PictureFormat.Jpeg => pixels.Encode(new SKJpegEncoderOptions(quality, SKJpegEncoderDownsample.Downsample420, SKJpegEncoderAlphaOption.Ignore)),
            PictureFormat.Png => pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.AllFilters, 4)),
            _ => pixels.Encode(new SKWebpEncoderOptions(SKWebpEncoderCompression.Lossy, quality)),
        };
        return data?.ToArray() ?? throw new PictureException(WorkerOutcome.Unreadable);
    }

    public void Dispose() => bitmap.Dispose();

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void OnWhite()
    {
        foreach (ref var pixel in Span)
        {
            // Premultiplied: what is missing of full alpha is how much white shows.
            pixel = (pixel + ((255 - (pixel >> 24)) * 0x010101)) | 0xFF000000;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Mean(uint a, uint b, uint c, uint d)
    {
        const uint Even = 0x00FF00FF;
        var low = (a & Even) + (b & Even) + (c & Even) + (d & Even) + 0x00020002;
        var high = ((a >> 8) & Even) + ((b >> 8) & Even) + ((c >> 8) & Even) + ((d >> 8) & Even) + 0x00020002;
        return ((low >> 2) & Even) | (((high >> 2) & Even) << 8);
    }
}
