using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>Finds the ids by which one part of a garment refers to another, wherever the table has such a field.</summary>
internal static class References
{
    /// <summary>Looks at one reference.</summary>
    /// <param name="of">The list it refers into.</param>
    /// <param name="id">The id that stands there.</param>
    /// <param name="path">Where it stands.</param>
    /// <param name="self">The id of the entry it stands in, if it has one.</param>
    /// <returns>False to take it out.</returns>
    public delegate bool Look(string of, string id, string path, string? self);

    /// <summary>Walks through a value and everything in it.</summary>
    public static void Walk(RecordType shape, JsonObject value, string path, Look look, string? self = null)
    {
        self = value["id"]?.GetValue<string>() ?? self;
        foreach (var field in shape.FieldsOf(value))
        {
            if (value[field.Name] is not { } one)
            {
                continue;
            }

            var at = RecordType.At(path, field.Name);
            switch (field.Type)
            {
                case IdType { Of: not ("" or "garments") } type when !look(type.Of, one.GetValue<string>(), at, self):
                    value.Remove(field.Name);
                    break;
                case ListType { Item: IdType { Of: not ("" or "garments") } type }:
                    WalkIds(type.Of, one.AsArray(), at, look, self);
                    RemoveIfEmpty(value, field.Name, one.AsArray().Count);
                    break;
                case ListType { Item: RecordType item } when one is JsonArray list:
                    for (var i = 0; i < list.Count; i++)
                    {
                        Walk(item, list[i]!.AsObject(), $"{at}[{i}]", look, self);
                    }

                    break;
                case RecordType inner when one is JsonObject part:
                    Walk(inner, part, at, look, self);
                    RemoveIfEmpty(value, field.Name, part.Count);
                    break;
                default:
                    break;
            }
        }
    }

    private static void WalkIds(string of, JsonArray ids, string path, Look look, string? self)
    {
        for (var i = ids.Count - 1; i >= 0; i--)
        {
            if (!look(of, ids[i]!.GetValue<string>(), $"{path}[{i}]", self))
            {
                ids.RemoveAt(i);
            }
        }
    }

    private static void RemoveIfEmpty(JsonObject value, string name, int count)
    {
        if (count == 0)
        {
            value.Remove(name);
        }
    }
}
