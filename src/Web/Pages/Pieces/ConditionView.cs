using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A piece's condition for <c>_Condition.cshtml</c>: what is followed, on one line of time.</summary>
public sealed class ConditionView
{
    private readonly Dictionary<string, FollowedFinding> owners = [];

    /// <param name="state">The piece, as the API answers it.</param>
    /// <param name="version">The version that a form of it replaces.</param>
    public ConditionView(JsonObject state, long version)
    {
        ArgumentNullException.ThrowIfNull(state);
        (Piece, Version, Aside) = ($"/pieces/{state["id"]}", version, state["setAside"] is JsonObject);
        History = ConditionHistory.Of(state);
        Line = TimeLine.Of(History);
        foreach (var finding in History.Findings)
        {
            foreach (var seen in finding.Sightings)
            {
                owners.TryAdd(seen.Id, finding);
            }
        }
    }

    /// <summary>The address of the piece's page.</summary>
    public string Piece { get; }

    public long Version { get; }

    public bool Aside { get; }

    public ConditionHistory History { get; }

    public TimeLine? Line { get; }

    public IReadOnlyList<FollowedFinding> Current => [.. History.Findings.Where(f => !f.IsOver)];

    public IReadOnlyList<FollowedFinding> Over => [.. History.Findings.Where(f => f.IsOver)];

    /// <summary>The id of a sighting's place on the page; null where another finding that shares it has it.</summary>
    public string? Anchor(FollowedFinding finding, Sighting seen) => owners[seen.Id] == finding ? seen.Id : null;
}

/// <summary>One thing followed, for <c>_Followed.cshtml</c>.</summary>
public sealed record FollowedView(ConditionView Condition, FollowedFinding Finding)
{
    public Sighting Latest => Finding.Latest;

    public string Name => Say.Entry("condition", Latest.Entry);
}
