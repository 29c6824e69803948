namespace HeirloomArchive.Sewing.Drawing;

/// <summary>Builds one strip of a drawing on its ground: what every sum's picture needs, in millimetres of the drawing.</summary>
/// <param name="height">Of the strip, in mm.</param>
/// <param name="width">Of the strip, in mm; a page stretches it to its own width.</param>
public sealed class Sketch(double height, double width = Sketch.PageWidth)
{
    /// <summary>The width of a strip, in mm.</summary>
    public const double PageWidth = 180;

    /// <summary>What is kept free on every side, in mm.</summary>
    public const double Margin = 6;

    private readonly List<Shape> shapes = [new Box(0, 0, width, height, Ink.Ground)];

    /// <summary>Between the margins, in mm.</summary>
    public double Room => width - (2 * Margin);

    /// <summary>Drawing millimetres for each millimetre of cloth, so that a length fills the room.</summary>
    public double ScaleFor(Length length) => length > Length.Zero ? Room / length.Mm() : 1;

    /// <summary>A rectangle, filled.</summary>
    public Sketch Box(double x, double y, double boxWidth, double boxHeight, Ink ink) => Add(new Box(x, y, boxWidth, boxHeight, ink));

    /// <summary>A straight line.</summary>
    public Sketch Line(double x1, double y1, double x2, double y2, Ink ink) => Add(new Stroke(x1, y1, x2, y2, ink));

    /// <summary>A line through points.</summary>
    public Sketch Path(IEnumerable<(double X, double Y)> points, Ink ink) => Add(new Outline([.. points], ink));

    /// <summary>The area that points enclose.</summary>
    public Sketch Area(IEnumerable<(double X, double Y)> points, Ink ink) => Add(new Outline([.. points], ink, Filled: true));

    /// <summary>A text on its baseline.</summary>
    public Sketch Text(double x, double y, string text, Ink ink = Ink.Number, double size = 2.8, Anchor anchor = Anchor.Middle) =>
        Add(new Label(x, y, text, ink, size, anchor));

    /// <summary>A measure below or above what it measures: a line with ticks and its text in the middle, kept inside the strip.</summary>
    public Sketch Across(double x1, double x2, double y, string text)
    {
        Line(x1, y, x2, y, Ink.Datum).Line(x1, y - 1.2, x1, y + 1.2, Ink.Datum).Line(x2, y - 1.2, x2, y + 1.2, Ink.Datum);
        var half = Math.Min(width / 2, 1 + (text.Length * 0.7));
        return Text(Math.Clamp((x1 + x2) / 2, half, width - half), y - 1.6, text, Ink.Datum, 2.6);
    }

    /// <summary>A measure beside what it measures, its text to the right.</summary>
    public Sketch Down(double x, double y1, double y2, string text)
    {
        Line(x, y1, x, y2, Ink.Datum).Line(x - 1.2, y1, x + 1.2, y1, Ink.Datum).Line(x - 1.2, y2, x + 1.2, y2, Ink.Datum);
        return Text(x + 1.8, ((y1 + y2) / 2) + 0.9, text, Ink.Datum, 2.6, Anchor.Start);
    }

    /// <summary>Points along an arc, close enough to look round.</summary>
    /// <param name="x">Of its centre.</param>
    /// <param name="y">Of its centre.</param>
    /// <param name="radius">In mm of the drawing.</param>
    /// <param name="from">In degrees: 0 to the right, 90 downwards.</param>
    /// <param name="to">In degrees.</param>
    public static IEnumerable<(double X, double Y)> Arc(double x, double y, double radius, double from, double to)
    {
        var steps = Math.Max(2, (int)Math.Ceiling(Math.Abs(to - from) / 3));
        for (var i = 0; i <= steps; i++)
        {
            var (sin, cos) = Math.SinCos((from + ((to - from) * i / steps)) * Math.PI / 180);
            yield return (x + (radius * cos), y + (radius * sin));
        }
    }

    /// <summary>The strip.</summary>
    public Panel Panel() => new(width, height, [.. shapes]);

    private Sketch Add(Shape shape)
    {
        shapes.Add(shape);
        return this;
    }
}
