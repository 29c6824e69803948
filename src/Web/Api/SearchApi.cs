using System.Globalization;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>Finding: one box, joined conditions, facets.</summary>
public static class SearchApi
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    public static void MapSearch(this IEndpointRouteBuilder app)
    {
        app.MapGet("/api/search", Search).WithTags("Finding").WithSummary("Find pieces by words and joined conditions.");
        app.MapGet("/api/suggest", Suggest).WithTags("Finding").WithSummary("What typed words may mean.");
    }

    private static async Task<IResult> Search(HttpRequest request, GarmentIndex index, IndexFollower follower, CancellationToken ct)
    {
        var asked = SearchRequest.Read(request.Query.Where(p => p.Key != "seen").SelectMany(p => p.Value, (p, v) => KeyValuePair.Create(p.Key, v)));
        var behind = await Seen(request.Query["seen"].ToString(), follower, ct);
        var answer = index.Search(asked);
        if (behind)
        {
            answer["behind"] = true;
        }

        return Api.Json(answer);
    }

    private static async Task<bool> Seen(string text, IndexFollower follower, CancellationToken ct)
    {
        if (text.Length == 0)
        {
            return false;
        }

        if (!long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var position) || !await follower.Exists(position, ct))
        {
            throw new FaultException("seen", $"\"{text.Short()}\" is not a position that a change has answered in X-Position.", FaultKind.Unreadable);
        }

        return !await follower.WaitFor(position, Patience);
    }

    private static IResult Suggest(string? q, GarmentIndex index) => Api.Json(index.Suggest(q ?? ""));
}
