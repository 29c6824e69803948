using System.Text.Json.Nodes;
using JasperFx.Events;

namespace HeirloomArchive.Catalogue;

/// <summary>Tells the events of a stream as what changed, when and by whom.</summary>
internal static class History
{
    /// <summary>The last <paramref name="size"/> of the events, newest first, in the shape of the API.</summary>
    /// <param name="events">All events from the first on; the earlier ones are needed for what was there before.</param>
    /// <param name="total">How many events the whole stream has.</param>
    /// <param name="size">How many to tell.</param>
    /// <param name="sight">What is hidden is not told, not even as a field's name.</param>
    /// <returns>The history, and whether something private is told in it.</returns>
    public static (JsonObject Told, bool TellsPrivate) Write(IReadOnlyList<IEvent> events, long total, int size, Sight sight)
    {
        var fields = new JsonObject();
        var items = new List<JsonNode>();
        var tellsPrivate = false;
        for (var i = 0; i < events.Count; i++)
        {
            var touched = Folding.Apply(fields, events[i].Data);
            if (i >= events.Count - size)
            {
                var told = touched.SelectMany(t => Differences.Between(t.Old, t.New, t.Path)).Where(d => !sight.Hides(d.Path)).ToList();
                tellsPrivate |= told.Exists(sight.SeesPrivate);
                items.Add(Item(events[i], told, sight));
            }
        }

        items.Reverse();
        return (new() { ["total"] = total, ["items"] = new JsonArray([.. items]) }, tellsPrivate);
    }

    private static JsonObject Item(IEvent e, IEnumerable<Difference> told, Sight sight) => new()
    {
        ["version"] = e.Version,
        ["when"] = Moment.Text(e.Timestamp),
        ["who"] = e.UserName,
        ["what"] = What(e.Data, sight) + (e.GetHeader(ManyStore.Header) is null ? "" : ", many at once"),
        ["changes"] = new JsonArray([.. told.Select(d => new JsonObject
        {
            ["path"] = d.Path, ["old"] = sight.Trim(d.Path, d.Old), ["new"] = sight.Trim(d.Path, d.New),
        })]),
    };

    private static string What(object e, Sight sight) => e switch
    {
        GarmentEntered => "entered",
        GarmentChanged changed => $"changed {string.Join(", ", changed.Fields.Select(f => f.Key).Where(name => !sight.Hides(name)))}".TrimEnd(),
        EntryAdded added => $"added to {added.List}",
        EntryChanged changed => $"changed in {changed.List}",
        EntryRemoved removed => $"taken out of {removed.List}",
        PicturesAdded => "added pictures",
        GarmentSetAside => "set aside",
        GarmentBroughtBack => "brought back",
        GarmentShownToVisitors => "shown to visitors",
        GarmentHiddenFromVisitors => "hidden from visitors",
        VersionPutBack { Field: { } field } back when !sight.Hides(field) => $"put back {field} of version {back.Version}",
        VersionPutBack back => $"put back version {back.Version}",
        _ => "changed",
    };
}
