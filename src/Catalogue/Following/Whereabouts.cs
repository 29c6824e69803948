using System.Globalization;
using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>Where a piece is, and when it is due back.</summary>
/// <param name="Is"><c>here, lent, borrowed …</c></param>
/// <param name="DueBack">As recorded, EDTF; null if no day was agreed.</param>
/// <param name="LastDay">The last day that <paramref name="DueBack"/> can be; null if there is none.</param>
public sealed record Whereabouts(string Is, string? DueBack, DateOnly? LastDay)
{
    // After every date; a loan without an end stands last.
    private const string NoDay = "no day";

    /// <summary>Whether something is to be brought back: it is lent or borrowed.</summary>
    public bool IsDue => Is is "lent" or "borrowed";

    /// <summary>The text by which what is due is put in order: the last day, or what comes after all days; null where nothing is due.</summary>
    public string? Order => !IsDue ? null : LastDay?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? NoDay;

    /// <summary>Reads a garment's state or fields; null where nothing is recorded.</summary>
    public static Whereabouts? Of(JsonObject garment)
    {
        ArgumentNullException.ThrowIfNull(garment);
        return garment["whereabouts"] is JsonObject at && at["is"]?.ToString() is { } where
            ? new(where, at["dueBack"]?.ToString(), Days.Last(at["dueBack"])) : null;
    }

    /// <summary>The days until it is due back, below 0 when it is overdue; null where nothing is due or no day was agreed. A half-known day is past only after its last.</summary>
    public int? DaysLeft(DateOnly today) => IsDue && LastDay is { } last ? last.DayNumber - today.DayNumber : null;
}

/// <summary>How long a piece was shown, and in how much light.</summary>
/// <param name="Times">How often it was shown.</param>
/// <param name="HoursOfLight">All hours of light together; null where none are recorded.</param>
/// <param name="WithoutHours">The times whose hours are not recorded.</param>
/// <param name="OnShow">The time it is shown now: begun, and not yet over; null if it is not.</param>
public sealed record Showings(int Times, decimal? HoursOfLight, int WithoutHours, JsonObject? OnShow)
{
    /// <summary>Adds up a garment's state or fields.</summary>
    /// <param name="garment">Its state or fields.</param>
    /// <param name="today">Decides what is shown now.</param>
    public static Showings Of(JsonObject garment, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(garment);
        var shown = (garment["shown"] as JsonArray ?? []).OfType<JsonObject>().ToList();
        var hours = shown.Select(s => s["hoursOfLight"]).OfType<JsonValue>().Select(h => decimal.Parse(h.ToString(), NumberStyles.Float, CultureInfo.InvariantCulture)).ToList();
        return new(shown.Count, hours.Count == 0 ? null : hours.Sum(), shown.Count - hours.Count, shown.LastOrDefault(s => IsNow(s, today)));
    }

    private static bool IsNow(JsonObject showing, DateOnly today) =>
        Days.First(showing["from"]) is { } from && from <= today && (Days.Last(showing["to"]) is not { } to || to >= today);
}
