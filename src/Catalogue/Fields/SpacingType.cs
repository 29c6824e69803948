using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>The spacing from one group of tucks to the next: a bare length is the plain cloth seen, an object says which is meant.</summary>
public sealed class SpacingType : FieldType
{
    /// <summary>The three meanings that "apart" has in the books; those that disagree are all kept as she measured them.</summary>
    public static IReadOnlyList<Field> Meanings { get; } =
    [
        new("space", new MeasureType(Sign.Any)),
        new("stitchToStitch", new MeasureType(Sign.AboveZero)),
        new("foldToFold", new MeasureType(Sign.AboveZero)),
    ];

    private static readonly MeasureType Bare = new(Sign.Any);
    private static readonly RecordType Said = new(Meanings);

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults) =>
        sent is JsonObject o && !o.ContainsKey("mm") && !o.ContainsKey("text")
            ? Said.Read(sent, path, faults)
            : Bare.Read(sent, path, faults);

    /// <inheritdoc />
    public override JsonNode Present(JsonNode kept) => kept["mm"] is null ? Said.Present(kept) : kept.DeepClone();
}
