using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Outlines;

/// <summary>A drawing for <c>_Outline.cshtml</c>.</summary>
/// <param name="Kind">The kind of the garment, as it is recorded.</param>
/// <param name="State">The garment whose techniques, findings and repairs are marked on it, or null.</param>
/// <param name="Chosen">The region that is chosen, or null.</param>
/// <param name="LinkTo">Where a region leads, by part and side; null, or null for a region, if nowhere.</param>
public sealed record OutlineView(JsonNode? Kind, JsonObject? State = null, OutlineChoice? Chosen = null, Func<string, string?, string?>? LinkTo = null)
{
    private const double MarkWidth = 27;
    private const double MarkHeight = 19;

    /// <summary>Whether a list stands beside that says and links the same: then the drawing is for the eye and the finger only.</summary>
    public bool ListBeside { get; init; }

    /// <summary>Whether a drawing that folds away is open at first.</summary>
    public bool Open { get; init; }

    /// <summary>The drawing, or null if there is none of this kind.</summary>
    public Outline? Outline { get; } = OutlineKinds.For(Kind);

    /// <summary>What is recorded, by part.</summary>
    public IReadOnlyList<PartEntries> Parts { get; } = State is null ? [] : PartEntries.Of(State);

    /// <summary>The kind in words: "blouse".</summary>
    public string KindName => Say.Word("kinds", Kind).ToLowerInvariant();

    /// <summary>What is said of a part that this kind usually does not have; null where nothing is to be said.</summary>
    public string? Unusual(string? part) => part is not null && !OutlineKinds.IsUsual(Kind, part)
        ? NotUsual(Say.Word("parts", part), KindName) : null;

    /// <summary>What is said of such a part.</summary>
    public static string NotUsual(string part, string kind) => T($"{part} is not usual for this kind of piece ({kind}). It is kept as you say; look once more whether it is meant.");

    /// <summary>A region in words: "Sleeve, left".</summary>
    public static string Name(string part, string? side) => Say.Word("parts", part) + (side is null ? "" : $", {Say.Plain(side).ToLowerInvariant()}");

    /// <summary>Whether a region is the chosen one: a part chosen without a side is chosen on both.</summary>
    public bool IsChosen(OutlineRegion region) => Chosen is { } chosen && chosen.Part == region.Part
        && (region.Side is null || chosen.Side is not ("left" or "right") || chosen.Side == region.Side);

    /// <summary>What the drawing is cut to: with room at the sides where marks stand.</summary>
    public string Box(OutlineFace face)
    {
        var margin = Outline!.Faces.SelectMany(Marks).Select(m => (m.Counts.Count * MarkWidth) + 6).DefaultIfEmpty().Max();
        return $"{Number(-margin)} 0 {Number(OutlineFace.Width + (2 * margin))} {face.Height}";
    }

    /// <summary>The marks of a face: each stands beside the drawing at the height of its part, a fine line leads to it, and none covers another.</summary>
    public IReadOnlyList<OutlineMark> Marks(OutlineFace face)
    {
        var found = face.Regions.Select(r => (Region: r, Counts: Count(Parts.Where(p => p.Part is not null && DrawnAs(p.Part) == r.Part), r.Side)))
            .Where(f => f.Counts.Count > 0).ToLookup(f => Math.Abs(f.Region.X - (OutlineFace.Width / 2)) < 12);
        var left = found[false].Where(f => f.Region.X < OutlineFace.Width / 2).ToList();
        var right = found[false].Except(left).ToList();
        foreach (var middle in found[true])
        {
            (left.Count <= right.Count ? left : right).Add(middle);
        }

        return [.. Column(left, face.Height, atLeft: true), .. Column(right, face.Height, atLeft: false)];
    }

    /// <summary>The sign for a list, told apart without colour: a stitched line, a circle, a cross-stitch.</summary>
    /// <param name="list"><c>techniques</c>, <c>condition</c> or <c>repairs</c>.</param>
    /// <param name="x">Its left edge; it is 12 wide.</param>
    /// <param name="y">Its middle.</param>
    public static string Sign(string list, double x, double y) => $"M{Number(x)} {Number(y)}" + list switch
    {
        "techniques" => "h2.6m2 0h2.6m2 0h2.6",
        "condition" => "m.8 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0",
        _ => "m1.5 -4.5l9 9m0 -9l-9 9",
    };

    /// <summary>A number as SVG reads it.</summary>
    public static string Number(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);

    // A part that the drawing does not tell apart is shown where the broader one is.
    private string? DrawnAs(string part) => OutlineKinds.WithBroader(part).FirstOrDefault(p => Outline!.Faces.Any(f => f.Regions.Any(r => r.Part == p)));

    private static List<(string, int)> Count(IEnumerable<PartEntries> parts, string? side) =>
        [.. parts.SelectMany(p => p.Entries).Where(e => e.MayBeAt(side)).GroupBy(e => e.List).Select(g => (g.Key, g.Count()))];

    private static IEnumerable<OutlineMark> Column(List<(OutlineRegion Region, List<(string, int)> Counts)> found, int height, bool atLeft)
    {
        var rows = found.OrderBy(f => f.Region.Y).ToList();
        var heights = new double[rows.Count];
        for (var i = 0; i < rows.Count; i++)
        {
            heights[i] = Math.Max(rows[i].Region.Y, i == 0 ? MarkHeight / 2 : heights[i - 1] + MarkHeight);
        }

        // What ran over the foot is pushed up again.
        for (var i = rows.Count - 1; i >= 0; i--)
        {
            heights[i] = Math.Min(heights[i], i == rows.Count - 1 ? height - (MarkHeight / 2) : heights[i + 1] - MarkHeight);
        }

        return rows.Select((row, i) =>
        {
            var start = atLeft ? -4 - (row.Counts.Count * MarkWidth) : OutlineFace.Width + 4;
            return new OutlineMark(
                row.Region, heights[i], atLeft ? -2 : OutlineFace.Width + 2,
                [.. row.Counts.Select((c, place) => (c.Item1, c.Item2, start + (place * MarkWidth)))]);
        });
    }
}

/// <summary>A part that is chosen on the drawing.</summary>
/// <param name="Part">Its slug.</param>
/// <param name="Side">The wearer's side, or null.</param>
public sealed record OutlineChoice(string Part, string? Side);

/// <summary>The marks of one region.</summary>
/// <param name="Region">Which.</param>
/// <param name="Y">Their height.</param>
/// <param name="Edge">Where the line to the region starts.</param>
/// <param name="Counts">For each list that has entries there: its name, how many, and where the mark stands.</param>
public sealed record OutlineMark(OutlineRegion Region, double Y, double Edge, IReadOnlyList<(string List, int Count, double X)> Counts);
