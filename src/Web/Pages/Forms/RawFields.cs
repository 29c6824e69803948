using System.Text.Json.Nodes;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>The way back of <see cref="FormReader"/>: values as the raw fields that a form would post, each named by its path.</summary>
public static class RawFields
{
    public static JsonObject Of(JsonObject values)
    {
        var fields = new JsonObject();
        Add(fields, values, "");
        return fields;
    }

    private static void Add(JsonObject fields, JsonNode? node, string path)
    {
        switch (node)
        {
            case JsonObject length when length["mm"] is { } mm:
                fields[path] = length["text"]?.ToString() ?? $"{mm} mm";
                break;
            case JsonObject { Count: > 0 } o:
                foreach (var (name, value) in o)
                {
                    Add(fields, value, path.Length == 0 ? name : $"{path}.{name}");
                }

                break;
            case JsonArray a:
                for (var i = 0; i < a.Count; i++)
                {
                    Add(fields, a[i], $"{path}[{i}]");
                }

                break;
            default:
                // A row that is still blank is a row all the same.
                if (path.Length > 0)
                {
                    fields[path] = node is JsonValue v ? v.ToString() : "";
                }

                break;
        }
    }
}
