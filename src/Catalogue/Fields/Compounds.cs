using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>A list; one with nothing in it is as good as absent. Texts, choices, words and ids that stand twice are kept once.</summary>
public sealed class ListType(FieldType item, int most) : FieldType
{
    /// <summary>What it lists.</summary>
    public FieldType Item => item;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (sent is not JsonArray items)
        {
            faults.WrongType(path, sent, T("a list, in square brackets"));
            return null;
        }

        if (items.Count > most)
        {
            faults.Senseless(path, T($"{items.Count} entries are too many; this list takes {most}."));
            return null;
        }

        var once = item is TextType or ChoiceType or WordType or IdType ? new HashSet<string>() : null;
        var kept = new JsonArray();
        for (var i = 0; i < items.Count; i++)
        {
            if (items[i] is not { } one)
            {
                faults.Add(new($"{path}[{i}]", T("null is no entry; leave it out."), FaultKind.Unreadable));
            }
            else if (item.Read(one, $"{path}[{i}]", faults) is { } read && (once?.Add(read.ToJsonString()) ?? true))
            {
                kept.Add(read);
            }
        }

        return kept.Count == 0 ? null : kept;
    }

    /// <inheritdoc />
    public override JsonNode Present(JsonNode kept) =>
        kept is JsonArray list ? new JsonArray([.. list.Select(one => one is null ? null : item.Present(one))]) : kept.DeepClone();
}

/// <summary>A rule between the fields of one object; adds its faults at paths below <c>path</c>.</summary>
public delegate void Rule(JsonObject read, string path, ICollection<Fault> faults);

/// <summary>An object of named fields, which may depend on one of them (a technique's on its <c>kind</c>).</summary>
public class RecordType(IReadOnlyList<Field> fields, params IReadOnlyList<Rule> rules) : FieldType
{
    /// <summary>The fields that every such object may have.</summary>
    public IReadOnlyList<Field> Fields => fields;

    /// <summary>The fields that this object may have, in the order of the table.</summary>
    public virtual IReadOnlyList<Field> FieldsOf(JsonObject value) => fields;

    /// <summary>Whether a name that is not among the fields is passed over; else it is a fault.</summary>
    protected virtual bool Knows(string name, JsonObject sent) => false;

    /// <inheritdoc />
    public override JsonNode? Read(JsonNode sent, string path, ICollection<Fault> faults)
    {
        if (sent is not JsonObject given)
        {
            faults.WrongType(path, sent, T("an object, in braces"));
            return null;
        }

        var known = FieldsOf(given);
        foreach (var (name, _) in given)
        {
            if (!known.Any(f => f.Name == name) && !Knows(name, given))
            {
                var nearest = Sent.Nearest(name, known.Select(f => f.Name));
                faults.Add(new(At(path, name), nearest.Count == 0
                    ? T($"There is no field \"{Short(name)}\" here.")
                    : T($"There is no field \"{Short(name)}\" here; nearest: {string.Join(", ", nearest)}."), FaultKind.Unreadable));
            }
        }

        var read = new JsonObject();
        foreach (var field in known.Where(f => f.Computed is null))
        {
            // An empty object says as little as an absent one.
            if (given[field.Name] is { } value && field.Type.Read(value, At(path, field.Name), faults) is { } kept and not JsonObject { Count: 0 })
            {
                read[field.Name] = kept;
            }
        }

        foreach (var rule in rules)
        {
            rule(read, path, faults);
        }

        foreach (var field in known.Where(f => f.Computed is not null))
        {
            CheckComputed(field, given[field.Name], read, At(path, field.Name), faults);
        }

        return read;
    }

    /// <inheritdoc />
    public override JsonNode Present(JsonNode kept)
    {
        if (kept is not JsonObject value)
        {
            return kept.DeepClone();
        }

        var shown = new JsonObject();
        foreach (var field in FieldsOf(value))
        {
            if (field.Computed is { } compute)
            {
                shown[field.Name] = compute(value);
            }
            else if (value[field.Name] is { } one)
            {
                shown[field.Name] = field.Type.Present(one);
            }
            else if (field.Type is ListType)
            {
                shown[field.Name] = new JsonArray();
            }
        }

        // A field that an earlier table had is still hers.
        foreach (var (name, one) in value)
        {
            if (!shown.ContainsKey(name))
            {
                shown[name] = one?.DeepClone();
            }
        }

        return shown;
    }

    /// <summary>A path one name deeper.</summary>
    internal static string At(string path, string name)
    {
        name = Short(name);
        return path.Length == 0 ? name : $"{path}.{name}";
    }

    /// <summary>A name as it is told: never more than sixty characters of it.</summary>
    internal static string Short(string name) => name.Length <= 60 ? name : name[..59] + "…";

    private static void CheckComputed(Field field, JsonNode? sent, JsonObject read, string path, ICollection<Fault> faults)
    {
        if (sent is null || field.Type.Read(sent, path, faults) is not { } said)
        {
            return;
        }

        var computed = field.Computed!(read);
        if (!JsonNode.DeepEquals(said, computed))
        {
            faults.Senseless(path, T($"{Sent.Quote(sent)} is not what follows from the other fields, {Sent.Quote(computed)}; leave it out, it is computed."));
        }
    }
}

/// <summary>An object whose further fields hang on its <c>kind</c>: a technique.</summary>
/// <param name="common">The fields of all kinds.</param>
/// <param name="rows">The further fields of each kind; a kind that is not there, or an own one, has none.</param>
/// <param name="rules">Rules between fields.</param>
public sealed class KindedType(IReadOnlyList<Field> common, IReadOnlyDictionary<string, IReadOnlyList<Field>> rows, params IReadOnlyList<Rule> rules)
    : RecordType(common, rules)
{
    private readonly Dictionary<string, IReadOnlyList<Field>> all = rows.ToDictionary(r => r.Key, r => (IReadOnlyList<Field>)[.. common, .. r.Value]);

    /// <summary>The kinds that have fields of their own.</summary>
    public IEnumerable<string> Kinds => rows.Keys;

    /// <summary>The fields of one kind, those of all kinds first.</summary>
    public IReadOnlyList<Field> FieldsOf(string? kind) => kind is not null && all.TryGetValue(kind, out var fields) ? fields : Fields;

    /// <inheritdoc />
    public override IReadOnlyList<Field> FieldsOf(JsonObject value) => FieldsOf(Kind(value));

    // Of a kind that is not among the words nothing can be said about its fields: one fault is enough.
    /// <inheritdoc />
    protected override bool Knows(string name, JsonObject sent) =>
        Kind(sent) is { } kind && Words.Find("techniques", kind) is null && all.Values.Any(fields => fields.Any(f => f.Name == name));

    private static string? Kind(JsonObject value) =>
        value["kind"] is JsonValue v && v.GetValueKind() == System.Text.Json.JsonValueKind.String && v.TryGetValue<string>(out var kind) ? kind : null;
}
