using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>Reads what was sent: one JSON object, whole, or a fault that says what is wrong with it.</summary>
public static class Body
{
    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 32 };

    /// <summary>The object sent.</summary>
    /// <param name="request">What was sent.</param>
    /// <param name="ct">Stops it.</param>
    /// <param name="most">The most bytes it may have.</param>
    /// <exception cref="FaultException">Not JSON, not an object, or text that is not Unicode.</exception>
    public static async Task<JsonObject> ReadObject(HttpRequest request, CancellationToken ct, int most = Api.LargestBody) =>
        await Read(request, most, ct) as JsonObject
        ?? throw new FaultException("", "The body must be one JSON object, in braces.", FaultKind.Unreadable);

    /// <summary>The object sent, or null where there is no body at all.</summary>
    public static async Task<JsonObject?> ReadObjectOrNothing(HttpRequest request, CancellationToken ct) =>
        request.ContentLength is null or 0 && request.ContentType is null ? null : await ReadObject(request, ct);

    private static async Task<JsonNode?> Read(HttpRequest request, int most, CancellationToken ct)
    {
        if (!SaysJson(request.ContentType))
        {
            throw new BadHttpRequestException(
                $"The body is sent as \"{(request.ContentType ?? "nothing").Short(60)}\"; send application/json.",
                StatusCodes.Status415UnsupportedMediaType);
        }

        if (request.ContentLength > most)
        {
            throw TooLarge(most);
        }

        try
        {
            using var bytes = new MemoryStream();
            var buffer = new byte[81_920];
            for (int read; (read = await request.Body.ReadAsync(buffer, ct)) > 0;)
            {
                bytes.Write(buffer, 0, read);
                if (bytes.Length > most)
                {
                    throw TooLarge(most);
                }
            }

            var node = Whole("", () => JsonNode.Parse(bytes.GetBuffer().AsSpan(0, (int)bytes.Length), null, Strict));
            CheckText(node, "");
            return node;
        }
        catch (JsonException e)
        {
            throw new FaultException(e.Path is { Length: > 2 } path ? path[2..] : "", $"The body is not well-formed JSON: {Plain(e)}", FaultKind.Unreadable);
        }
    }

    private static BadHttpRequestException TooLarge(int most) => new(
        $"The body is larger than {most / 1024} KB; send less at a time.", StatusCodes.Status413PayloadTooLarge);

    private static bool SaysJson(string? type) =>
        type?.Split(';')[0].Trim().ToLowerInvariant() is "application/json" or "application/merge-patch+json" or "application/ld+json";

    // JSON may spell half a surrogate pair; it is no text, and neither a file nor a database would take it.
    private static void CheckText(JsonNode? node, string path)
    {
        switch (node)
        {
            case JsonObject o:
                foreach (var (name, value) in Whole(path, () => o.ToArray()))
                {
                    var at = path.Length == 0 ? name : $"{path}.{name}";
                    CheckCharacters(name, at);
                    CheckText(value, at);
                }

                break;
            case JsonArray a:
                for (var i = 0; i < a.Count; i++)
                {
                    CheckText(a[i], $"{path}[{i}]");
                }

                break;
            case JsonValue v when v.GetValueKind() == JsonValueKind.String:
                CheckCharacters(Whole(path, v.GetValue<string>), path);
                break;
            default:
                break;
        }
    }

    private static T Whole<T>(string path, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (InvalidOperationException)
        {
            throw new FaultException(path, "The text holds half a character (a lone surrogate); send whole Unicode characters.", FaultKind.Unreadable);
        }
    }

    private static void CheckCharacters(string text, string path)
    {
        if (text.Contains('\0'))
        {
            throw new FaultException(path, "The text holds the control character U+0000; leave it out.");
        }
    }

    private static string Plain(JsonException e) =>
        $"line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}. {e.Message.Split(" LineNumber")[0].Split(" Path:")[0]}";
}
