using System.Text.Json;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Measuring;

/// <summary>One measure that a kind of piece usually gets.</summary>
/// <param name="Name">A word of the facet <c>measures</c>.</param>
/// <param name="Taken">How it is taken: a value of the record's <c>taken</c>.</param>
/// <param name="Where">Where the tape lies.</param>
public sealed record KindMeasure(string Name, string Taken, string Where);

/// <summary>The measures of pieces of one shape, numbered in this order on the drawing of the shape.</summary>
/// <param name="Shape">The shape's name: <c>gown</c>.</param>
/// <param name="Kinds">The kinds of garment that have it.</param>
/// <param name="Measures">Which measures, in the order one takes them.</param>
public sealed record KindMeasures(string Shape, IReadOnlyList<string> Kinds, IReadOnlyList<KindMeasure> Measures)
{
    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    /// <summary>Every shape.</summary>
    public static IReadOnlyList<KindMeasures> All { get; } = ReadFile();

    /// <summary>The measures of a kind, of its broader word where it has none of its own; of any other piece, length and width.</summary>
    public static KindMeasures Of(string? kind)
    {
        for (var at = kind; at is not null; at = Words.Find("kinds", at)?.Broader)
        {
            if (All.FirstOrDefault(s => s.Kinds.Contains(at)) is { } shape)
            {
                return shape;
            }
        }

        return All.Single(s => s.Shape == "flat");
    }

    /// <summary>Rows for the measures of the kind that are not recorded yet: the name and how it is taken, the length to be filled in.</summary>
    public IEnumerable<JsonObject> Missing(JsonArray? recorded) => Measures
        .Where(m => recorded?.OfType<JsonObject>().Any(r => r["name"] is JsonValue name && name.ToString() == m.Name) != true)
        .Select(m => new JsonObject { ["name"] = m.Name, ["taken"] = m.Taken });

    private static IReadOnlyList<KindMeasures> ReadFile()
    {
        using var stream = typeof(KindMeasures).Assembly.GetManifestResourceStream("HeirloomArchive.Catalogue.Measuring.MeasuresOfKinds.json")!;
        return JsonSerializer.Deserialize<ShapeFile>(stream, Reading)!.Shapes;
    }

    private sealed record ShapeFile(IReadOnlyList<KindMeasures> Shapes);
}
