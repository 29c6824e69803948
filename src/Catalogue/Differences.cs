using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>One place where two states differ.</summary>
/// <param name="Path">Where: <c>techniques[0].groups[1].width</c>.</param>
/// <param name="Old">What stood there, or null.</param>
/// <param name="New">What stands there, or null.</param>
public sealed record Difference(string Path, JsonNode? Old, JsonNode? New);

/// <summary>Where two states of a record differ, as deep as it is told apart by people: a length, a word or a list of words is one thing.</summary>
public static class Differences
{
    /// <summary>All places where the two differ. Entries are matched by their id; paths count in the new list, those of entries gone in the old.</summary>
    public static IReadOnlyList<Difference> Between(JsonNode? old, JsonNode? now, string path = "")
    {
        var found = new List<Difference>();
        Compare(old, now, path, found);
        return found;
    }

    private static void Compare(JsonNode? old, JsonNode? now, string path, List<Difference> found)
    {
        if (JsonNode.DeepEquals(old, now))
        {
            return;
        }

        switch (old, now)
        {
            case (JsonObject a, JsonObject b) when !IsOneThing(a) && !IsOneThing(b):
                foreach (var name in a.Select(m => m.Key).Union(b.Select(m => m.Key)))
                {
                    Compare(a[name], b[name], RecordType.At(path, name), found);
                }

                break;
            case (JsonArray a, JsonArray b) when HasIds(a) && HasIds(b):
                CompareEntries(a, b, path, found);
                break;
            case (JsonArray a, JsonArray b) when a.Count == b.Count && a.Concat(b).All(i => i is JsonObject o && !IsOneThing(o)):
                for (var i = 0; i < a.Count; i++)
                {
                    Compare(a[i], b[i], $"{path}[{i}]", found);
                }

                break;
            default:
                found.Add(new(path, old, now));
                break;
        }
    }

    private static void CompareEntries(JsonArray old, JsonArray now, string path, List<Difference> found)
    {
        var before = new Dictionary<string, int>();
        for (var i = 0; i < old.Count; i++)
        {
            before[Id(old[i])] = i;
        }

        var kept = new List<int>();
        for (var i = 0; i < now.Count; i++)
        {
            if (before.Remove(Id(now[i]), out var place))
            {
                kept.Add(place);
                Compare(old[place], now[i], $"{path}[{i}]", found);
            }
            else
            {
                found.Add(new($"{path}[{i}]", null, now[i]));
            }
        }

        found.AddRange(before.Values.Order().Select(place => new Difference($"{path}[{place}]", old[place], null)));
        if (!kept.SequenceEqual(kept.Order()))
        {
            found.Add(new(path, Ids(old), Ids(now)));
        }
    }

    private static bool HasIds(JsonArray list) => list.Count == 0 || list.All(e => e is JsonObject o && o["id"] is not null);

    private static string Id(JsonNode? entry) => entry!["id"]!.GetValue<string>();

    private static JsonArray Ids(JsonArray list) => new([.. list.Select(e => JsonValue.Create(Id(e)))]);

    private static bool IsOneThing(JsonObject value) => value.ContainsKey("mm") || value.ContainsKey("own");
}
