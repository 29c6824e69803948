using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing.Tests;

/// <summary>Requests and answers as other programs see them.</summary>
internal static class Json
{
    public static JsonObject Plan(string request) => TuckPlanJson.Write(TuckPlan.Make(TuckRunJson.Read(JsonNode.Parse(request))));

    public static IReadOnlyList<Fault> Refused(Action action) => Assert.Throws<FaultException>(action).Faults;

    public static Length L(string text) => Length.TryParse(text, out var length, out var problem) ? length : throw new ArgumentException(problem);

    public static string[] Texts(this JsonNode answer, string list, string field) =>
        [.. answer[list]!.AsArray().Select(line => (string)line![field]!["text"]!)];

    public static string Text(this JsonNode answer, string field) => (string)answer[field]!["text"]!;
}
