using System.Globalization;
using System.Xml.Linq;

namespace HeirloomArchive.Web.Outlines;

/// <summary>The line drawing of one shape of garment, from both sides.</summary>
/// <param name="Shape">Its file's name: <c>gown</c>.</param>
/// <param name="Title">What it shows.</param>
/// <param name="Faces">Front, then back.</param>
public sealed record Outline(string Shape, string Title, IReadOnlyList<OutlineFace> Faces)
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Reads a file of this folder.</summary>
    public static Outline Read(string shape, Stream file)
    {
        var drawing = XDocument.Load(file).Root!;
        return new(shape, drawing.Element(Svg + "title")!.Value, [.. drawing.Elements(Svg + "svg").Select(Face)]);
    }

    private static OutlineFace Face(XElement face)
    {
        var paths = face.Elements(Svg + "path").ToList();
        return new(
            (string)face.Attribute("id")!, face.Element(Svg + "title")!.Value, (int)face.Attribute("height")!,
            (string)paths.Single(p => (string?)p.Attribute("class") == "cloth").Attribute("d")!,
            [.. paths.Where(p => p.Attribute("data-part") is not null).Select(Region)],
            [.. paths.Where(p => (string?)p.Attribute("class") is not (null or "cloth")).Select(p => new OutlineLine((string)p.Attribute("class")!, (string)p.Attribute("d")!))]);
    }

    private static OutlineRegion Region(XElement path)
    {
        var mark = ((string)path.Attribute("data-mark")!).Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        return new((string)path.Attribute("data-part")!, (string?)path.Attribute("data-side"), mark[0], mark[1], (string)path.Attribute("d")!);
    }
}

/// <summary>A garment seen from one side, 200 wide.</summary>
/// <param name="Id"><c>front</c> or <c>back</c>.</param>
/// <param name="Title">What it is called: "Front", of a flat piece "Right side".</param>
/// <param name="Height">In the units of the drawing.</param>
/// <param name="Cloth">The whole silhouette.</param>
/// <param name="Regions">Its parts; they share the cloth out between them.</param>
/// <param name="Lines">What is drawn on the cloth: seams, gathers, tucks, lace.</param>
public sealed record OutlineFace(
    string Id, string Title, int Height, string Cloth, IReadOnlyList<OutlineRegion> Regions, IReadOnlyList<OutlineLine> Lines)
{
    /// <summary>The width of every face.</summary>
    public const int Width = 200;
}

/// <summary>One part as it is seen from one side.</summary>
/// <param name="Part">A word of the parts.</param>
/// <param name="Side"><c>left</c> or <c>right</c> of the wearer, or null where there is one only.</param>
/// <param name="X">Where a mark for it stands, from the left.</param>
/// <param name="Y">And from the top.</param>
/// <param name="Path">Its closed outline.</param>
public sealed record OutlineRegion(string Part, string? Side, double X, double Y, string Path);

/// <summary>A stroke on the cloth.</summary>
/// <param name="Stroke">How it is drawn: <c>line</c>, <c>fine</c>, <c>soft</c>, <c>stitch</c> or <c>lace</c>.</param>
/// <param name="Path">Where.</param>
public sealed record OutlineLine(string Stroke, string Path);
