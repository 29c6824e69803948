namespace HeirloomArchive.Pictures.Soundness;

/// <summary>
/// A file found whole from its first byte to its end mark. This stands before the image library, which takes
/// cut-off files without a word; it reads structure only and decodes nothing.
/// </summary>
/// <param name="Format">Told by content.</param>
/// <param name="Width">Pixels as stored, before any orientation.</param>
/// <param name="Height">Pixels as stored, before any orientation.</param>
internal sealed record SoundPicture(PictureFormat Format, int Width, int Height)
{
    /// <summary>Reads the whole file once.</summary>
    /// <exception cref="UnsoundException">It is none of the three formats, cut off, damaged or too large.</exception>
    public static SoundPicture Read(Stream file, PictureLimits limits)
    {
        Span<byte> head = stackalloc byte[PictureFormats.HeadLength];
        head = head[..file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
        if (PictureFormats.Of(head) is not { } format)
        {
            var foreign = PictureFormats.Foreign(head);
            throw new UnsoundException(
                () => T($"This is {foreign}; a picture must be a JPEG, PNG or WebP file, whatever its name."), RefusalKind.Foreign);
        }

        file.Position = 0;
        var (width, height) = format switch
        {
            PictureFormat.Jpeg => JpegFile.Read(new FileReader(file, "JPEG")),
            PictureFormat.Png => PngFile.Read(new FileReader(file, "PNG")),
            _ => WebPFile.Read(new FileReader(file, "WebP")),
        };
        return Measured(format, width, height, limits);
    }

    /// <summary>Whether it can measure so the right way up: as stored, or turned on its side.</summary>
    public bool CanMeasure(int width, int height) => (width, height) == (Width, Height) || (height, width) == (Width, Height);

    private static SoundPicture Measured(PictureFormat format, long width, long height, PictureLimits limits) =>
        width == 0 || height == 0
            ? throw new UnsoundException(() => T($"The picture says it is {width} × {height} pixels; both must be above 0."))
        : width > limits.Side || height > limits.Side || width * height > limits.Pixels
            ? throw new UnsoundException(
                () => T($"The picture is {width} × {height} pixels; at most {limits.Pixels / 1_000_000} megapixels and {limits.Side} a side are taken. Send it smaller."))
        : new SoundPicture(format, (int)width, (int)height);
}
