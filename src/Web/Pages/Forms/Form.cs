using System.Text.Json;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Measuring;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Pages.Forms;

/// <summary>
/// A form as it stands: the values, in the API's own shape, and what is wrong with them. The name of a field is the path of
/// its value and of its faults (<c>techniques[0].groups[1].width</c>), so that errors land beside fields by themselves.
/// </summary>
public sealed class Form(JsonObject values)
{
    /// <summary>What stands in the form.</summary>
    public JsonObject Values => values;

    /// <summary>What is wrong with it; empty at first.</summary>
    public IReadOnlyList<Fault> Faults { get; set; } = [];

    /// <summary>The path that takes the focus when the page opens: a row just added.</summary>
    public string? Focus { get; set; }

    /// <summary>The garment whose record the ids in this form point into; null for a new one.</summary>
    public JsonObject? Garment { get; init; }

    /// <summary>What the form is about where fields of one name are asked for in other words: <c>worksheet</c>.</summary>
    public string About { get; init; } = "";

    /// <summary>What the path of a fault is called to the reader.</summary>
    public Func<string, string> NameOf { get; init; } = Reading.Say.Path;

    /// <summary>What a choice says that nobody made.</summary>
    public string Unset => About switch { "" => T("Not recorded"), "many" => T("Leave as it is"), _ => T("As it suits") };

    /// <summary>The id of the field's element.</summary>
    public static string Id(string path) => "f-" + path.Replace('.', '-').Replace("[", "-", StringComparison.Ordinal).Replace("]", "", StringComparison.Ordinal);

    /// <summary>What stands in a field, as it was typed; empty if nothing does.</summary>
    public string Text(string path) => At(path) switch
    {
        JsonObject o when o["text"] is JsonValue text => text.ToString(),
        JsonObject o when o["mm"] is JsonValue mm => $"{mm} mm",
        JsonValue v => v.ToString(),
        JsonArray a => string.Join(", ", a.Select(n => n?.ToString())),
        _ => "",
    };

    /// <summary>The words of a field that is wrong, or null.</summary>
    public string? Wrong(string path)
    {
        var messages = Faults.Where(f => f.Path == path).Select(f => f.Message).ToList();
        return messages.Count == 0 ? null : string.Join(" ", messages);
    }

    /// <summary>Whether anything at or below a path is filled in or wrong.</summary>
    public bool Touches(string path) =>
        At(path) is JsonValue or JsonObject { Count: > 0 } or JsonArray { Count: > 0 }
        || Faults.Any(f => f.Path == path || f.Path.StartsWith(path + ".", StringComparison.Ordinal) || f.Path.StartsWith(path + "[", StringComparison.Ordinal));

    /// <summary>How many rows a list has.</summary>
    public int Rows(string path) => (At(path) as JsonArray)?.Count ?? 0;

    /// <summary>Whether a list of plain values holds one.</summary>
    public bool Holds(string path, string value) => At(path) is JsonArray list && list.Any(n => n is JsonValue v && v.ToString() == value);

    /// <summary>Whether a yes-or-no field says yes.</summary>
    public bool Holds(string path) => At(path) is JsonValue yes && yes.GetValueKind() == JsonValueKind.True;

    /// <summary>The value at a path, or null.</summary>
    public JsonNode? At(string path)
    {
        JsonNode? node = values;
        foreach (var step in Paths.Split(path))
        {
            node = (node, step) switch
            {
                (JsonObject o, string name) => o[name],
                (JsonArray a, int place) when place < a.Count => a[place],
                _ => null,
            };
        }

        return node;
    }

    /// <summary>Puts a text into a field of the form; its rows must be there.</summary>
    public void Put(string path, string value)
    {
        var cut = path.LastIndexOf('.');
        if ((cut < 0 ? values : At(path[..cut])) is JsonObject o)
        {
            o[path[(cut + 1)..]] = value;
        }
    }

    /// <summary>Puts a value, or nothing, in the place of a field; the group that it stands in is made.</summary>
    public void Replace(string path, JsonNode? value)
    {
        if (Holder(path) is { } holder)
        {
            var name = path[(path.LastIndexOf('.') + 1)..];
            holder.Remove(name);
            if (value is not null)
            {
                holder[name] = value.DeepClone();
            }
        }
    }

    /// <summary>Adds a row to a list: <c>materials</c>, of a kind: <c>techniques:tucks</c>, at a part: <c>techniques:tucks:yoke</c>, <c>repairs::hem</c>.</summary>
    public void Add(string what)
    {
        if (what == "measures:usual")
        {
            AddUsualMeasures();
            return;
        }

        var asked = what.Split(':');
        var (path, kind, part) = (asked[0], asked.ElementAtOrDefault(1) ?? "", asked.ElementAtOrDefault(2) ?? "");
        if (Holder(path) is not { } holder)
        {
            return;
        }

        var name = path[(path.LastIndexOf('.') + 1)..];
        var list = holder[name] as JsonArray;
        if (list is null)
        {
            holder[name] = list = [];
            if (kind.Length == 0 && ShownAtOnce(name))
            {
                list.Add((JsonNode)new JsonObject());
            }
        }

        list.Add((JsonNode)new JsonObject(new[] { ("kind", kind), ("part", part) }.Where(v => v.Item2.Length > 0).Select(v => KeyValuePair.Create(v.Item1, (JsonNode?)v.Item2))));
        Focus = $"{path}[{list.Count - 1}]";
    }

    /// <summary>Takes out the proposed measures that were not filled in.</summary>
    public void DropProposals()
    {
        if (values["measures"] is JsonArray rows)
        {
            var proposed = KindMeasures.Of(Text("kind")).Measures;
            foreach (var row in rows.OfType<JsonObject>().Where(r => r.Count == 2 && proposed.Any(m => r["name"]?.ToString() == m.Name && r["taken"]?.ToString() == m.Taken)).ToList())
            {
                rows.Remove(row);
            }
        }
    }

    // What holds the field at a path; a part that nothing was typed into yet is made.
    private JsonObject? Holder(string path)
    {
        var cut = path.LastIndexOf('.');
        if (cut < 0)
        {
            return values;
        }

        var part = path[..cut];
        if (At(part) is null && part[^1] != ']' && Holder(part) is { } outer)
        {
            outer[part[(part.LastIndexOf('.') + 1)..]] = new JsonObject();
        }

        return At(part) as JsonObject;
    }

    /// <summary>Takes a row out: <c>techniques[1]</c>.</summary>
    public void Remove(string path)
    {
        if (Paths.Split(path) is [.., int place] && At(path[..path.LastIndexOf('[')]) is JsonArray list && place < list.Count)
        {
            list.RemoveAt(place);
        }
    }

    /// <summary>Lists whose first row is shown without asking for it.</summary>
    public static bool ShownAtOnce(string name) => name is "groups";

    /// <summary>What the reader is told at the top, first things first.</summary>
    public IEnumerable<Fault> Summary => Faults.DistinctBy(f => (f.Path, f.Message));

    /// <summary>A copy that may be changed, of a record or an entry.</summary>
    public static Form Of(JsonNode? record, JsonObject? garment = null) =>
        new(record?.DeepClone() as JsonObject ?? []) { Garment = garment };

    private void AddUsualMeasures()
    {
        var rows = values["measures"] as JsonArray ?? [];
        values["measures"] = rows;
        foreach (var row in KindMeasures.Of(Text("kind")).Missing(rows).ToList())
        {
            Focus ??= $"measures[{rows.Count}]";
            rows.Add((JsonNode)row);
        }
    }

    /// <summary>Whether a node says nothing.</summary>
    internal static bool IsBlank(JsonNode? node) => node switch
    {
        null => true,
        JsonObject o => o.All(m => IsBlank(m.Value)),
        JsonArray a => a.All(IsBlank),
        _ => node.GetValueKind() == JsonValueKind.String && string.IsNullOrWhiteSpace(node.GetValue<string>()),
    };
}
