using System.Globalization;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>A region as its picture's page shows it: numbered, in words, and drawn.</summary>
/// <param name="Number">From 1, in the order of making.</param>
/// <param name="Region">The region.</param>
/// <param name="Shows">What it shows, in words.</param>
/// <param name="Length">Of a line: its length as measured, or by the picture's scale; null where it is not known.</param>
public sealed record MarkView(int Number, Region Region, IReadOnlyList<RegionWord> Shows, string? Length)
{
    public Shape Shape => Region.Now.Shape;

    /// <summary>The kind of line it is drawn with: <c>work</c>, <c>finding</c>, <c>repair</c> or <c>note</c>.</summary>
    public string Style => Region.Now.Shows.Select(s => s.Kind).Where(k => k is not (ShownKind.Text or ShownKind.Word)).Cast<ShownKind?>().FirstOrDefault() switch
    {
        ShownKind.Technique => "work",
        ShownKind.Condition => "finding",
        ShownKind.Repair => "repair",
        _ => "note",
    };

    /// <summary>"Rectangle", "Outline" …</summary>
    public string Kind => Shape.Kind switch { ShapeKind.Rectangle => T("Rectangle"), ShapeKind.Polygon => T("Outline"), ShapeKind.Line => T("Line"), _ => T("Point") };

    /// <summary>The same for the script: <c>rectangle</c>, <c>outline</c> …</summary>
    public string Tool => Shape.Kind switch { ShapeKind.Rectangle => "rectangle", ShapeKind.Polygon => "outline", ShapeKind.Line => "line", _ => "point" };

    /// <summary>All that it shows, in one line.</summary>
    public string Line => Shows.Count > 0 ? string.Join("; ", Shows.Select(s => s.Text)) : T("A line");

    /// <summary>Its points as <c>x,y x,y</c>.</summary>
    public string Spots => string.Join(' ', Shape.Spots.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.X:0.##},{s.Y:0.##}")));

    /// <summary>The regions of a picture, numbered.</summary>
    public static IReadOnlyList<MarkView> All(IReadOnlyList<Region> regions, RegionFrame frame, PictureScale? scale)
    {
        var unit = regions.Select(r => r.Now.Measured).FirstOrDefault(m => m is not null) is { } measured ? HeirloomArchive.Sewing.Length.UnitOf(measured.Text) : LengthUnit.Millimetres;
        return [.. regions.Select((r, i) => new MarkView(i + 1, r, [.. r.Now.Shows.Select(s => RegionWord.Of(s, frame))], LengthOf(r, scale, unit)))];
    }

    private static string? LengthOf(Region region, PictureScale? scale, LengthUnit unit) => region.Now switch
    {
        { Shape.Kind: not ShapeKind.Line } => null,
        { Measured: { } measured } => T($"{measured.Text}, measured"),
        { Shape: var line } when scale is not null => T($"about {scale.LengthOf(line.Pixels()).ToText(unit).TrimStart('≈', ' ')}, by the picture"),
        _ => null,
    };
}
