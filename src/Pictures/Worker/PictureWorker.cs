using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.Formats.Webp;
using SixLabors.ImageSharp.Memory;
using SixLabors.ImageSharp.Metadata;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;
using SixLabors.ImageSharp.Metadata.Profiles.Icc;
using SixLabors.ImageSharp.PixelFormats;
using SixLabors.ImageSharp.Processing;

namespace HeirloomArchive.Pictures;

/// <summary>
/// The process that decodes: the only place where the image library runs. It opens no file; pictures come in by its
/// standard input and derivatives leave by its standard output, so whatever a crafted file does to it, it holds nothing else.
/// </summary>
public static class PictureWorker
{
    /// <summary>The hidden verb that makes the program a worker.</summary>
    public const string Verb = "picture-worker";

    private const int ScreenSide = 1600, ThumbnailSide = 320, Quality = 82;

    /// <summary>Answers requests until its input ends. 0 always: what goes wrong with a picture is an answer.</summary>
    public static int Run(string[] args)
    {
        ArgumentNullException.ThrowIfNull(args);
        using var input = new BinaryReader(Console.OpenStandardInput());
        using var output = new BinaryWriter(Console.OpenStandardOutput());
        output.Write(WorkerMessages.Hello);
        output.Flush();
        while (WorkerMessages.ReadRequest(input) is var (format, bytes))
        {
            WorkerMessages.WriteAnswer(output, Answer(format, bytes));
            output.Flush();
        }

        return 0;
    }

    private static WorkerAnswer Answer(PictureFormat format, byte[] bytes)
    {
        try
        {
            if (format == PictureFormat.Png && !PngPixels.AreAllThere(bytes))
            {
                return new WorkerAnswer(WorkerOutcome.Short);
            }

            // Only PNG and WebP may be see-through; a JPEG without the fourth channel takes a quarter less memory.
            return format == PictureFormat.Jpeg ? Make<Rgb24>(bytes, new JpegDecoder()) : Make<Rgba32>(bytes, Decoder(format));
        }
        catch (Exception e) when (e is OutOfMemoryException or InvalidMemoryOperationException)
        {
            return new WorkerAnswer(WorkerOutcome.NoMemory);
        }
        catch (Exception)
        {
            // The library throws whatever it meets while reading: every one of them means the same here.
            return new WorkerAnswer(WorkerOutcome.Unreadable);
        }
    }

    private static IImageDecoder Decoder(PictureFormat format) =>
        format == PictureFormat.Png ? new PngDecoder() : new WebpDecoder();

    private static WorkerAnswer Make<TPixel>(byte[] bytes, IImageDecoder decoder)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        var library = new Configuration(new JpegConfigurationModule(), new PngConfigurationModule(), new WebpConfigurationModule())
        {
            MaxDegreeOfParallelism = 1,
            MemoryAllocator = MemoryAllocator.Create(new MemoryAllocatorOptions { MaximumPoolSizeMegabytes = 64 }),
        };
        using var image = Image.Load<TPixel>(library, new MemoryStream(bytes, writable: false), decoder);
        var turned = Orientation(image.Metadata) is >= 5 and <= 8;
        var (width, height) = turned ? (image.Height, image.Width) : (image.Width, image.Height);

        // Made smaller first, then turned: turning the whole would need its memory twice.
        Fit(image, ScreenSide);
        image.Mutate(x => x.AutoOrient());
        Strip(image.Metadata);
        var screen = Encode(image);
        Fit(image, ThumbnailSide);
        return new WorkerAnswer(WorkerOutcome.Made, width, height, screen, Encode(image));
    }

    private static int Orientation(ImageMetadata metadata) =>
        metadata.ExifProfile?.GetValue(ExifTag.Orientation) is { } value ? value.Value : 1;

    private static void Fit(Image image, int side)
    {
        var longest = Math.Max(image.Width, image.Height);
        if (longest > side)
        {
            int Scaled(int length) => Math.Max(1, (int)Math.Round((double)length * side / longest));
            image.Mutate(x => x.Resize(Scaled(image.Width), Scaled(image.Height), KnownResamplers.Lanczos3));
        }
    }

    /// <summary>No camera, place or thumbnail goes along; a profile of RGB does, as the colours are its own.</summary>
    private static void Strip(ImageMetadata metadata)
    {
        metadata.ExifProfile = null;
        metadata.XmpProfile = null;
        metadata.IptcProfile = null;
        if (metadata.IccProfile is { } profile && profile.Header.DataColorSpace != IccColorSpaceType.Rgb)
        {
            metadata.IccProfile = null;
        }
    }

    /// <summary>JPEG, or WebP when something is seen through.</summary>
    private static byte[] Encode<TPixel>(Image<TPixel> image)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        using var to = new MemoryStream();
        image.Save(to, image is Image<Rgba32> seen && SeenThrough(seen)
            ? new WebpEncoder { Quality = Quality, FileFormat = WebpFileFormatType.Lossy }
            : new JpegEncoder { Quality = Quality });
        return to.ToArray();
    }

    private static bool SeenThrough(Image<Rgba32> image)
    {
        var found = false;
        image.ProcessPixelRows(rows =>
        {
            for (var y = 0; y < rows.Height && !found; y++)
            {
                foreach (var pixel in rows.GetRowSpan(y))
                {
                    found |= pixel.A < byte.MaxValue;
                }
            }
        });
        return found;
    }
}
