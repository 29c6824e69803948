using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Worksheets;

/// <summary>Reads what a stored result holds; the shapes are those the maker wrote.</summary>
internal static class Reading
{
    /// <summary>The millimetres of <c>{"mm","text"}</c>, for drawing.</summary>
    public static double Mm(this JsonNode? length) =>
        length is JsonObject o ? o["mm"]!.GetValue<double>() : 0;

    /// <summary>The text of <c>{"mm","text"}</c>, of a string, of a number; empty for null.</summary>
    public static string Text(this JsonNode? node) => node switch
    {
        null => "",
        JsonObject o => o["text"].Text(),
        JsonValue v when v.TryGetValue<string>(out var text) => text,
        _ => node.ToJsonString(),
    };

    public static int Whole(this JsonNode? node) => node is null ? 0 : node.GetValue<int>();

    public static bool Yes(this JsonNode? node) => node is JsonValue v && v.TryGetValue<bool>(out var yes) && yes;

    /// <summary>The objects of an array; none for null.</summary>
    public static IEnumerable<JsonObject> Each(this JsonNode? array) =>
        array is JsonArray a ? a.OfType<JsonObject>() : [];

    /// <summary>The texts of an array of strings; none for null.</summary>
    public static IEnumerable<string> Texts(this JsonNode? array) =>
        array is JsonArray a ? a.Select(Text) : [];

    public static string Invariant(this double number, string format) =>
        number.ToString(format, CultureInfo.InvariantCulture);
}
