namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: worksheets, what came of them, printers.</summary>
internal static class WorksheetRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Pupil.May(
            "GET /api/worksheets", "GET /api/worksheets/{id:guid}", "GET /api/worksheets/{id:guid}/ticks", "GET /api/worksheets/{id:guid}/made-up", "GET /api/printers",
            "GET /worksheets/{id:guid}.pdf", "GET /worksheets/{id:guid}/teaching.pdf",
            "GET /worksheets", "GET /worksheets/{id:guid}", "GET /worksheets/{id:guid}/made-up", "GET /worksheets/{id:guid}/at-the-table"),
        .. Role.Keeper.May(
            "POST /api/worksheets", "PUT /api/worksheets/{id:guid}/ticks", "PATCH /api/worksheets/{id:guid}/ticks", "POST /api/worksheets/{id:guid}/made-up", "POST /api/worksheets/{id:guid}/corrected", "POST /api/printers",
            "POST /worksheets/{id:guid}", "POST /worksheets/{id:guid}/made-up", "POST /worksheets/{id:guid}/at-the-table",
            "GET POST /worksheets/new", "GET POST /worksheets/new/side-by-side"),
    ];
}
