namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: the service itself.</summary>
internal static class ServiceRows
{
    /// <summary>Look, fonts, drawings and script of the pages: no secret, and the page to sign in needs them.</summary>
    public static Row File { get; } = new(Role.Anyone, "GET", "/{file}");

    public static IEnumerable<Row> All =>
    [
        .. Role.Anyone.May("GET /health/live", "GET /health/ready", "GET POST /problem/{status:int}", "GET POST /tape", "GET /offline", "GET /{**path:file}"),
        .. Role.Visitor.May("GET /", "GET /Index", "GET /guide", "GET /guide/{slug}", "GET /guide/screenshots/{name}.png"),
        .. Role.Pupil.May("GET /openapi/{documentName}.json", "GET PUT DELETE /api/drafts/{form}"),
    ];
}
