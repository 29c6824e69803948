namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: words.</summary>
internal static class WordRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Pupil.May("GET /api/words", "GET /api/words/{facet}", "GET /api/words/{facet}/{slug}", "GET /words", "GET /words/own"),
        .. Role.Keeper.May(
            "POST /api/words/{facet}", "PUT DELETE /api/words/{facet}/{slug}", "POST /api/words/{facet}/{slug}/merge", "POST /api/words/{facet}/{slug}/unmerge", "POST /words/own"),
    ];
}
