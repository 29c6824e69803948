namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: lessons.</summary>
internal static class LessonRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Pupil.May(
            "GET /api/lessons", "GET /api/lessons/{id:guid}", "GET /api/lessons/{id:guid}/entries/{entry:guid}", "GET /iiif/lessons/{id:guid}/manifest",
            "GET /lessons", "GET /lessons/{id:guid}", "GET /lessons/{id:guid}/hand-out", "GET /lessons/{id:guid}.pdf"),
        .. Role.Helper.May("GET /lessons/{id:guid}/fetch"),
        .. Role.Keeper.May(
            "POST /api/lessons", "PUT DELETE /api/lessons/{id:guid}", "POST /api/lessons/{id:guid}/bring-back", "GET /api/lessons/{id:guid}/versions", "POST /api/lessons/{id:guid}/entries",
            "POST /lessons", "POST /lessons/{id:guid}", "GET POST /lessons/add", "GET POST /lessons/{id:guid}/edit", "GET POST /lessons/{id:guid}/given"),
    ];
}
