using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Catalogue;

/// <summary>
/// What is asked of many pieces:
/// <c>{"pieces":[ids] or "all":{…}, "change":{"kind":…,"place":{…}}, "tags":{"add":[…],"remove":[…]}}</c>.
/// <c>change</c> is a merge patch of those two fields; <c>all</c> is a <see cref="ListQuestion"/>.
/// </summary>
/// <param name="Pieces">The pieces named; empty when all that match are meant.</param>
/// <param name="All">Which pieces, when they are not named.</param>
/// <param name="Asked">What is to be done, as it is kept.</param>
internal sealed record ManyRequest(IReadOnlyList<Guid> Pieces, ListQuestion? All, JsonObject Asked)
{
    /// <summary>The most pieces of one change.</summary>
    public const int Most = 200_000;

    private static readonly ListType Tags = (ListType)GarmentShape.Garment.Fields.Single(f => f.Name == "tags").Type;

    private static readonly RecordType Shape = new(
    [
        new("pieces", new ListType(new IdType("garments"), Most)), new("all", ListQuestion.Shape),
        new("change", new RecordType([.. GarmentShape.Garment.Fields.Where(f => f.Name is "kind" or "place")])),
        new("tags", new RecordType([new("add", Tags), new("remove", Tags)])),
    ]);

    /// <summary>Reads it.</summary>
    /// <exception cref="FaultException">It can't be read, or makes no sense.</exception>
    public static ManyRequest Read(JsonObject sent)
    {
        var faults = new List<Fault>();
        var read = Shape.Read(sent.DeepClone(), "", faults)!.AsObject();
        var all = sent["all"] is JsonObject;
        var named = (read["pieces"] as JsonArray ?? []).Select(p => Guid.Parse(p!.GetValue<string>())).ToList();
        if (!faults.Any(f => f.Path.StartsWith("pieces", StringComparison.Ordinal)) && all == named.Count > 0)
        {
            faults.Senseless("pieces", all
                ? T("Both \"pieces\" and \"all\" are there; send the ids of the pieces, or the question that finds them.")
                : T("No piece is named; send their ids as \"pieces\", or \"all\": {} for every piece there is."));
        }

        // As sent: a null in it takes a field away.
        var change = sent["change"] as JsonObject ?? [];
        var (add, remove) = (Texts(read["tags"]?["add"]), Texts(read["tags"]?["remove"]));
        if (change.Count == 0 && add.Count + remove.Count == 0 && faults.Count == 0)
        {
            faults.Senseless("change", T("Nothing is to be changed; send a kind or a place as \"change\", or \"tags\" to add or remove."));
        }

        if (add.Intersect(remove).FirstOrDefault() is { } both)
        {
            faults.Senseless("tags.remove", T($"The tag \"{both}\" is to be added and removed; send it once."));
        }

        if (faults.Count > 0)
        {
            throw new FaultException(faults);
        }

        var asked = new JsonObject { ["change"] = change.DeepClone(), ["tags"] = new JsonObject { ["add"] = Array(add), ["remove"] = Array(remove) } };
        return new(named, all ? ListQuestion.Of(read["all"] as JsonObject ?? []) : null, asked);
    }

    /// <summary>The merge patch that does what was asked to a piece as it stands.</summary>
    public static JsonObject Patch(JsonObject asked, Garment now)
    {
        var patch = asked["change"]!.DeepClone().AsObject();
        var (add, remove) = (Texts(asked["tags"]?["add"]), Texts(asked["tags"]?["remove"]));
        if (add.Count + remove.Count > 0)
        {
            patch["tags"] = Array(Texts(now.Fields["tags"]).Except(remove).Union(add));
        }

        return patch;
    }

    /// <summary>The merge patch that undoes it where nothing was changed since, and the fields that were.</summary>
    public static (JsonObject Patch, IReadOnlyList<string> Since) Unpatch(ManyPiece piece, Garment now)
    {
        var patch = new JsonObject();
        var since = new List<string>();
        foreach (var (name, after) in piece.After ?? [])
        {
            if (!JsonNode.DeepEquals(now.Fields[name], after))
            {
                since.Add(name);
                continue;
            }

            var before = piece.Before?[name]?.DeepClone();
            if (before is JsonObject group && after is JsonObject added)
            {
                foreach (var member in added.Where(m => !group.ContainsKey(m.Key)).ToList())
                {
                    group[member.Key] = null;
                }
            }

            patch[name] = before;
        }

        return (patch, since);
    }

    private static List<string> Texts(JsonNode? list) => [.. (list as JsonArray ?? []).Select(t => t!.GetValue<string>())];

    private static JsonArray Array(IEnumerable<string> texts) => new([.. texts.Select(t => JsonValue.Create(t))]);
}
