using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// A piece's condition over time, read from its fields: the examinations in order, and the findings as they were followed.
/// Pure: it reads what is recorded and computes nothing that is kept.
/// </summary>
public sealed class ConditionHistory
{
    private ConditionHistory(IReadOnlyList<Examined> examinations, IReadOnlyList<Sighting> sightings, IReadOnlyList<FollowedFinding> findings)
    {
        (Examinations, Sightings, Findings) = (examinations, sightings, findings);
    }

    /// <summary>The examinations, oldest first; those without a date before all others, those of one date in the order of entry.</summary>
    public IReadOnlyList<Examined> Examinations { get; }

    /// <summary>Every single finding, oldest first.</summary>
    public IReadOnlyList<Sighting> Sightings { get; }

    /// <summary>What was followed, in the order of care: by what it asks for, then how bad it is, then the last seen first; what is over stands last.</summary>
    public IReadOnlyList<FollowedFinding> Findings { get; }

    /// <summary>Reads a garment's state or fields.</summary>
    public static ConditionHistory Of(JsonObject garment)
    {
        ArgumentNullException.ThrowIfNull(garment);
        var examinations = List(garment, "examinations").Select(e => (Entry: e, Date: Days.First(e["date"])))
            .OrderBy(e => e.Date ?? DateOnly.MinValue).ThenBy(e => e.Entry["id"]?.ToString(), StringComparer.Ordinal)
            .Select((e, i) => new Examined(e.Entry, e.Date, (2 * i) + 1)).ToList();
        var sightings = Seen(List(garment, "condition"), examinations);
        var repairs = List(garment, "repairs").ToList();
        var findings = Chains.Of(sightings).Select(chain => new FollowedFinding(chain, Answering(chain, repairs)));
        return new(
            examinations,
            [.. sightings.OrderBy(s => s.Place).ThenBy(s => s.Date ?? DateOnly.MinValue)],
            [.. findings.OrderBy(f => f.IsOver).ThenByDescending(f => f.Urgency).ThenByDescending(f => f.Severity).ThenByDescending(f => f.Latest.Date ?? DateOnly.MinValue)]);
    }

    /// <summary>What was found at an examination; none is "looked over, nothing new".</summary>
    public IEnumerable<Sighting> At(Examined examination) => Sightings.Where(s => s.Examined == examination);

    /// <summary>The examination with an id, or null.</summary>
    public Examined? Examination(string? id) => Examinations.FirstOrDefault(e => e.Id == id);

    private static List<Sighting> Seen(IEnumerable<JsonObject> findings, List<Examined> examinations)
    {
        var byId = examinations.ToDictionary(e => e.Id);
        // Of two examinations on one day, what names neither is taken to be of the later.
        var byDate = examinations.Where(e => e.Date is not null).GroupBy(e => e.Date!.Value).ToDictionary(g => g.Key, g => g.Last());
        var dates = examinations.Select(e => e.Date ?? DateOnly.MinValue).ToList();
        List<Sighting> sightings = [];
        foreach (var finding in findings)
        {
            var day = Days.First(finding["date"]);
            var at = (finding["examination"]?.ToString() is { } id ? byId.GetValueOrDefault(id) : null) ?? (day is { } date ? byDate.GetValueOrDefault(date) : null);
            sightings.Add(new(finding, at, at?.Place ?? (day is null ? 0 : 2 * Before(dates, day.Value))));
        }

        return sightings;
    }

    // How many dates of a rising list are before a day.
    private static int Before(List<DateOnly> dates, DateOnly day)
    {
        var place = dates.BinarySearch(day);
        place = place < 0 ? ~place : place;
        while (place > 0 && dates[place - 1] == day)
        {
            place--;
        }

        return place;
    }

    private static List<JsonObject> Answering(IReadOnlyList<Sighting> chain, List<JsonObject> repairs)
    {
        var ids = chain.Select(s => s.Id).ToHashSet();
        var ended = chain.Select(s => s.Entry["ended"]?["repair"]?.ToString()).OfType<string>().ToHashSet();
        return [.. repairs.Where(r => (r["answers"]?.ToString() is { } finding && ids.Contains(finding)) || ended.Contains(r["id"]?.ToString() ?? ""))];
    }

    private static IEnumerable<JsonObject> List(JsonObject garment, string name) => (garment[name] as JsonArray ?? []).OfType<JsonObject>();
}
