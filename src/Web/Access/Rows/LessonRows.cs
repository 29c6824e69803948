namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: lessons.</summary>
internal static class LessonRows
{
    public static IEnumerable<Row> All =>
    [
    ];
}
