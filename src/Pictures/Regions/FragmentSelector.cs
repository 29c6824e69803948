using System.Globalization;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>
/// A rectangle as a media fragment, <c>xywh=10,20,300,400</c>; in: <c>pixel:</c> or <c>percent:</c> before the numbers too
/// (W3C, Media Fragments URI 1.0, section 4.2.2). Out: whole pixels, as the specification has them.
/// </summary>
public static class FragmentSelector
{
    /// <summary>The specification that the value conforms to.</summary>
    public const string ConformsTo = "http://www.w3.org/TR/media-frags/";

    private static string Right => T("write xywh= with x, y, width and height, as in xywh=120,80,400,300 or xywh=percent:10,10,25,25");

    /// <summary>Writes a rectangle.</summary>
    public static string Write(Shape rectangle)
    {
        var box = rectangle.Bounds();
        return string.Create(CultureInfo.InvariantCulture, $"xywh={box.X:0},{box.Y:0},{box.Width:0},{box.Height:0}");
    }

    /// <summary>Reads one on a picture of this size; the shape is not yet checked against it.</summary>
    /// <returns>The rectangle in whole pixels, or what is wrong.</returns>
    public static (Shape? Shape, string? Problem) Read(string value, int width, int height)
    {
        if (!value.StartsWith("xywh=", StringComparison.Ordinal))
        {
            return (null, T($"“{Short(value)}” is no rectangle: {Right}."));
        }

        var said = value["xywh=".Length..];
        var percent = said.StartsWith("percent:", StringComparison.Ordinal);
        said = percent ? said["percent:".Length..] : said.StartsWith("pixel:", StringComparison.Ordinal) ? said["pixel:".Length..] : said;
        var parts = said.Split(',');
        var numbers = new decimal[4];
        if (parts.Length != 4 || parts.Where((p, i) => !Number(p, out numbers[i])).Any())
        {
            return (null, T($"“{Short(value)}” can't be read: {Right}."));
        }

        if (percent)
        {
            // The far edge is rounded, not the width, so that two rectangles that meet still meet.
            var (x, y) = (Math.Round(numbers[0] * width / 100), Math.Round(numbers[1] * height / 100));
            return (Shape.Rectangle(x, y, Math.Round((numbers[0] + numbers[2]) * width / 100) - x, Math.Round((numbers[1] + numbers[3]) * height / 100) - y), null);
        }

        var (left, top) = (Math.Round(numbers[0]), Math.Round(numbers[1]));
        return (Shape.Rectangle(left, top, Math.Round(numbers[0] + numbers[2]) - left, Math.Round(numbers[1] + numbers[3]) - top), null);
    }

    internal static bool Number(string text, out decimal number) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number) && text.Length <= 20 && number < 1_000_000;

    internal static string Short(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
