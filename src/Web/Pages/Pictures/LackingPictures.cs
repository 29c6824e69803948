using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using Marten;
using Npgsql;

namespace HeirloomArchive.Web.Pages.Pictures;

/// <summary>A picture that lacks a view or a tag, and its piece.</summary>
/// <param name="Garment">The piece.</param>
/// <param name="Entry">The picture as the API answers it.</param>
public sealed record LackingPicture(Garment Garment, JsonObject Entry)
{
    /// <summary>The picture's id.</summary>
    public string Id => Entry["id"]!.ToString();
}

/// <summary>Asks the record for pictures that still lack words.</summary>
public static class LackingPictures
{
    /// <summary>At most this many pieces are looked at for one page.</summary>
    private const int MostPieces = 100;

    private const string Lacks = "$.fields.pictures[*] ? (!exists(@.view) || !exists(@.tags[*]))";

    /// <summary>The pictures of the newest pieces that lack a view or a tag, newest piece first.</summary>
    public static async Task<IReadOnlyList<LackingPicture>> Find(IDocumentStore documents, CancellationToken ct)
    {
        await using var session = documents.QuerySession();
        var garments = await session.QueryAsync<Garment>(
            "where d.is_aside = false and jsonb_path_exists(d.data, CAST(? AS jsonpath)) order by d.id desc limit ?", ct, Lacks, MostPieces);
        return
        [
            .. garments.SelectMany(g => g.State()["pictures"]!.AsArray().OfType<JsonObject>()
                .Where(p => p["view"] is null || p["tags"] is not JsonArray { Count: > 0 }).Select(p => new LackingPicture(g, p))),
        ];
    }

    /// <summary>How many there are in all.</summary>
    public static async Task<long> Count(NpgsqlDataSource database, CancellationToken ct)
    {
        await using var count = database.CreateCommand(
            $"SELECT count(*) FROM {CatalogueStore.Schema}.mt_doc_garment d, jsonb_path_query(d.data, CAST($1 AS jsonpath)) WHERE d.is_aside = false");
        count.Parameters.Add(new() { Value = Lacks });
        return (long)(await count.ExecuteScalarAsync(ct))!;
    }

    /// <summary>The tags that pictures have already, the commonest first.</summary>
    public static async Task<IReadOnlyList<string>> Tags(NpgsqlDataSource database, CancellationToken ct)
    {
        await using var ask = database.CreateCommand(
            $"SELECT tag #>> '{{}}' FROM {CatalogueStore.Schema}.mt_doc_garment d, jsonb_path_query(d.data, '$.fields.pictures[*].tags[*]') tag GROUP BY 1 ORDER BY count(*) DESC, 1 LIMIT 200");
        await using var rows = await ask.ExecuteReaderAsync(ct);
        var tags = new List<string>();
        while (await rows.ReadAsync(ct))
        {
            tags.Add(rows.GetString(0));
        }

        return tags;
    }
}
