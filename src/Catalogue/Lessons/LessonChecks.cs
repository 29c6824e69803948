using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using Marten;

namespace HeirloomArchive.Catalogue.Lessons;

/// <summary>Whether what a lesson points to is there; what the lesson pointed to before is taken as it is, also when it has gone since.</summary>
internal sealed class LessonChecks(IQuerySession session, WorksheetIsThere worksheetIsThere, List<Fault> faults)
{
    private static readonly string[] References = ["garment", .. LessonShape.Lists.Keys, "worksheet"];

    private readonly Dictionary<Guid, Garment?> garments = [];

    /// <summary>Checks a whole lesson, and gives new entries their ids.</summary>
    /// <exception cref="FaultException">Something makes no sense.</exception>
    public async Task Whole(Lesson? before, JsonObject lesson, CancellationToken ct)
    {
        if (lesson["name"] is null && !faults.Exists(f => f.Path == "name"))
        {
            faults.Senseless("name", T("A lesson needs a name, such as \"Pin tucks by hand\"."));
        }

        var known = before?.Entries.ToDictionary(e => e["id"]!.ToString()) ?? [];
        var met = new HashSet<string>();
        var entries = lesson["entries"] as JsonArray ?? [];
        for (var i = 0; i < entries.Count; i++)
        {
            var (entry, path) = (entries[i]!.AsObject(), $"entries[{i}]");
            if (entry["id"] is not { } id)
            {
                await New(entry, path, ct);
            }
            else if (!known.TryGetValue(id.ToString(), out var kept))
            {
                faults.Senseless($"{path}.id", T($"The lesson has no entry with the id {id}; leave the id out to add one."));
            }
            else if (!met.Add(id.ToString()))
            {
                faults.Senseless($"{path}.id", T($"The id {id} stands twice; each entry can be kept once."));
            }
            else if (References.Any(name => !JsonNode.DeepEquals(entry[name], kept[name])))
            {
                await Check(entry, path, ct);
            }
        }

        await Given(before, lesson, ct);
        Throw();
    }

    /// <summary>Checks a new entry and gives it its id.</summary>
    public async Task New(JsonObject entry, string path, CancellationToken ct)
    {
        if (entry["id"] is { } sent)
        {
            faults.Senseless(RecordType.At(path, "id"), T($"{Sent.Quote(sent)} can't be chosen; a new entry gets its id here."));
        }

        entry["id"] = Guid.CreateVersion7().ToString();
        await Check(entry, path, ct);
    }

    /// <summary>A fault when there are too many.</summary>
    public void Count(JsonArray entries, string path)
    {
        if (entries.Count > LessonShape.MostEntries)
        {
            faults.Senseless(path, T($"The lesson would hold {entries.Count} entries; it takes {LessonShape.MostEntries}. Make a second lesson."));
        }
    }

    /// <exception cref="FaultException">There are faults.</exception>
    public void Throw()
    {
        if (faults.Count > 0)
        {
            throw new FaultException([.. faults]);
        }
    }

    private async Task Check(JsonObject entry, string path, CancellationToken ct)
    {
        if (entry["worksheet"] is { } sheet && !await worksheetIsThere(Guid.Parse(sheet.ToString()), ct))
        {
            faults.Senseless(RecordType.At(path, "worksheet"), T($"No worksheet has the id {sheet}."));
        }

        if (entry["garment"] is not { } of)
        {
            return;
        }

        if (await Garment(Guid.Parse(of.ToString()), ct) is not { } garment)
        {
            faults.Senseless(RecordType.At(path, "garment"), T($"No piece has the id {of}."));
        }
        else if (garment.IsAside)
        {
            faults.Senseless(RecordType.At(path, "garment"), T($"\"{garment.Name}\" is set aside; bring it back before it is put in a lesson."));
        }
        else
        {
            foreach (var (name, list) in LessonShape.Lists.Where(l => entry.ContainsKey(l.Key)))
            {
                if (Folding.Place(garment.Fields[list] as JsonArray, entry[name]!.ToString()) < 0)
                {
                    faults.Senseless(RecordType.At(path, name), T($"\"{garment.Name}\" has no {name} with the id {entry[name]}."));
                }
            }
        }
    }

    private async Task Given(Lesson? before, JsonObject lesson, CancellationToken ct)
    {
        var known = before?.Given.SelectMany(g => Ids(g, "out").Concat(Ids(g, "back"))).ToHashSet() ?? [];
        var given = lesson["given"] as JsonArray ?? [];
        for (var i = 0; i < given.Count; i++)
        {
            foreach (var list in (string[])["out", "back"])
            {
                var ids = Ids(given[i]!.AsObject(), list).ToList();
                for (var j = 0; j < ids.Count; j++)
                {
                    if (!known.Contains(ids[j]) && await Garment(Guid.Parse(ids[j]), ct) is null)
                    {
                        faults.Senseless($"given[{i}].{list}[{j}]", T($"No piece has the id {ids[j]}."));
                    }
                }
            }
        }
    }

    private async Task<Garment?> Garment(Guid id, CancellationToken ct) =>
        garments.TryGetValue(id, out var garment) ? garment : garments[id] = await session.LoadAsync<Garment>(id, ct);

    private static IEnumerable<string> Ids(JsonObject given, string list) => (given[list] as JsonArray ?? []).Select(id => id!.ToString());
}
