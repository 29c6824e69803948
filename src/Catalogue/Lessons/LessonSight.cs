using System.Text.Json.Nodes;
using Marten;

namespace HeirloomArchive.Catalogue.Lessons;

/// <summary>
/// What the entries of a lesson show. The record forgets nothing, so a lesson keeps no copies: a piece set aside still has its state, and what
/// was taken out of a piece is read from that piece's events as it last stood.
/// </summary>
internal static class LessonSight
{
    public static async Task<IReadOnlyList<Shown>> Of(IQuerySession session, Lesson lesson, bool toFetch, CancellationToken ct)
    {
        var entries = lesson.Entries;
        var ids = entries.Where(e => e["garment"] is not null).Select(Piece).Distinct().ToArray();
        var sight = Viewer.Now.Sight;
        var pieces = (await session.LoadManyAsync<Garment>(ct, ids)).Where(sight.Sees);
        var states = pieces.ToDictionary(p => p.Id, p => toFetch ? p.State() : p.State(sight.WithoutPrivate));
        var shown = new List<Shown>();
        foreach (var entry in entries)
        {
            var piece = entry["garment"] is null ? null : states.GetValueOrDefault(Piece(entry));
            var (name, list) = LessonShape.Lists.FirstOrDefault(l => entry.ContainsKey(l.Key));
            if (piece is null || name is null)
            {
                shown.Add(new(entry, piece, "", null, false));
                continue;
            }

            var id = entry[name]!.ToString();
            var what = At(piece, list, id);
            shown.Add(new(entry, piece, list, what ?? await LastStood(session, Piece(entry), list, id, ct), what is null));
        }

        return shown;
    }

    private static async Task<JsonObject?> LastStood(IQuerySession session, Guid piece, string list, string id, CancellationToken ct)
    {
        Garment? then = null;
        JsonObject? last = null;
        foreach (var e in await session.Events.FetchStreamAsync(piece, token: ct))
        {
            then = GarmentProjection.After(then, piece, e);
            last = At(then.Fields, list, id)?.DeepClone().AsObject() ?? last;
        }

        return last is null ? null : GarmentShape.EntryOf(list).Present(last).AsObject();
    }

    private static JsonObject? At(JsonObject fields, string list, string id) =>
        fields[list] is JsonArray entries && Folding.Place(entries, id) is >= 0 and var place ? entries[place]!.AsObject() : null;

    private static Guid Piece(JsonObject entry) => Guid.Parse(entry["garment"]!.ToString());
}
