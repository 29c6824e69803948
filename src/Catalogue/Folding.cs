using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>What each event makes of the fields. Old and new values come back as the nodes they were, for the history.</summary>
internal static class Folding
{
    /// <summary>Applies an event to the fields, in place; answers what stood and stands at each place it touched.</summary>
    public static IReadOnlyList<Difference> Apply(JsonObject fields, object e)
    {
        switch (e)
        {
            case GarmentEntered entered:
                return Set(fields, entered.Fields);
            case GarmentChanged changed:
                return Set(fields, changed.Fields);
            case EntryAdded added:
                var list = List(fields, added.List);
                list.Add(added.Entry.DeepClone());
                return [new($"{added.List}[{list.Count - 1}]", null, list[^1]), .. Set(fields, added.Also)];
            case EntryChanged changed:
                return [Replace(List(fields, changed.List), changed), .. Set(fields, changed.Also)];
            case EntryRemoved removed:
                return [Remove(fields, removed), .. Set(fields, removed.Also)];
            case PicturesAdded added:
                var pictures = List(fields, "pictures");
                return [.. added.Pictures.Select(p => { pictures.Add(p!.DeepClone()); return new Difference($"pictures[{pictures.Count - 1}]", null, pictures[^1]); })];
            case VersionPutBack back:
                var whole = new JsonObject(fields.Select(f => KeyValuePair.Create(f.Key, (JsonNode?)null)));
                foreach (var (name, value) in back.Fields)
                {
                    whole[name] = value?.DeepClone();
                }

                return Set(fields, whole);
            default:
                return [];
        }
    }

    /// <summary>The fields of <paramref name="after"/> that are not what they were, those gone as null; null when all are.</summary>
    public static JsonObject? Changed(JsonObject before, JsonObject after)
    {
        var changed = new JsonObject();
        foreach (var name in before.Select(f => f.Key).Union(after.Select(f => f.Key)).ToList())
        {
            if (!JsonNode.DeepEquals(before[name], after[name]))
            {
                changed[name] = after[name]?.DeepClone();
            }
        }

        return changed.Count == 0 ? null : changed;
    }

    /// <summary>Where the entry with this id stands in a list; -1 if it does not.</summary>
    public static int Place(JsonArray? list, string id)
    {
        for (var i = 0; i < (list?.Count ?? 0); i++)
        {
            if (list![i]!["id"]!.GetValue<string>() == id)
            {
                return i;
            }
        }

        return -1;
    }

    private static List<Difference> Set(JsonObject fields, JsonObject? values)
    {
        var touched = new List<Difference>();
        foreach (var (name, value) in values ?? [])
        {
            var old = fields[name];
            fields.Remove(name);
            if (value is not null)
            {
                fields[name] = value.DeepClone();
            }

            touched.Add(new(name, old, fields[name]));
        }

        return touched;
    }

    private static Difference Replace(JsonArray list, EntryChanged changed)
    {
        var place = Place(list, changed.Entry["id"]!.GetValue<string>());
        var old = list[place];
        list[place] = changed.Entry.DeepClone();
        return new($"{changed.List}[{place}]", old, list[place]);
    }

    private static Difference Remove(JsonObject fields, EntryRemoved removed)
    {
        var list = List(fields, removed.List);
        var place = Place(list, removed.Entry.ToString());
        var old = list[place];
        list.RemoveAt(place);
        if (list.Count == 0)
        {
            fields.Remove(removed.List);
        }

        return new($"{removed.List}[{place}]", old, null);
    }

    private static JsonArray List(JsonObject fields, string name)
    {
        if (fields[name] is JsonArray list)
        {
            return list;
        }

        var empty = new JsonArray();
        fields[name] = empty;
        return empty;
    }
}
