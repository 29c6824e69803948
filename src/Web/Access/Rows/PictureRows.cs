using HeirloomArchive.Web.Accounts;

namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: pictures, and what is marked in them.</summary>
internal static class PictureRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Visitor.May("GET /api/pictures/{pid:guid}/screen", "GET /api/pictures/{pid:guid}/thumbnail"),
        .. Role.Pupil.May(
            "GET /api/pictures/{pid:guid}/regions", "GET /api/pictures/{pid:guid}/regions/{rid:guid}", "GET /api/garments/{id:guid}/regions",
            "GET /iiif/image/{pid:guid}", "GET /iiif/image/{pid:guid}/info.json", "GET /iiif/image/{pid:guid}/{region}/{size}/{rotation}/{last}",
            "GET /pictures/{pid:guid}", "GET /pictures/compare", "GET /iiif/garments/{id:guid}/manifest"),
        .. Role.Helper.May("POST /api/garments/{id:guid}/pictures", "OPTIONS POST /api/uploads", "GET PATCH DELETE /api/uploads/{upload:guid}"),
        .. Role.Keeper.May("GET /api/pictures/{pid:guid}/original").Select(r => r with { Deed = Deeds.Original }),
        .. Role.Keeper.May(
            "GET POST /api/pictures/check", "GET POST /pictures/check", "GET POST /pictures/untagged", "POST /pictures/{pid:guid}",
            "POST /api/pictures/{pid:guid}/regions", "PUT DELETE /api/pictures/{pid:guid}/regions/{rid:guid}"),
    ];
}
