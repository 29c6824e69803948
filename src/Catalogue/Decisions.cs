using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>What was sent, read by the table; nothing of it needed the record.</summary>
/// <param name="Given">As it came.</param>
/// <param name="Read">In the form that is kept.</param>
/// <param name="Faults">What makes no sense; what could not be read has been thrown.</param>
internal sealed record Reading(JsonObject Given, JsonObject Read, List<Fault> Faults)
{
    /// <summary>Beside the fields of the table: accepted when equal to the current ones.</summary>
    public static readonly string[] Beside = ["id", "version", "setAside"];

    /// <summary>Reads a garment or a merge patch of one.</summary>
    public static Reading Garment(JsonObject sent)
    {
        var fields = sent.DeepClone().AsObject();
        foreach (var name in Beside)
        {
            fields.Remove(name);
        }

        return Of(GarmentShape.Garment, sent, fields);
    }

    /// <summary>Reads one entry of a list.</summary>
    public static Reading Entry(string list, JsonObject sent) => Of(GarmentShape.EntryOf(list), sent, sent);

    private static Reading Of(RecordType shape, JsonObject given, JsonObject fields)
    {
        var faults = new List<Fault>();
        var read = shape.Read(fields, "", faults)!.AsObject();
        return faults.Any(f => f.Kind == FaultKind.Unreadable) ? throw new FaultException(faults) : new(given, read, faults);
    }
}

/// <summary>Which event follows from what was asked: pure; the garment as it is now goes in, an event comes out, null when nothing changes.</summary>
internal static class Decisions
{
    /// <summary>A new garment.</summary>
    public static GarmentEntered Enter(Reading sent, DateTimeOffset now)
    {
        var (after, faults) = (sent.Read, sent.Faults);
        foreach (var name in Reading.Beside.Where(n => sent.Given[n] is not null))
        {
            faults.Senseless(name, T($"A new piece has no {name} yet; leave it out, it is given."));
        }

        Settle([], after, after.Select(f => f.Key), new EntryIds(now, []), faults);
        return new(after);
    }

    /// <summary>A merge patch.</summary>
    public static GarmentChanged? Change(Garment now, Reading sent, DateTimeOffset when)
    {
        var (after, faults) = (now.Fields.DeepClone().AsObject(), sent.Faults);
        CheckBeside(now, sent.Given, faults);
        var touched = sent.Given.Select(f => f.Key).Except(Reading.Beside).ToList();
        foreach (var name in touched)
        {
            after.Remove(name);
            if (Merged(now, sent, name, faults) is { } value)
            {
                after[name] = value;
            }
        }

        Settle(now.Fields, after, touched, new EntryIds(when, now.Fields), faults);
        return Folding.Changed(now.Fields, after) is { } changed ? new(changed) : null;
    }

    /// <summary>One more entry.</summary>
    public static EntryAdded Add(Garment now, string list, Reading sent, DateTimeOffset when)
    {
        var (entry, faults) = (sent.Read, sent.Faults);
        if (entry["id"] is not null)
        {
            faults.Senseless("id", T($"{Sent.Quote(entry["id"])} is not the id of an entry; leave it out, it is given."));
        }

        entry["id"] = new EntryIds(when, now.Fields).Next();
        var added = new EntryAdded(list, entry, null);
        return added with { Also = Followed(now, list, entry, added, faults) };
    }

    /// <summary>An entry as sent, in the place of the one it has the id of.</summary>
    public static EntryChanged? Put(Garment now, string list, Guid id, Reading sent)
    {
        var (entry, faults) = (sent.Read, sent.Faults);
        var known = Find(now, list, id);
        if (entry["id"] is { } other && other.GetValue<string>() != id.ToString())
        {
            faults.Senseless("id", T($"{Sent.Quote(other)} is not the id of this entry, {id}; leave it out."));
        }

        entry["id"] = id.ToString();
        if (list == "pictures")
        {
            Entries.KeepUploaded(known, entry, "", faults);
        }

        var changed = new EntryChanged(list, entry, null);
        changed = changed with { Also = Followed(now, list, entry, changed, faults) };
        return JsonNode.DeepEquals(known, entry) ? null : changed;
    }

    /// <summary>An entry taken out, and with it what refers to it.</summary>
    public static EntryRemoved Remove(Garment now, string list, Guid id)
    {
        Find(now, list, id);
        var removed = new EntryRemoved(list, id, null);
        return removed with { Also = Followed(now, list, null, removed, []) };
    }

    /// <summary>New pictures; one that the garment already has, by its digest, is not added again.</summary>
    public static PicturesAdded? AddPictures(Garment now, IReadOnlyList<JsonObject> pictures, DateTimeOffset when)
    {
        var have = (now.Fields["pictures"] as JsonArray ?? []).Select(p => p!["sha256"]?.GetValue<string>()).ToHashSet();
        var ids = new EntryIds(when, now.Fields);
        var added = new JsonArray();
        foreach (var picture in pictures.Where(p => have.Add(p["sha256"]!.GetValue<string>())))
        {
            var entry = picture.DeepClone().AsObject();
            entry.Remove("format");
            var faults = new List<Fault>();
            var read = GarmentShape.Picture.Read(entry, "", faults)!.AsObject();
            Throw(faults);
            read["id"] ??= ids.Next();
            added.Add(read);
        }

        if (have.Count > GarmentShape.MostEntries)
        {
            throw new FaultException("file", T($"The piece would hold more than {GarmentShape.MostEntries} pictures."));
        }

        return added.Count == 0 ? null : new(added);
    }

    /// <summary>An earlier version, whole, or one field of it.</summary>
    public static VersionPutBack? PutBack(Garment now, Garment then, string? field)
    {
        var after = then.Fields.DeepClone().AsObject();
        if (field is not null)
        {
            after = now.Fields.DeepClone().AsObject();
            after.Remove(field);
            if (then.Fields[field] is { } value)
            {
                after[field] = value.DeepClone();
            }

            Entries.DropDangling(after);
            var faults = new List<Fault>();
            Entries.CheckCount(after, "field", faults);
            Throw(faults);
        }

        return JsonNode.DeepEquals(now.Fields, after) ? null : new(then.Version, field, after);
    }

    /// <summary>Where a patch and the record as it is now differ: what a stale change is answered with.</summary>
    public static IReadOnlyList<Difference> Differs(Garment now, Reading sent)
    {
        var yours = now.Fields.DeepClone().AsObject();
        foreach (var name in sent.Given.Select(f => f.Key).Except(Reading.Beside))
        {
            yours[name] = Merged(now, sent, name, []);
        }

        return Differences.Between(now.Fields, yours);
    }

    /// <summary>The same for one entry; null is one to be taken out.</summary>
    public static IReadOnlyList<Difference> Differs(Garment now, string list, Guid? id, JsonObject? entry)
    {
        var entries = now.Fields[list] as JsonArray;
        var place = id is { } known ? Folding.Place(entries, known.ToString()) : -1;
        var yours = entry?.DeepClone().AsObject();
        if (place >= 0 && yours is not null)
        {
            yours["id"] = id.ToString();
        }

        return place < 0 && yours is null ? [] : Differences.Between(place < 0 ? null : entries![place], yours, $"{list}[{(place < 0 ? entries?.Count ?? 0 : place)}]");
    }

    /// <summary>Differences as a stale change is answered with them, as far as a sight goes: old is what stands now, new is what was sent.</summary>
    public static JsonArray Written(IEnumerable<Difference> differences, Sight sight) => new([.. differences.Where(d => !sight.Hides(d.Path)).Select(d => new JsonObject
    {
        ["path"] = d.Path, ["yours"] = sight.Trim(d.Path, d.New), ["now"] = sight.Trim(d.Path, d.Old),
    })]);

    private static JsonObject Find(Garment now, string list, Guid id)
    {
        var entries = now.Fields[list] as JsonArray;
        return Folding.Place(entries, id.ToString()) is >= 0 and var place
            ? entries![place]!.AsObject()
            : throw new NotFoundException(T($"The garment's {list} have no entry with the id {id}."));
    }

    // Null takes a field away; an object is merged into the one there; all else is as it was read.
    private static JsonNode? Merged(Garment now, Reading sent, string name, ICollection<Fault> faults) =>
        sent.Given[name] is JsonObject && now.Fields[name] is JsonObject known
            ? GarmentShape.Garment.Read(new JsonObject { [name] = MergePatch.Apply(known, sent.Given[name]) }, "", faults)![name]?.DeepClone()
            : sent.Read[name]?.DeepClone();

    private static void CheckBeside(Garment now, JsonObject given, List<Fault> faults)
    {
        var state = now.State();
        foreach (var name in Reading.Beside.Where(n => given[n] is not null && !JsonNode.DeepEquals(given[n], state[n])))
        {
            faults.Senseless(name, T($"{Sent.Quote(given[name])} is not the record's {name}, {Sent.Quote(state[name])}; leave it out, it can't be changed."));
        }
    }

    private static void Settle(JsonObject before, JsonObject after, IEnumerable<string> touched, EntryIds ids, List<Fault> faults)
    {
        if (after["name"] is null && !faults.Any(f => f.Path == "name"))
        {
            faults.Senseless("name", T("A piece needs a name, in a few words: \"Nainsook baby dress\"."));
        }

        if (after["number"]?.GetValue<string>() is { } number && NumberReservation.Normalise(number).Length > NumberReservation.Longest)
        {
            faults.Senseless("number", T($"The number is too long when its characters are written out; {NumberReservation.Longest} of them is the most."));
        }

        foreach (var list in GarmentShape.EntryLists.Append("pictures").Intersect(touched).ToList())
        {
            Entries.Identify(list, before, after, ids, faults);
            Entries.CheckCount(after, list, faults);
        }

        var known = Entries.Known(after);
        foreach (var list in GarmentShape.EntryLists.Intersect(touched))
        {
            var (shape, entries) = (GarmentShape.EntryOf(list), after[list] as JsonArray ?? []);
            for (var i = 0; i < entries.Count; i++)
            {
                Entries.CheckReferences(shape, entries[i]!.AsObject(), $"{list}[{i}]", known, faults);
            }
        }

        Throw(faults);
        Entries.DropDangling(after);
        Entries.FollowExaminations(before, after);
    }

    // What follows elsewhere from a change of one entry.
    private static JsonObject? Followed(Garment now, string list, JsonObject? entry, object e, List<Fault> faults)
    {
        var folded = now.Fields.DeepClone().AsObject();
        Folding.Apply(folded, e);
        if (entry is not null)
        {
            Entries.CheckReferences(GarmentShape.EntryOf(list), entry, "", Entries.Known(folded), faults);
        }

        Entries.CheckCount(folded, list, faults);
        Throw(faults);
        var after = folded.DeepClone().AsObject();
        Entries.DropDangling(after);
        Entries.FollowExaminations(now.Fields, after);
        return Folding.Changed(folded, after);
    }

    private static void Throw(List<Fault> faults)
    {
        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }
    }
}
