namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: pieces, their entries and their history.</summary>
internal static class PieceRows
{
    private const string EntryPage = "/pieces/{id:guid}/{list:regex(^(techniques|condition|repairs|examinations|pictures)$)}/{entry}";

    private static readonly string[] Entries = ["techniques", "examinations", "condition", "repairs", "pictures"];

    public static IEnumerable<Row> All =>
    [
        .. Role.Visitor.May("GET /api/garments", "GET /api/garments/{id:guid}", "GET /pieces", "GET /pieces/{id:guid}"),
        .. Role.Pupil.May("GET /api/garments/{id:guid}/history", "GET /pieces/{id:guid}/history", "GET /pieces/{id:guid}/history/{to:long}", "GET /pieces/{id:guid}/dating", "GET /pieces/{id:guid}/condition", "GET /care"),
        .. Role.Helper.May("GET /pieces/new", "POST:Picture /pieces/{id:guid}"),
        .. Role.Keeper.May(
            "POST /api/garments", "POST /api/many", "GET /api/many/{id:guid}", "POST /api/many/{id:guid}/undo", "PATCH DELETE /api/garments/{id:guid}", "POST /api/garments/{id:guid}/bring-back", "POST /api/garments/{id:guid}/history/{version:long}/put-back",
            "GET POST /pieces/many", "GET POST /pieces/many/{id:guid}", "POST /pieces/{id:guid}/history/{to:long}", "POST /pieces/new", "POST /pieces/{id:guid}", "GET POST /pieces/{id:guid}/edit", "GET POST /pieces/{id:guid}/look-over", "POST /pieces/{id:guid}/dating", "POST /pieces/{id:guid}/condition",
            $"GET POST {EntryPage}"),
        .. Entries.SelectMany(list => (IEnumerable<Row>)
        [
            .. Role.Pupil.May($"GET /api/garments/{{id:guid}}/{list}/{{entry:guid}}"),
            .. Role.Keeper.May($"PUT DELETE /api/garments/{{id:guid}}/{list}/{{entry:guid}}"),
            .. list == "pictures" ? [] : Role.Keeper.May($"POST /api/garments/{{id:guid}}/{list}"),
        ]),
    ];
}
