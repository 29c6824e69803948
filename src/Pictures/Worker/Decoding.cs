using System.Runtime.InteropServices;
using HeirloomArchive.Pictures.Soundness;
using SkiaSharp;

namespace HeirloomArchive.Pictures;

/// <summary>Ends the work on one picture inside the worker, with what is to be answered.</summary>
internal sealed class PictureException(WorkerOutcome outcome) : Exception
{
    public WorkerOutcome Outcome { get; } = outcome;
}

/// <summary>A file of the three formats decoded, its colours converted to sRGB from the profile in it.</summary>
internal static class Decoding
{
    /// <summary>Decodes a file as it was stored.</summary>
    /// <param name="file">Pinned, and left alone as long as this runs.</param>
    /// <param name="format">What the host found it to be.</param>
    /// <param name="side">A JPEG or WebP may come smaller than it is, but its longest side not below this; 0 for the whole.</param>
    /// <param name="within">It lies within other bytes that must stay as they are: a tile of our own.</param>
    /// <returns>The pixels, where they belong, and the whole picture's size the right way up.</returns>
    /// <exception cref="PictureException">It can't be decoded, or some of it is missing.</exception>
    public static (Pixels Pixels, Orientation Orientation, int Width, int Height) Decode(ArraySegment<byte> file, PictureFormat format, int side = 0, bool within = false)
    {
        if (format == PictureFormat.Jpeg && !within)
        {
            file = WithoutEnd(file);
        }

        using var data = SKData.Create(Marshal.UnsafeAddrOfPinnedArrayElement(file.Array!, file.Offset), file.Count);
        using var codec = SKCodec.Create(data);
        // The library looks for itself what it is handed: it must come to what the host came to.
        if (codec is null || codec.EncodedFormat != Of(format))
        {
            throw new PictureException(WorkerOutcome.Unreadable);
        }

        var (width, height) = (codec.Info.Width, codec.Info.Height);
        var orientation = ExifOrientation.Of(file, format) ?? (Orientation)(int)codec.EncodedOrigin;
        var size = side > 0 ? Smaller(codec, side) : codec.Info.Size;
        var pixels = new Pixels(size.Width, size.Height, codec.Info.AlphaType == SKAlphaType.Opaque);
        try
        {
            Read(codec, pixels);
        }
        catch
        {
            pixels.Dispose();
            throw;
        }

        return orientation.OnItsSide() ? (pixels, orientation, height, width) : (pixels, orientation, width, height);
    }

    /// <summary>
    /// The library takes an end that comes too early for an end, and paints grey what is missing; only when its bytes run out
    /// does it say so. So where a picture is all in one scan, it is handed without its end mark, and a few zeros behind, which
    /// it reads ahead.
    /// </summary>
    private static ArraySegment<byte> WithoutEnd(ArraySegment<byte> file)
    {
        if (JpegFile.Walk(new FileReader(new MemoryStream(file.Array!, file.Offset, file.Count, writable: false), "JPEG")).EndOfOnlyScan is not { } end)
        {
            return file;
        }

        const int Zeros = 16;
        if (file.Offset + end + Zeros > file.Array!.Length)
        {
            return file;
        }

        file.Array.AsSpan(file.Offset + (int)end, Zeros).Clear();
        return new ArraySegment<byte>(file.Array, file.Offset, (int)end + Zeros);
    }

    private static void Read(SKCodec codec, Pixels into)
    {
        using var srgb = SKColorSpace.CreateSrgb();
        var info = new SKImageInfo(into.Width, into.Height, SKColorType.Rgba8888, into.Opaque ? SKAlphaType.Opaque : SKAlphaType.Premul, srgb);
        var result = codec.GetPixels(info, into.Address);
        if (result != SKCodecResult.Success)
        {
            throw new PictureException(result == SKCodecResult.IncompleteInput ? WorkerOutcome.Short : WorkerOutcome.Unreadable);
        }
    }

    /// <summary>The least size the decoder can give by itself whose longest side is not below the one asked.</summary>
    private static SKSizeI Smaller(SKCodec codec, int side)
    {
        var all = codec.Info.Size;
        for (var eighths = 1; eighths < 8; eighths++)
        {
            var size = codec.GetScaledDimensions(eighths / 8f);
            if (Math.Max(size.Width, size.Height) >= side)
            {
                return size;
            }
        }

        return all;
    }

    private static SKEncodedImageFormat Of(PictureFormat format) => format switch
    {
        PictureFormat.Jpeg => SKEncodedImageFormat.Jpeg,
        PictureFormat.Png => SKEncodedImageFormat.Png,
        _ => SKEncodedImageFormat.Webp,
    };
}
