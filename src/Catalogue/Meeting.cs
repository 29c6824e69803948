using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>One field in which what she wrote and what is recorded by now differ.</summary>
/// <param name="Path">The field, or the field in a group of them: <c>overall</c>, <c>place.shelf</c>. A list is one field.</param>
/// <param name="Field">Its row in the table.</param>
/// <param name="Was">What stood there when she began.</param>
/// <param name="Hers">What she wrote.</param>
/// <param name="Now">What stands there now.</param>
public sealed record Meeting(string Path, Field Field, JsonNode? Was, JsonNode? Hers, JsonNode? Now)
{
    /// <summary>Whether she changed it.</summary>
    public bool SheChanged => !JsonNode.DeepEquals(Was, Hers);

    /// <summary>Whether somebody else has changed it meanwhile.</summary>
    public bool OtherChanged => !JsonNode.DeepEquals(Was, Now);

    /// <summary>Who made it what it is now, and when; null where it is as it was.</summary>
    public Step? By { get; init; }

    /// <summary>
    /// Every field in which the two differ. What can't be read yet in hers counts as she typed it.
    /// </summary>
    /// <param name="shape">The fields.</param>
    /// <param name="was">As they were when she began, as they are kept.</param>
    /// <param name="typed">As they stand in her form.</param>
    /// <param name="now">As they are now.</param>
    public static IReadOnlyList<Meeting> Of(RecordType shape, JsonObject was, JsonObject typed, JsonObject now)
    {
        var hers = shape.Read(typed.DeepClone(), "", new List<Fault>()) as JsonObject ?? [];
        var found = new List<Meeting>();
        var fields = shape.FieldsOf(typed).Concat(shape.FieldsOf(now)).DistinctBy(f => f.Name);
        Compare("", fields, was, typed, hers, now, found);
        return found;
    }

    private static void Compare(string before, IEnumerable<Field> fields, JsonObject? was, JsonObject? typed, JsonObject? hers, JsonObject? now, List<Meeting> found)
    {
        foreach (var field in fields.Where(f => f.Computed is null && f.Type is not IdType { Of: "" }))
        {
            var (old, mine, there) = (was?[field.Name], hers?[field.Name], now?[field.Name]);
            var unread = typed?[field.Name];
            if (field.Type is RecordType group)
            {
                Compare($"{before}{field.Name}.", group.Fields, old as JsonObject, unread as JsonObject, mine as JsonObject, there as JsonObject, found);
                continue;
            }

            mine ??= unread is JsonArray { Count: 0 } ? null : unread;
            if (!JsonNode.DeepEquals(mine, there))
            {
                found.Add(new(before + field.Name, field, old, mine, there));
            }
        }
    }
}
