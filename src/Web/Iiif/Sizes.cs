using System.Globalization;
using HeirloomArchive.Web.Api;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The size parameter (Image API 3.0, section 4.2).</summary>
internal static class Sizes
{
    /// <summary>The size that a text asks for, of what was cut out.</summary>
    /// <exception cref="ImageRequestException">It can't be read, is below 1 pixel, over the limit, or larger than what was cut out without <c>^</c>.</exception>
    public static (int Width, int Height) Read(string text, Crop crop, ImageFrame frame)
    {
        var upscale = text.StartsWith('^');
        var said = upscale ? text[1..] : text;
        var (width, height) = said switch
        {
            "max" => Largest(crop, frame, upscale),
            _ when said.StartsWith("pct:", StringComparison.Ordinal) && Regions.Decimal(said[4..]) is { } percent => Percent(percent, crop, upscale, text),
            _ when said.StartsWith('!') && Pair(said[1..]) is ({ } w, { } h) => Within(w, h, crop, frame, upscale),
            _ => Pair(said) switch
            {
                ({ } w, { } h) => (w, h),
                ({ } w, null) => (w, Scaled(crop.Height, w, crop.Width)),
                (null, { } h) => (Scaled(crop.Width, h, crop.Height), h),
                _ => throw new ImageRequestException($"“{text.Short(60)}” is no size: max, w, or ,h or w,h or !w,h or pct:n, each perhaps with ^ before it."),
            },
        };
        if (width < 1 || height < 1)
        {
            throw new ImageRequestException($"“{text.Short(60)}” comes to {width} by {height} pixels; an image has at least 1 by 1.");
        }

        if (!upscale && (width > crop.Width || height > crop.Height))
        {
            throw new ImageRequestException($"“{text.Short(60)}” is larger than the region, {crop.Width} by {crop.Height}; put ^ before it to have it enlarged.");
        }

        return width > frame.Most || height > frame.Most
            ? throw new ImageRequestException($"“{text.Short(60)}” comes to {width} by {height} pixels; at most {frame.Most} by {frame.Most} are answered.")
            : (width, height);
    }

    /// <summary>The largest size within the limits that keeps the proportions.</summary>
    public static (int Width, int Height) Largest(Crop crop, ImageFrame frame, bool upscale) => Within(frame.Most, frame.Most, crop, frame, upscale);

    private static (int, int) Within(int width, int height, Crop crop, ImageFrame frame, bool upscale)
    {
        (width, height) = (Math.Min(width, frame.Most), Math.Min(height, frame.Most));
        if (!upscale && width >= crop.Width && height >= crop.Height)
        {
            return (crop.Width, crop.Height);
        }

        // In whole numbers, so that the side that decides is met exactly.
        return (long)width * crop.Height <= (long)height * crop.Width
            ? (width, width < 1 ? 0 : Math.Max(1, Scaled(crop.Height, width, crop.Width)))
            : (height < 1 ? 0 : Math.Max(1, Scaled(crop.Width, height, crop.Height)), height);
    }

    private static (int, int) Percent(decimal percent, Crop crop, bool upscale, string text) => percent > 100 && !upscale
        ? throw new ImageRequestException($"“{text.Short(60)}” is more than 100 percent; put ^ before it to have it enlarged.")
        : ((int)Math.Min(int.MaxValue, Math.Round(crop.Width * percent / 100)), (int)Math.Min(int.MaxValue, Math.Round(crop.Height * percent / 100)));

    private static int Scaled(int side, int by, int of) => (int)Math.Min(int.MaxValue, Math.Round((decimal)side * by / of, MidpointRounding.AwayFromZero));

    private static (int? Width, int? Height) Pair(string text)
    {
        var parts = text.Split(',');
        return parts.Length == 2 && Part(parts[0], out var width) && Part(parts[1], out var height) ? (width, height) : (null, null);
    }

    private static bool Part(string text, out int? number)
    {
        var read = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var value);
        number = read ? value : null;
        return read || text.Length == 0;
    }
}
