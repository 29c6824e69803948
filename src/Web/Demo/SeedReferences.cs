using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace HeirloomArchive.Web.Demo;

/// <summary>Puts ids in the place of <c>"@H-002"</c> and <c>"@condition[0]"</c>.</summary>
/// <param name="file">Named when one leads nowhere.</param>
/// <param name="numbers">The ids of the garments by their numbers.</param>
internal sealed partial class SeedReferences(string file, IReadOnlyDictionary<string, string> numbers)
{
    /// <summary>A copy of <paramref name="seed"/> with ids.</summary>
    /// <param name="seed">From the seed folder.</param>
    /// <param name="garment">Whose entries are meant, as the API answers it; null where none can be.</param>
    public JsonNode? Resolve(JsonNode? seed, JsonObject? garment) => seed switch
    {
        JsonObject o => new JsonObject(o.Select(f => KeyValuePair.Create(f.Key, Resolve(f.Value, garment)))),
        JsonArray a => new JsonArray([.. a.Select(item => Resolve(item, garment))]),
        JsonValue v when v.TryGetValue<string>(out var text) && text.StartsWith('@') => Id(text[1..], garment),
        _ => seed?.DeepClone(),
    };

    /// <summary>The list and the entry that <c>condition[0]</c> names.</summary>
    public (string List, JsonObject Entry) Entry(string place, JsonObject? garment)
    {
        var match = Place().Match(place);
        var list = match.Success ? garment?[match.Groups["list"].Value] as JsonArray : null;
        var index = match.Success ? int.Parse(match.Groups["index"].ValueSpan, CultureInfo.InvariantCulture) : 0;
        return list is not null && index < list.Count ? (match.Groups["list"].Value, list[index]!.AsObject()) : throw new DemoException(file, $"\"{place}\" leads to no entry.");
    }

    private JsonNode? Id(string reference, JsonObject? garment) =>
        numbers.TryGetValue(reference, out var id) ? id : Entry(reference, garment).Entry["id"]!.DeepClone();

    [GeneratedRegex(@"^(?<list>[a-z]+)\[(?<index>\d{1,4})\]$")]
    private static partial Regex Place();
}
