using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>JSON Merge Patch, RFC 7396 section 2.</summary>
public static class MergePatch
{
    /// <summary>What the patch makes of the target: objects are merged by name, null takes a name away, all else replaces. A new node.</summary>
    public static JsonNode? Apply(JsonNode? target, JsonNode? patch)
    {
        if (patch is not JsonObject changes)
        {
            return patch?.DeepClone();
        }

        var merged = target is JsonObject before ? before.DeepClone().AsObject() : [];
        foreach (var (name, change) in changes)
        {
            var old = merged[name];
            merged.Remove(name);
            if (change is not null)
            {
                merged[name] = Apply(old, change);
            }
        }

        return merged;
    }
}
