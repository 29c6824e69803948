using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>A small body whose fields are few and known: texts, a number of days, a list of texts, or an object as it came.</summary>
internal sealed class AccountBody
{
    private readonly JsonObject sent;

    private AccountBody(JsonObject sent) => this.sent = sent;

    /// <exception cref="FaultException">Not readable, or a field that is not known.</exception>
    public static async Task<AccountBody> Read(HttpRequest request, CancellationToken ct, params string[] fields)
    {
        var sent = await Body.ReadObjectOrNothing(request, ct) ?? [];
        return sent.FirstOrDefault(f => !fields.Contains(f.Key)).Key is { } unknown
            ? throw new FaultException(unknown.Short(60), $"This is not a field here; there are {(fields.Length == 0 ? "none" : string.Join(", ", fields))}.", FaultKind.Unreadable)
            : new(sent);
    }

    /// <summary>A text; empty where it is left out.</summary>
    public string Text(string field, int most = 300) => sent[field] switch
    {
        null => "",
        JsonValue v when v.GetValueKind() == JsonValueKind.String => v.GetValue<string>() is var text && text.Length <= most ? text : throw new FaultException(field, $"The text has more than {most} characters."),
        _ => throw new FaultException(field, "This is to be a text.", FaultKind.Unreadable),
    };

    public int Number(string field, int otherwise) => sent[field] switch
    {
        null => otherwise,
        JsonValue v when v.GetValueKind() == JsonValueKind.Number && v.TryGetValue<int>(out var number) => number,
        { } other => throw new FaultException(field, $"{other.ToJsonString(Api.Writing).Short()} is not a whole number.", FaultKind.Unreadable),
    };

    public bool? YesOrNo(string field) => sent[field] switch
    {
        null => null,
        JsonValue v when v.TryGetValue<bool>(out var yes) => yes,
        { } other => throw new FaultException(field, $"{other.ToJsonString(Api.Writing).Short()} is neither true nor false.", FaultKind.Unreadable),
    };

    public IReadOnlyList<string> Texts(string field) => sent[field] switch
    {
        null => [],
        JsonArray list when list.All(i => i?.GetValueKind() == JsonValueKind.String) => [.. list.Select(i => i!.GetValue<string>())],
        { } other => throw new FaultException(field, $"{other.ToJsonString(Api.Writing).Short()} is not a list of texts.", FaultKind.Unreadable),
    };

    /// <summary>An object as it came, as JSON.</summary>
    public string Json(string field) => sent[field] is JsonObject inner ? inner.ToJsonString() : throw new FaultException(field, "This is to be an object, as the browser made it.", FaultKind.Unreadable);
}
