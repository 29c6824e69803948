using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>Gives new entries their ids: of version 7, each after all that the garment has, so that ids rise in the order of entry.</summary>
internal sealed class EntryIds
{
    private long next;

    /// <summary>Ids for a garment with these fields, from now on.</summary>
    public EntryIds(DateTimeOffset now, JsonObject fields)
    {
        var latest = GarmentShape.EntryLists.Append("pictures").SelectMany(list => fields[list] as JsonArray ?? [])
            .Select(e => Milliseconds(e!["id"]!.GetValue<string>())).DefaultIfEmpty().Max();
        next = Math.Max(now.ToUnixTimeMilliseconds(), latest + 1);
    }

    /// <summary>The next id.</summary>
    public string Next() => Guid.CreateVersion7(DateTimeOffset.FromUnixTimeMilliseconds(next++)).ToString();

    private static long Milliseconds(string id)
    {
        var guid = Guid.Parse(id);
        return guid.Version == 7 ? Convert.ToInt64(id[..8] + id[9..13], 16) : 0;
    }
}

/// <summary>What holds for the entries of a garment as a whole: their ids, what they refer to, how many there are.</summary>
internal static class Entries
{
    /// <summary>Keeps the id of each entry sent with one and gives the others theirs; faults for ids not in the record.</summary>
    public static void Identify(string list, JsonObject before, JsonObject after, EntryIds ids, ICollection<Fault> faults)
    {
        var known = (before[list] as JsonArray ?? []).ToDictionary(e => e!["id"]!.GetValue<string>(), e => e!.AsObject());
        var met = new HashSet<string>();
        var entries = after[list] as JsonArray ?? [];
        for (var i = 0; i < entries.Count; i++)
        {
            var entry = entries[i]!.AsObject();
            var id = entry["id"]?.GetValue<string>();
            if (list == "pictures" && id is null)
            {
                faults.Senseless($"{list}[{i}]", T("A picture comes by upload; an entry without an id can't be added here."));
            }
            else if (id is null)
            {
                entry["id"] = ids.Next();
            }
            else if (!known.TryGetValue(id, out var kept))
            {
                faults.Senseless($"{list}[{i}].id", T($"No entry of {list} has the id {id}; leave the id out to add an entry."));
            }
            else if (!met.Add(id))
            {
                faults.Senseless($"{list}[{i}].id", T($"The id {id} stands twice; each entry can be kept once."));
            }
            else if (list == "pictures")
            {
                KeepUploaded(kept, entry, $"{list}[{i}]", faults);
            }
        }
    }

    /// <summary>A picture keeps what its upload found out; sent in, it must be equal.</summary>
    public static void KeepUploaded(JsonObject known, JsonObject picture, string path, ICollection<Fault> faults)
    {
        foreach (var name in new[] { "sha256", "width", "height" })
        {
            if (picture[name] is { } sent && !JsonNode.DeepEquals(sent, known[name]))
            {
                faults.Senseless(RecordType.At(path, name), T($"{Sent.Quote(sent)} is not what was uploaded, {Sent.Quote(known[name])}; leave it out, a picture stays as it is."));
            }

            picture[name] = known[name]?.DeepClone();
        }
    }

    /// <summary>Every id of the record, as "list/id".</summary>
    public static HashSet<string> Known(JsonObject record) => [.. GarmentShape.EntryLists.Append("pictures")
        .SelectMany(list => record[list] as JsonArray ?? [], (list, e) => $"{list}/{e!["id"]?.GetValue<string>()}")];

    /// <summary>Faults for references in one value to what is not known, and for an entry that refers to itself.</summary>
    public static void CheckReferences(RecordType shape, JsonObject value, string path, HashSet<string> known, ICollection<Fault> faults) =>
        References.Walk(shape, value, path, (of, id, at, self) =>
        {
            if (id == self)
            {
                faults.Senseless(at, T("The entry refers to itself; send the id of another."));
            }
            else if (!known.Contains($"{of}/{id}"))
            {
                faults.Senseless(at, T($"{of} has no entry with the id {id}; what is referred to must be in the record already."));
            }

            return true;
        });

    /// <summary>Takes out references to what is no longer in the record.</summary>
    public static void DropDangling(JsonObject record)
    {
        var known = Known(record);
        References.Walk(GarmentShape.Garment, record, "", (of, id, _, _) => known.Contains($"{of}/{id}"));
    }

    /// <summary>A fault when all four lists together hold too many.</summary>
    public static void CheckCount(JsonObject record, string path, ICollection<Fault> faults)
    {
        var count = GarmentShape.EntryLists.Sum(list => (record[list] as JsonArray)?.Count ?? 0);
        if (count > GarmentShape.MostEntries)
        {
            faults.Senseless(path, T($"The piece would hold {count} entries; techniques, condition, repairs and examinations together take {GarmentShape.MostEntries}."));
        }
    }

    /// <summary>An examination that has <c>overall</c> and the latest date, of equal dates the one entered last, sets the garment's when it is entered or changed.</summary>
    public static void FollowExaminations(JsonObject before, JsonObject after)
    {
        var latest = (after["examinations"] as JsonArray)?.OfType<JsonObject>().Where(e => e["overall"] is not null)
            .MaxBy(e => (Days.First(e["date"]) ?? DateOnly.MinValue, e["id"]!.GetValue<string>()), Comparer<(DateOnly Day, string Id)>.Create(
                (a, b) => a.Day.CompareTo(b.Day) is not 0 and var dates ? dates : string.CompareOrdinal(a.Id, b.Id)));
        if (latest is null)
        {
            return;
        }

        var list = before["examinations"] as JsonArray;
        var place = Folding.Place(list, latest["id"]!.GetValue<string>());
        if (place < 0 || !JsonNode.DeepEquals(list![place], latest))
        {
            after["overall"] = latest["overall"]!.DeepClone();
        }
    }
}
