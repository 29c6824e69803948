namespace HeirloomArchive.Worksheets.Drawing;

/// <summary>A sheet of paper and what a home printer can print on it, in millimetres.</summary>
internal sealed record PaperSize(double Width, double Height)
{
    /// <summary>Kept free at the left, the right and the top.</summary>
    public const double Margin = 16;

    /// <summary>Kept free at the bottom, the page number within it.</summary>
    public const double Foot = 22;

    /// <summary>Between the margins, from left to right.</summary>
    public double Room => Width - (2 * Margin);

    /// <summary>Between the margins, from top to bottom.</summary>
    public double Tall => Height - Margin - Foot;

    /// <param name="paper"><c>A4</c> or <c>letter</c>.</param>
    /// <param name="landscape">The long side across.</param>
    public static PaperSize Of(string paper, bool landscape)
    {
        var upright = paper == "letter" ? new PaperSize(215.9, 279.4) : new PaperSize(210, 297);
        return landscape ? new PaperSize(upright.Height, upright.Width) : upright;
    }
}
