using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// What of the record is for her alone, as <see cref="GarmentShape"/> marks it: never in search, suggestions, worksheets,
/// prints, or what is made for others.
/// </summary>
public static class PrivateFields
{
    /// <summary>Their paths in a garment: <c>whereabouts.to, acquired, place</c>.</summary>
    public static IReadOnlyList<string> Paths { get; } = [.. Of(GarmentShape.Garment, "")];

    /// <summary>A copy without them. An object of which nothing else is recorded goes too.</summary>
    public static JsonObject Without(JsonObject garment)
    {
        ArgumentNullException.ThrowIfNull(garment);
        var copy = garment.DeepClone().AsObject();
        foreach (var steps in Paths.Select(p => p.Split('.')))
        {
            if (steps.Length == 1)
            {
                copy.Remove(steps[0]);
            }
            else if (copy[steps[0]] is JsonObject inner && inner.Remove(steps[1]) && inner.Count == 0)
            {
                copy.Remove(steps[0]);
            }
        }

        return copy;
    }

    private static IEnumerable<string> Of(RecordType shape, string path) => shape.Fields.SelectMany(f => f.Private ? [path + f.Name]
        : f.Type is RecordType inner ? Of(inner, $"{path}{f.Name}.")
        // A list's items would need a place in the path, and Without a walk; the record has none so far, and a test watches it.
        : []);
}
