namespace HeirloomArchive.Web.Access.Rows;

/// <summary>Who may: accounts.</summary>
internal static class AccountRows
{
    public static IEnumerable<Row> All =>
    [
    ];
}
