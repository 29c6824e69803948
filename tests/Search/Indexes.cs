using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Search.Tests;

/// <summary>Short ways to fill an index and to ask it.</summary>
internal static class Indexes
{
    private static readonly TimeProvider In2026 = new Standing(new DateTimeOffset(2026, 5, 1, 0, 0, 0, TimeSpan.Zero));

    /// <summary>A new index in a folder, with these garments.</summary>
    public static GarmentIndex Of(string folder, params IEnumerable<JsonObject> garments)
    {
        var index = GarmentIndex.Open(folder, In2026);
        index.BeginBuilding(0);
        index.Build([.. garments.Select(g => (Guid.Parse(g["id"]!.GetValue<string>()), g))]);
        index.Adopt(1);
        return index;
    }

    public static void Put(this GarmentIndex index, JsonObject garment, long version) =>
        index.Put(Guid.Parse(garment["id"]!.GetValue<string>()), version, garment);

    /// <summary>Asks as an address would: <c>"lace=torchon&amp;sort=name"</c>.</summary>
    public static JsonObject Ask(this GarmentIndex index, string query) => index.Search(SearchRequest.Read(Query(query)));

    /// <summary>The names found, in order.</summary>
    public static string[] Names(this GarmentIndex index, string query) =>
        [.. index.Ask(query)["items"]!.AsArray().Select(i => i!["name"]!.GetValue<string>())];

    public static IEnumerable<KeyValuePair<string, string?>> Query(string query) => query.Split('&', StringSplitOptions.RemoveEmptyEntries)
        .Select(pair => pair.Split('=', 2)).Select(pair => KeyValuePair.Create(pair[0], (string?)Uri.UnescapeDataString(pair[1])));

    /// <summary>A garment from its fields; the last digits of its id are its number here.</summary>
    public static JsonObject Garment(int number, string json)
    {
        var garment = JsonNode.Parse(json)!.AsObject();
        garment["id"] = $"019a0000-0000-7000-8000-{number.ToString("D12", CultureInfo.InvariantCulture)}";
        garment["setAside"] = null;
        return garment;
    }

    private sealed class Standing(DateTimeOffset now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now;
    }
}
