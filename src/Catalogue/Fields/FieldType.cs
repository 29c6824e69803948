using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>What a field of the record may hold: reads what is sent into the form that is kept, and presents what is kept.</summary>
public abstract class FieldType
{
    /// <summary>Reads a value sent for this field.</summary>
    /// <param name="sent">The value, not null: an absent or null field is not read.</param>
    /// <param name="path">Where it stands, for faults: <c>techniques[0].width</c>.</param>
    /// <param name="faults">Takes every fault found.</param>
    /// <returns>The form that is kept, a new node; null when there is nothing to keep (a blank text, an empty list) or when it is refused.</returns>
    public abstract JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults);

    /// <summary>What is kept, as the API shows it: fields in the order of the table, lists always there. A new node.</summary>
    public virtual JsonNode Present(JsonNode kept) => kept.DeepClone();
}

/// <summary>One field of the table.</summary>
/// <param name="Name">Its name in JSON.</param>
/// <param name="Type">What it may hold.</param>
public sealed record Field(string Name, FieldType Type)
{
    /// <summary>Shown only to those who may see private fields.</summary>
    public bool Private { get; init; }

    /// <summary>Computed from its neighbours when shown, never kept; sent in, it must be equal.</summary>
    public Func<JsonObject, JsonNode?>? Computed { get; init; }

    /// <summary>The name in words: <c>stitchesPerInch</c> becomes "Stitches per inch".</summary>
    public string Label { get; } = InWords(Name);

    private static string InWords(string name)
    {
        var words = string.Concat(name.Select(c => char.IsUpper(c) ? $" {char.ToLowerInvariant(c)}" : $"{c}"));
        return char.ToUpperInvariant(words[0]) + words[1..];
    }
}
