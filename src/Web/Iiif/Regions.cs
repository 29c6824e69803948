using System.Globalization;
using HeirloomArchive.Web.Api;

namespace HeirloomArchive.Web.Iiif;

/// <summary>The region parameter (Image API 3.0, section 4.1).</summary>
internal static class Regions
{
    /// <summary>What a text asks for, cut at the edges of the picture.</summary>
    /// <exception cref="ImageRequestException">It can't be read, has no size, or lies outside the picture.</exception>
    public static Crop Read(string text, ImageFrame frame)
    {
        if (text == "full")
        {
            return new(0, 0, frame.Width, frame.Height);
        }

        if (text == "square")
        {
            var side = Math.Min(frame.Width, frame.Height);
            return new((frame.Width - side) / 2, (frame.Height - side) / 2, side, side);
        }

        var percent = text.StartsWith("pct:", StringComparison.Ordinal);
        var numbers = (percent ? text[4..] : text).Split(',').Select(t => percent ? Decimal(t) : Whole(t)).ToArray();
        if (numbers.Length != 4 || numbers.Contains(null))
        {
            throw new ImageRequestException($"“{text.Short(60)}” is no region: full, square, x,y,w,h or pct:x,y,w,h.");
        }

        var (x, y) = (Pixels(numbers[0]!.Value, frame.Width, percent), Pixels(numbers[1]!.Value, frame.Height, percent));
        var (width, height) = (Pixels(numbers[2]!.Value, frame.Width, percent), Pixels(numbers[3]!.Value, frame.Height, percent));
        (width, height) = (Math.Min(width, frame.Width - x), Math.Min(height, frame.Height - y));
        return width < 1 || height < 1
            ? throw new ImageRequestException($"“{text.Short(60)}” holds nothing of the picture, which is {frame.Width} by {frame.Height} pixels.")
            : new((int)x, (int)y, (int)width, (int)height);
    }

    /// <summary>A number as section 4.7 has it: digits, perhaps with a point; null for anything else.</summary>
    public static decimal? Decimal(string text) =>
        text.Length <= 20 && decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static decimal? Whole(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static long Pixels(decimal number, int side, bool percent) =>
        percent ? (long)Math.Min(int.MaxValue, Math.Round(Math.Min(number, 1_000_000) * side / 100, MidpointRounding.AwayFromZero)) : (long)number;
}
