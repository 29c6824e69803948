using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>Garments as they are kept, put together entry by entry; ids are short and stand for the order of entry.</summary>
internal static class Recorded
{
    /// <summary>A garment with these examinations, findings and repairs, each an object as JSON with its <c>id</c>.</summary>
    public static JsonObject Garment(string[] examinations, string[] findings, params string[] repairs) => new()
    {
        ["examinations"] = Array(examinations), ["condition"] = Array(findings), ["repairs"] = Array(repairs),
    };

    public static ConditionHistory History(string[] examinations, params string[] findings) => ConditionHistory.Of(Garment(examinations, findings));

    private static JsonArray Array(string[] entries) => new([.. entries.Select(e => JsonNode.Parse(e))]);
}
