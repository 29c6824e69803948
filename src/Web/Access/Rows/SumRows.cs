using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: sums, which read nothing from the archive.</summary>
internal static class SumRows
{
    public static IEnumerable<Row> All =>
    [
        .. Role.Pupil.May("POST /api/plans/tucks", "POST /api/plans/fit", "GET /work-it-out", "GET /work-it-out/tucks", "GET /work-it-out/fit", "GET /work-it-out/{slug}"),
        .. AllSums.InOrder.SelectMany(sum => Role.Pupil.May($"POST /api/plans/{sum.Slug}")),
        .. Role.Keeper.May("POST /work-it-out/tucks"),
    ];
}
