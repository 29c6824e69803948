using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>What the lists of care ask of a garment, kept beside its fields so that PostgreSQL can find and sort by it.</summary>
/// <param name="Urgency">The most that a finding asks for which is not over: 0 nothing to 3 before handling.</param>
/// <param name="Due"><see cref="Whereabouts.Order"/>.</param>
/// <param name="HoursOfLight">All hours of light together; null where none are recorded.</param>
public sealed record CareNote(int Urgency, string? Due, decimal? HoursOfLight)
{
    /// <summary>Of a garment of which nothing is recorded.</summary>
    public static CareNote Nothing { get; } = new(0, null, null);

    /// <summary>Of a garment as it stands; one that is set aside asks for nothing.</summary>
    public static CareNote Of(Garment garment)
    {
        ArgumentNullException.ThrowIfNull(garment);
        return garment.IsAside ? Nothing : Of(garment.Fields);
    }

    /// <summary>Worked out from a garment's fields.</summary>
    public static CareNote Of(JsonObject fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        return new(
            ConditionHistory.Of(fields).Findings.Select(f => f.Urgency).DefaultIfEmpty().Max(),
            Whereabouts.Of(fields)?.Order,
            Showings.Of(fields, DateOnly.MinValue).HoursOfLight);
    }
}
