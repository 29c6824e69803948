namespace HeirloomArchive.Catalogue;

/// <summary>
/// What of the record is for her alone, as <see cref="GarmentShape"/> marks it: never in search, suggestions, worksheets,
/// prints, or what is made for others.
/// </summary>
public static class PrivateFields
{
    /// <summary>Their paths in a garment: <c>whereabouts.to, acquired, place</c>.</summary>
    public static IReadOnlyList<string> Paths { get; } = [.. Of(GarmentShape.Garment, "")];

    private static IEnumerable<string> Of(RecordType shape, string path) => shape.Fields.SelectMany(f => f.Private ? [path + f.Name]
        : f.Type is RecordType inner ? Of(inner, $"{path}{f.Name}.")
        // A list's items would need a place in the path, and Sight a walk; the record has none so far, and a test watches it.
        : []);
}
