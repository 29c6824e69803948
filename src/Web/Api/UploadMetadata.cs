using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>What the header <c>Upload-Metadata</c> says of a file.</summary>
/// <param name="Name">The file's name as the sender has it.</param>
/// <param name="Garment">The garment it is for.</param>
/// <param name="Caption">What it shows, in words.</param>
/// <param name="View">A word of <c>views</c>.</param>
public sealed record UploadMetadata(string Name, Guid? Garment, string? Caption, JsonNode? View)
{
    private static readonly string[] Keys = ["garment", "caption", "view", "filename"];

    /// <summary>Reads pairs of a key and its value in base64, with commas between.</summary>
    /// <exception cref="FaultException">It can't be read, has a key that is not known, or a value that makes no sense.</exception>
    public static UploadMetadata Read(string header)
    {
        var pairs = new Dictionary<string, string>();
        foreach (var pair in header.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var (key, value) = pair.Split(' ') switch { [var k] => (k, ""), [var k, var v] => (k, v), _ => (pair, "") };
            if (!Keys.Contains(key) || !pairs.TryAdd(key, Text(key, value)))
            {
                throw Wrong("", $"the key \"{key.Short()}\" is not known or comes twice; there are {string.Join(", ", Keys)}.");
            }
        }

        string? Said(string key) => pairs.GetValueOrDefault(key)?.Trim() is { Length: > 0 } said ? said : null;
        var garment = Said("garment") is not { } id ? (Guid?)null : Guid.TryParseExact(id, "D", out var read) ? read : throw Wrong("garment", "the garment is no id: 32 hexadecimal digits in five groups.");
        return new(Said("filename") is { } name ? name[..Math.Min(name.Length, 200)] : "picture", garment, Said("caption"), Said("view") is { } view ? ViewOf(view) : null);
    }

    /// <summary>What was typed for a view: the word it names, or a word of her own.</summary>
    public static JsonNode ViewOf(string typed) => Words.Now.Named("views", typed) is { } word ? word.Slug : new JsonObject { ["own"] = typed };

    private static string Text(string key, string base64)
    {
        try
        {
            var text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(Convert.FromBase64String(base64));
            return text.Contains('\0') ? throw Wrong(key, "the value holds the control character U+0000; leave it out.") : text;
        }
        catch (Exception e) when (e is FormatException or DecoderFallbackException)
        {
            throw Wrong(key, "the value is no UTF-8 text in base64.");
        }
    }

    private static FaultException Wrong(string key, string what) => new(key.Length == 0 ? "Upload-Metadata" : $"Upload-Metadata.{key}", $"In Upload-Metadata {what}", FaultKind.Unreadable);
}
