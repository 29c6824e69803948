using System.Text.Json.Nodes;

namespace HeirloomArchive.Catalogue;

/// <summary>One thing followed over time: a finding and those that it continues, the first time it was seen first.</summary>
/// <param name="Sightings">At least one.</param>
/// <param name="Repairs">The repairs that answer one of them, or ended it.</param>
public sealed record FollowedFinding(IReadOnlyList<Sighting> Sightings, IReadOnlyList<JsonObject> Repairs)
{
    /// <summary>How it was when it was last seen.</summary>
    public Sighting Latest => Sightings[^1];

    /// <summary>Whether it is over and done with; one that was seen again after its end is not.</summary>
    public bool IsOver => Latest.IsEnded;

    /// <summary>Whether it was over once, and seen again.</summary>
    public bool CameBack => Sightings.SkipLast(1).Any(s => s.IsEnded);

    /// <summary>What it asks for, 0 to 3, by the last sighting that says so; nothing where it is over.</summary>
    public int Urgency => IsOver ? 0 : LastTold(s => s.Attention) ?? 0;

    /// <summary>How bad it is, 1 to 3, by the last sighting that says so; 0 where none does.</summary>
    public int Severity => LastTold(s => s.Severity) ?? 0;

    /// <summary>How the last two sightings differ: above 0 for worse, below 0 for better; of a single one, what was said of its trend.</summary>
    public int Change => Sightings.Count > 1 ? Latest.Against(Sightings[^2]) : Latest.GettingWorse == true ? 1 : 0;

    private int? LastTold(Func<Sighting, int?> rank) => Sightings.Select(rank).LastOrDefault(r => r is not null);
}

/// <summary>Makes followed findings of single ones.</summary>
internal static class Chains
{
    /// <summary>
    /// One chain for every finding that no other continues, with all that it continues before it; two that continue the same
    /// one share its beginning. Findings that continue each other in a ring are opened at the one entered last.
    /// </summary>
    public static IEnumerable<IReadOnlyList<Sighting>> Of(IReadOnlyList<Sighting> sightings)
    {
        var byId = sightings.ToDictionary(s => s.Id);
        var continued = sightings.Select(s => Continues(s)).OfType<string>().ToHashSet();
        var met = new HashSet<string>();
        foreach (var last in sightings.Where(s => !continued.Contains(s.Id)))
        {
            yield return Back(last, byId, met);
        }

        for (var i = sightings.Count - 1; i >= 0; i--)
        {
            if (!met.Contains(sightings[i].Id))
            {
                yield return Back(sightings[i], byId, met);
            }
        }
    }

    private static List<Sighting> Back(Sighting last, Dictionary<string, Sighting> byId, HashSet<string> met)
    {
        List<Sighting> chain = [];
        var own = new HashSet<string>();
        for (var at = last; at is not null && own.Add(at.Id); at = Continues(at) is { } before ? byId.GetValueOrDefault(before) : null)
        {
            chain.Add(at);
        }

        met.UnionWith(own);
        chain.Reverse();
        return chain;
    }

    private static string? Continues(Sighting sighting) => sighting.Entry["continues"]?.ToString();
}
