using System.Globalization;
using System.Xml;
using System.Xml.Linq;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>
/// A polygon, a line or a point as SVG: one <c>polygon</c>, <c>line</c> or <c>circle</c> (of a point, always with the same
/// small radius) and nothing else. Whatever more SVG can hold is refused: it is shown to others again.
/// </summary>
public static class SvgSelector
{
    /// <summary>The most characters of one.</summary>
    public const int LongestText = 10_000;

    private const string PointRadius = "5";
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Writes any shape but a rectangle.</summary>
    public static string Write(Shape shape)
    {
        var drawn = shape.Kind switch
        {
            ShapeKind.Polygon => $"<polygon points=\"{string.Join(' ', shape.Spots.Select(s => $"{Text(s.X)},{Text(s.Y)}"))}\"/>",
            ShapeKind.Line => $"<line x1=\"{Text(shape.Spots[0].X)}\" y1=\"{Text(shape.Spots[0].Y)}\" x2=\"{Text(shape.Spots[1].X)}\" y2=\"{Text(shape.Spots[1].Y)}\"/>",
            ShapeKind.Point => $"<circle cx=\"{Text(shape.Spots[0].X)}\" cy=\"{Text(shape.Spots[0].Y)}\" r=\"{PointRadius}\"/>",
            _ => throw new ArgumentException("A rectangle is written as a fragment.", nameof(shape)),
        };
        return $"<svg xmlns=\"{Svg}\">{drawn}</svg>";
    }

    /// <summary>Reads one; the shape is not yet checked against a picture.</summary>
    /// <returns>The shape to 1/100 pixel, or what is wrong.</returns>
    public static (Shape? Shape, string? Problem) Read(string value)
    {
        if (value.Length > LongestText)
        {
            return (null, T($"The drawing has {value.Length} characters; send at most {LongestText}."));
        }

        XElement root;
        try
        {
            var settings = new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = LongestText };
            using var reader = XmlReader.Create(new StringReader(value), settings);
            root = XDocument.Load(reader).Root!;
        }
        catch (XmlException e)
        {
            return (null, T($"The drawing is not well-formed SVG (line {e.LineNumber}, sign {e.LinePosition})."));
        }

        if (root.Name != Svg + "svg")
        {
            return (null, $"“{FragmentSelector.Short(root.Name.LocalName)}” stands where <svg xmlns=\"{Svg}\"> should.");
        }

        if (root.Nodes().Any(n => n is not XElement && !(n is XText text && string.IsNullOrWhiteSpace(text.Value))) || root.Elements().Count() != 1)
        {
            return (null, T("The drawing must hold one polygon, line or circle and nothing else."));
        }

        var drawn = root.Elements().Single();
        var faulty = root.Attributes().Concat(drawn.Attributes()).FirstOrDefault(a => !a.IsNamespaceDeclaration && !(a.Parent == drawn && Known(drawn).Contains(a.Name.ToString())));
        return drawn.Name.Namespace != Svg || Known(drawn).Length == 0 || drawn.Nodes().Any()
            ? (null, $"“{FragmentSelector.Short(drawn.Name.LocalName)}” is no shape of a region: send one polygon, line or circle (a point); a rectangle is a FragmentSelector.")
            : faulty is not null
                ? (null, $"The attribute “{FragmentSelector.Short(faulty.Name.LocalName)}” has no place here; a {drawn.Name.LocalName} has {string.Join(", ", Known(drawn))}.")
                : Read(drawn);
    }

    private static (Shape?, string?) Read(XElement drawn)
    {
        var numbers = (drawn.Name.LocalName == "polygon" ? drawn.Attribute("points")?.Value.Split([' ', ',', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries) ?? []
            : Known(drawn).Select(n => drawn.Attribute(n)?.Value ?? "")).ToList();
        var read = new List<decimal>();
        foreach (var number in numbers)
        {
            if (!FragmentSelector.Number(number, out var value))
            {
                return (null, number.Length == 0 ? $"A {drawn.Name.LocalName} has {string.Join(", ", Known(drawn))}." : $"“{FragmentSelector.Short(number)}” is not a number of pixels, 0 or more.");
            }

            read.Add(Math.Round(value, 2));
        }

        return drawn.Name.LocalName switch
        {
            "polygon" => read.Count % 2 == 0 && read.Count > 0 ? (new Shape(ShapeKind.Polygon, Spots(read)), null) : (null, "The points of a polygon come in pairs: x,y x,y x,y."),
            "line" => (new Shape(ShapeKind.Line, Spots(read)), null),
            _ => numbers[2] == PointRadius ? (new Shape(ShapeKind.Point, Spots(read[..2])), null) : (null, $"A circle marks a point and has r=\"{PointRadius}\", not {FragmentSelector.Short(numbers[2])}; send a polygon for an area."),
        };
    }

    private static string[] Known(XElement drawn) => drawn.Name.LocalName switch
    {
        "polygon" => ["points"],
        "line" => ["x1", "y1", "x2", "y2"],
        "circle" => ["cx", "cy", "r"],
        _ => [],
    };

    private static Spot[] Spots(IEnumerable<decimal> numbers) => [.. numbers.Chunk(2).Select(p => new Spot(p[0], p[1]))];

    private static string Text(decimal number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
