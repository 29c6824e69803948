using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>The picture that regions lie on, in its garment.</summary>
/// <param name="Picture">The picture's id.</param>
/// <param name="Garment">The garment as it stands.</param>
/// <param name="Entry">The picture as the garment has it.</param>
public sealed record RegionFrame(Guid Picture, Garment Garment, JsonObject Entry)
{
    /// <summary>Pixels, the orientation applied.</summary>
    public int Width => Entry["width"]!.GetValue<int>();

    /// <inheritdoc cref="Width"/>
    public int Height => Entry["height"]!.GetValue<int>();

    /// <summary>The garment's entry that a region shows; null if it has none, or what is shown is no entry.</summary>
    public JsonObject? Find(ShownThing shown) => ListOf(shown.Kind) is { } list
        ? (Garment.Fields[list] as JsonArray ?? []).OfType<JsonObject>().FirstOrDefault(e => e["id"]?.GetValue<string>() == shown.Value)
        : null;

    /// <summary>The garment's list that an entry of this kind stands in; null for a word or a text.</summary>
    public static string? ListOf(ShownKind kind) => kind switch
    {
        ShownKind.Technique => "techniques",
        ShownKind.Condition => "condition",
        ShownKind.Repair => "repairs",
        _ => null,
    };
}
