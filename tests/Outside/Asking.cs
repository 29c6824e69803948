using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Asks a sum as its route does, and reads its answer.</summary>
internal static class Asking
{
    public static JsonObject Of(string slug, string sent) => AllSums.Find(slug)!.Of(JsonNode.Parse(sent)).ToJson();

    public static string Text(JsonNode? length) => (string)length!["text"]!;

    public static string Text(JsonNode answer, string field) => Text(answer[field]);

    public static decimal Millimetres(JsonNode answer, string field) => (decimal)answer[field]!["mm"]!;

    public static double Inches(JsonNode? length) => (double)(decimal)length!["mm"]! / 25.4;

    public static double Inches(Length length) => (double)length.Millimetres / 25.4;

    public static Length Read(string typed) => Length.TryParse(typed, out var length, out var problem) ? length : throw new ArgumentException(problem);
}
