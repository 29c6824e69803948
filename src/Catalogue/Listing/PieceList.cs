using Marten;
using Marten.Linq.MatchesSql;

namespace HeirloomArchive.Catalogue;

/// <summary>The list of all pieces, sorted and asked by the database; a piece is there from the moment it is saved.</summary>
public sealed class PieceList(IDocumentStore store)
{
    /// <summary>What it can be sorted by, and the column that does it; <c>entered</c> is the order of entry.</summary>
    private static readonly Dictionary<string, (string Column, bool MayBeBlank)> Orders = new()
    {
        ["entered"] = ("id", false), ["number"] = ("number_key", true), ["name"] = ("name_key", false), ["kind"] = ("kind", true), ["dated"] = ("year", true),
        ["overall"] = ("overall_rank", true), ["handling"] = ("handling_rank", true), ["whereabouts"] = ("whereabouts", true), ["place"] = ("place_key", true),
        ["pictures"] = ("pictures", false), ["findings"] = ("open_findings", false), ["techniques"] = ("techniques", false), ["changed"] = ("changed", false),
    };

    /// <summary>The names of the orders.</summary>
    public static IReadOnlyCollection<string> Sorts => Orders.Keys;

    /// <summary>
    /// One page of the pieces asked for, and how many there are. Those where the sorted field is blank come last, whichever way. Of what
    /// <see cref="Viewer.Now"/> may not see the rows say nothing, a question finds nothing, and an order is that of entry.
    /// </summary>
    /// <param name="question">Which pieces.</param>
    /// <param name="sort">One of <see cref="Sorts"/>.</param>
    /// <param name="down">Whether the greatest comes first.</param>
    /// <param name="page">From 1.</param>
    /// <param name="size">Pieces a page.</param>
    /// <param name="ct">Stops it.</param>
    public async Task<(long Total, IReadOnlyList<ListedPiece> Items)> Page(ListQuestion question, string sort, bool down, int page, int size, CancellationToken ct = default)
    {
        var (column, mayBeBlank) = Orders[Viewer.Now.Sight.Hides(FieldOf(sort)) ? "entered" : sort];
        await using var session = store.QuerySession();
        var asked = Asked(session, question);
        var total = await asked.LongCountAsync(ct);
        var skip = (page - 1) * size;
        var way = down ? "desc" : "asc";
        var order = column == "id" ? $"d.id {way}" : $"d.{column} {way}, d.id {way}";
        if (!(down && mayBeBlank))
        {
            return (total, Seen(await asked.OrderBySql(order).Skip(skip).Take(size).ToListAsync(ct)));
        }

        // The index has blanks at its end; read backwards it begins behind them.
        var items = (await asked.Where(p => p.MatchesSql($"d.{column} is not null")).OrderBySql(order).Skip(skip).Take(size).ToListAsync(ct)).ToList();
        if (items.Count < size && skip + items.Count < total)
        {
            var written = items.Count > 0 ? skip + items.Count : await asked.Where(p => p.MatchesSql($"d.{column} is not null")).CountAsync(ct);
            items.AddRange(await asked.Where(p => p.MatchesSql($"d.{column} is null")).OrderBySql($"d.id {way}")
                .Skip(skip + items.Count - written).Take(size - items.Count).ToListAsync(ct));
        }

        return (total, Seen(items));
    }

    /// <summary>Rows by their ids, pieces set aside too.</summary>
    public async Task<IReadOnlyList<ListedPiece>> Find(IReadOnlyList<Guid> ids, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        return Seen(await session.LoadManyAsync<ListedPiece>(ct, [.. ids]));
    }

    /// <summary>The pieces themselves, in the order of the rows.</summary>
    public async Task<IReadOnlyList<Garment>> Garments(IReadOnlyList<ListedPiece> rows, CancellationToken ct = default)
    {
        await using var session = store.QuerySession();
        var found = (await session.LoadManyAsync<Garment>(ct, [.. rows.Select(r => r.Id)])).ToDictionary(g => g.Id);
        return [.. rows.Where(r => found.ContainsKey(r.Id)).Select(r => found[r.Id])];
    }

    /// <summary>The ids of all that are asked for, in the order of entry.</summary>
    internal static async Task<IReadOnlyList<Guid>> Ids(IQuerySession session, ListQuestion question, CancellationToken ct) =>
        await Asked(session, question).OrderBy(p => p.Id).Select(p => p.Id).ToListAsync(ct);

    private static IQueryable<ListedPiece> Asked(IQuerySession session, ListQuestion q)
    {
        var sight = Viewer.Now.Sight;
        var asked = session.Query<ListedPiece>().Where(p => p.Aside == false);
        if (sight.Blind || q.Parts.Any(p => sight.Hides(FieldOf(p.Name))))
        {
            // Passing a part over would find more than was asked for, and a change of many would change more.
            return asked.Where(p => p.MatchesSql("false"));
        }

        if (sight.OnlyShown)
        {
            asked = asked.Where(p => p.MatchesSql($"exists (select 1 from {CatalogueStore.Schema}.mt_doc_garment g where g.id = d.id and g.is_for_visitors)"));
        }

        if (!string.IsNullOrWhiteSpace(q.Has))
        {
            var has = $"%{Like(ListedPiece.Key(q.Has))}%";
            asked = asked.Where(p => p.MatchesSql("(d.name_key like ? or d.number_key like ?)", has, has));
        }

        asked = q.Kind switch
        {
            null or "" => asked,
            ListQuestion.None => asked.Where(p => p.Kind == null),
            var kind => asked.Where(p => p.Kind == kind),
        };
        asked = Is(asked, q.Overall, "overall");
        asked = Is(asked, q.Handling, "handling");
        asked = Is(asked, q.Whereabouts, "whereabouts");
        if (q.Place == ListQuestion.None)
        {
            asked = asked.Where(p => p.PlaceKey == null);
        }
        else if (!string.IsNullOrWhiteSpace(q.Place))
        {
            // "Shelf 2 box 7" and "box 7" both find what stands on shelf 2 in box 7.
            foreach (var word in q.Place.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            {
                var like = $"%{Like(ListedPiece.Key(word))}%";
                asked = asked.Where(p => p.MatchesSql("d.place_key like ?", like));
            }
        }

        if (!string.IsNullOrWhiteSpace(q.Tag))
        {
            var tag = new System.Text.Json.Nodes.JsonObject { ["tags"] = new System.Text.Json.Nodes.JsonArray(q.Tag.Trim()) }.ToJsonString();
            asked = asked.Where(p => p.MatchesSql("d.data @> ?::jsonb", tag));
        }

        return asked;
    }

    // What the record calls a part of a question, or an order, where that is not its name.
    private static string FieldOf(string name) => name switch { "has" => "name", "tag" => "tags", "findings" => "condition", _ => name };

    // Where a piece lies is told to those who may know it; of its condition and keeping a visitor is told nothing.
    private static IReadOnlyList<ListedPiece> Seen(IReadOnlyList<ListedPiece> rows)
    {
        var sight = Viewer.Now.Sight;
        foreach (var row in sight.Hides("place") ? rows : [])
        {
            (row.Shelf, row.Box, row.PlaceKey) = (null, null, null);
        }

        foreach (var row in sight.OnlyShown ? rows : [])
        {
            (row.Overall, row.OverallRank, row.Handling, row.HandlingRank, row.Whereabouts) = (null, null, null, null, null);
            (row.Tags, row.OpenFindings, row.Changed) = ([], 0, default);
        }

        return rows;
    }

    private static IQueryable<ListedPiece> Is(IQueryable<ListedPiece> asked, string? value, string name) => value switch
    {
        null or "" => asked,
        ListQuestion.None => asked.Where(p => p.MatchesSql($"d.data ->> '{name}' is null")),
        _ => asked.Where(p => p.MatchesSql($"d.data ->> '{name}' = ?", value)),
    };

    private static string Like(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal);
}
