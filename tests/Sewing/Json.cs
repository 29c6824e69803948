using System.Text.Json.Nodes;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Tests;

/// <summary>Requests and answers as other programs see them.</summary>
internal static class Json
{
    public static JsonObject Plan(string request) => TuckPlanJson.Write(TuckPlan.Make(TuckRunJson.Read(JsonNode.Parse(request))));

    public static JsonObject Of(string slug, string sent) => AllSums.Find(slug)!.Of(JsonNode.Parse(sent)).ToJson();

    /// <summary>What is sent to a sum makes no sense: the field is named, and the message says these words.</summary>
    public static void Refuses(string slug, string sent, string field, string words)
    {
        var refused = Assert.Throws<FaultException>(() => Of(slug, sent));
        Assert.False(refused.Unreadable);
        Assert.Contains(refused.Faults, f => f.Path == field && f.Message.Contains(words, StringComparison.Ordinal));
    }

    public static IReadOnlyList<Fault> Refused(Action action) => Assert.Throws<FaultException>(action).Faults;

    public static Length L(string text) => Length.TryParse(text, out var length, out var problem) ? length : throw new ArgumentException(problem);

    public static string[] Texts(this JsonNode answer, string list, string field) =>
        [.. answer[list]!.AsArray().Select(line => (string)line![field]!["text"]!)];

    public static string Text(this JsonNode answer, string field) => (string)answer[field]!["text"]!;
}
