using System.Text.Json.Nodes;
using Marten;

namespace HeirloomArchive.Catalogue;

/// <summary>One change that somebody made: who, when, and the fields before and after it.</summary>
public sealed record Step(string? Who, DateTimeOffset When, JsonObject Before, JsonObject After);

/// <summary>The record as it was.</summary>
public sealed class Past(IDocumentStore store)
{
    /// <summary>The garment as it was at a version, with all that is private; null if there is no such garment or version that <see cref="Viewer.Now"/> may see.</summary>
    public async Task<Garment?> At(Guid id, long version, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var garment = version < 1 ? null : await session.Events.AggregateStreamAsync<Garment>(id, version, token: ct);
        if (garment?.Version != version || !Viewer.Now.Sight.Sees(garment))
        {
            return null;
        }

        if (Viewer.Now.Sight.SeesPrivate(garment.Fields))
        {
            Viewer.Now.Saw(id);
        }

        return garment;
    }

    /// <summary>What has been changed since a garment was as given, the earliest first.</summary>
    public async Task<IReadOnlyList<Step>> Since(Garment then, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var steps = new List<Step>();
        var now = then.Copy();
        foreach (var e in await session.Events.FetchStreamAsync(then.Id, fromVersion: then.Version + 1, token: ct))
        {
            var before = now.Fields.DeepClone().AsObject();
            now = GarmentProjection.After(now, then.Id, e);
            steps.Add(new(e.UserName, e.Timestamp, before, now.Fields.DeepClone().AsObject()));
        }

        return steps;
    }
}
