using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Pictures.Regions;

/// <summary>Terms of the Web Annotation vocabulary and data model (W3C Recommendations, 23 February 2017), and our own beside them.</summary>
public static class Vocabulary
{
    /// <summary>The JSON-LD context of annotations.</summary>
    public const string Context = "http://www.w3.org/ns/anno.jsonld";

    /// <summary>The motivations of the vocabulary, section 4 of it.</summary>
    public static readonly IReadOnlyList<string> Motivations =
    [
        "assessing", "bookmarking", "classifying", "commenting", "describing", "editing", "highlighting", "identifying", "linking",
        "moderating", "questioning", "replying", "tagging",
    ];

    /// <summary>What the two members of ours mean that an annotation has besides those of the standard.</summary>
    public static JsonObject OwnTerms() => new()
    {
        ["version"] = "urn:x-heirloom-archive:version",
        ["length"] = "urn:x-heirloom-archive:length",
        ["mm"] = "urn:x-heirloom-archive:mm",
        ["text"] = "urn:x-heirloom-archive:text",
    };

    /// <summary>A moment as annotations have it.</summary>
    public static string Moment(DateTimeOffset when) => when.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    internal static string? Text(JsonNode? node) => node?.GetValueKind() == JsonValueKind.String ? node.GetValue<string>() : null;

    internal static string Show(JsonNode? node) => node switch
    {
        null => "null",
        JsonObject => "An object",
        JsonArray => "A list",
        _ => $"“{FragmentSelector.Short(node.ToString())}”",
    };

    /// <summary>Adds a fault for each member that is not known, and says which are.</summary>
    internal static void OnlyKnown(JsonObject sent, string path, ICollection<Fault> faults, params string[] known)
    {
        foreach (var (name, _) in sent.Where(m => !known.Contains(m.Key)))
        {
            faults.Add(new(path.Length == 0 ? FragmentSelector.Short(name) : $"{path}.{FragmentSelector.Short(name)}",
                $"There is no “{FragmentSelector.Short(name)}” here. There are: {string.Join(", ", known)}.", FaultKind.Unreadable));
        }
    }

    /// <summary>The path of an address, whatever host is before it; without query and fragment.</summary>
    internal static string[] Steps(string address)
    {
        var path = Uri.TryCreate(address, UriKind.Absolute, out var uri) && uri.Scheme is ("http" or "https") ? uri.AbsolutePath : address.Split('#', '?')[0];
        return path.Split('/', StringSplitOptions.RemoveEmptyEntries);
    }
}
