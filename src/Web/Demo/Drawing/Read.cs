using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Reads from a garment as the API answers it.</summary>
internal static class Read
{
    public static string? Text(JsonObject from, string name) =>
        from[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    public static float? Number(JsonNode? node) =>
        node is JsonValue ? float.Parse(node.ToString(), CultureInfo.InvariantCulture) : null;

    /// <summary>A length in millimetres; 0 if there is none.</summary>
    public static float Millimetres(JsonNode? node) => Number((node as JsonObject)?["mm"]) ?? 0;

    public static IEnumerable<JsonObject> Entries(JsonObject garment, string list) =>
        (garment[list] as JsonArray ?? []).OfType<JsonObject>();

    /// <summary>The entry that <c>techniques[2]</c> names.</summary>
    public static JsonObject Entry(JsonObject garment, string place)
    {
        var bracket = place.IndexOf('[', StringComparison.Ordinal);
        var index = int.Parse(place.AsSpan(bracket + 1, place.Length - bracket - 2), CultureInfo.InvariantCulture);
        return Entries(garment, place[..bracket]).ElementAt(index);
    }
}
