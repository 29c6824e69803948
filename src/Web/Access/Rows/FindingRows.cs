namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: finding.</summary>
internal static class FindingRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Pupil.May("GET /api/search", "GET /api/suggest", "GET /api/garments/{id:guid}/like", "GET /api/garments/{id:guid}/techniques/{tid:guid}/like",
            "GET /examples", "GET /pieces/{id:guid}/like", "GET /numbers",
            "GET POST /questions", "GET POST /api/questions", "DELETE /api/questions/{id:guid}", "POST /api/questions/{id:guid}/seen"),
    ];
}
