using HeirloomArchive.Web.Access.Rows;
using Microsoft.AspNetCore.StaticAssets;

namespace HeirloomArchive.Web.Access;

/// <summary>One row: a method and a route, and the least role that may use it.</summary>
/// <param name="Least">The role; those above it may too.</param>
/// <param name="Method">As in the request; <c>HEAD</c> goes by the row of <c>GET</c>.</param>
/// <param name="Route">As it is mapped, with a slash before it: <c>/api/garments/{id:guid}</c>; <c>/pieces/new</c> for a page.</param>
public sealed record Row(Role Least, string Method, string Route)
{
    /// <summary>Sign-in and what belongs to it: it is there only with accounts, and never for a program's token.</summary>
    public bool IsOfAccounts => Route.StartsWith("/account", StringComparison.Ordinal) || Route.StartsWith("/api/account", StringComparison.Ordinal) || WithAccounts;

    /// <summary>Another route that makes sense only with accounts.</summary>
    public bool WithAccounts { get; init; }

    /// <summary>What is written into the book when it is used; null for nothing.</summary>
    public string? Deed { get; init; }

    /// <summary>Whether it changes nothing.</summary>
    public bool Reads => Method == "GET";
}

/// <summary>
/// Who may do what: every route of the service with the least role that may use it. It is what the service goes by: a route
/// that has no row here is refused, and the service does not start. A new route is one line in the file of its noun.
/// </summary>
public static class Matrix
{
    private static readonly Dictionary<(string, string), Row> ByRoute = All().ToDictionary(r => (r.Method, r.Route));

    /// <summary>All rows.</summary>
    public static IReadOnlyCollection<Row> Rows => ByRoute.Values;

    /// <summary>The row of an endpoint, or null: then nobody may.</summary>
    /// <param name="method">Of the request.</param>
    /// <param name="endpoint">What it was routed to.</param>
    /// <param name="handler">Of a page that does several things, the one that was pressed: its row has the method <c>POST:Picture</c>, if it has one of its own.</param>
    public static Row? Find(string method, Endpoint endpoint, string? handler = null) => endpoint switch
    {
        _ when endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null => ServiceRows.File,
        RouteEndpoint route when method == "POST" && ByRoute.TryGetValue(($"POST:{handler}", RouteOf(route)), out var pressed) => pressed,
        RouteEndpoint route => ByRoute.GetValueOrDefault((method == "HEAD" ? "GET" : method, RouteOf(route))),
        _ => null,
    };

    /// <summary>The row of a route, as it stands in the table.</summary>
    public static Row? Find(string method, string route) => ByRoute.GetValueOrDefault((method, route));

    /// <summary>The endpoints that have no row, as <c>GET /api/garments</c>; a page needs the one of <c>GET</c>.</summary>
    public static IReadOnlyList<string> Missing(IEnumerable<Endpoint> endpoints) =>
    [
        .. endpoints.Where(e => e is not RouteEndpoint).Select(e => $"{e.DisplayName}, which is no route"),
        .. endpoints.OfType<RouteEndpoint>()
            .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"], (e, method) => (Endpoint: e, Method: method))
            .Where(e => Find(e.Method, e.Endpoint) is null).Select(e => $"{e.Method} {RouteOf(e.Endpoint)}").Distinct().Order(StringComparer.Ordinal),
    ];

    /// <summary>The route of an endpoint as the rows have it.</summary>
    public static string RouteOf(RouteEndpoint endpoint) => "/" + endpoint.RoutePattern.RawText?.Trim('/');

    private static IEnumerable<Row> All() =>
    [
        .. ServiceRows.All, .. PieceRows.All, .. PictureRows.All, .. FindingRows.All, .. LessonRows.All, .. WorksheetRows.All, .. SumRows.All, .. WordRows.All,
        .. AccountRows.All,
    ];
}

/// <summary>Writes rows down shortly.</summary>
internal static class RowsOf
{
    /// <summary>Rows of one role, each as <c>GET /api/garments</c> or, with the same route, <c>GET POST /pieces/new</c>.</summary>
    public static IEnumerable<Row> May(this Role least, params string[] rows) => rows.SelectMany(row =>
    {
        var words = row.Split(' ');
        return words[..^1].Select(method => new Row(least, method, words[^1]));
    });
}
