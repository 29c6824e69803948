using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Pdf;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>What can't be printed is said before anything is made: of her own texts it is a fault, of the record's it is left out and told.</summary>
internal static class Printing
{
    private static readonly string[][] Texts = [["title"], ["notes"], ["thread"], ["needle"], ["cloth", "word"]];

    /// <exception cref="FaultException">A text of the request holds a character that no shipped face has.</exception>
    public static void Check(JsonObject request)
    {
        List<Fault> faults = [];
        foreach (var path in Texts)
        {
            var missing = Letters.Missing(path.Aggregate((JsonNode?)request, (node, name) => (node as JsonObject)?[name]).Text());
            if (missing.Count > 0)
            {
                faults.Add(new Fault(string.Join('.', path), T($"The print has no letter for {Listed(missing)}: write it in another way.")));
            }
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }
    }

    /// <summary>The record with what can't be printed left out of its texts; and what that was.</summary>
    public static (JsonObject State, IReadOnlyList<Rune> LeftOut) Printable(JsonObject state)
    {
        HashSet<Rune> leftOut = [];
        return ((JsonObject)Of(state)!, [.. leftOut]);

        JsonNode? Of(JsonNode? node) => node switch
        {
            JsonObject o => new JsonObject(o.Select(m => KeyValuePair.Create(m.Key, Of(m.Value)))),
            JsonArray a => new JsonArray([.. a.Select(Of)]),
            JsonValue v when v.TryGetValue<string>(out var text) && Letters.Missing(text) is { Count: > 0 } missing => Without(text, missing),
            _ => node?.DeepClone(),
        };

        string Without(string text, IReadOnlyList<Rune> missing)
        {
            leftOut.UnionWith(missing);
            return string.Concat(text.Normalize().EnumerateRunes().Where(r => !missing.Contains(r))).Trim();
        }
    }

    /// <summary>“ש” (U+05E9), …; the first few of many.</summary>
    public static string Listed(IReadOnlyList<Rune> runes)
    {
        var first = string.Join(", ", runes.Take(5).Select(r => $"“{r}” (U+{r.Value:X4})"));
        return runes.Count > 5 ? T($"{first} and others") : first;
    }
}
