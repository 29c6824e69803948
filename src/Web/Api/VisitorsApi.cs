using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Accounts;

namespace HeirloomArchive.Web.Api;

/// <summary>Whether a piece is shown to visitors, and exactly what they see or would see of it.</summary>
public static class VisitorsApi
{
    public static void MapVisitors(this IEndpointRouteBuilder app)
    {
        var visitors = app.MapGroup("/api/garments/{id:guid}/visitors").WithTags("Visitors");
        visitors.MapGet("/", Read).WithSummary("Whether a piece is shown to visitors, and what they see or would see of it.");
        visitors.MapPut("/", Decide).WithSummary("Show a piece to visitors, or hide it from them again.").Accepts<JsonObject>("application/json");
    }

    private static async Task<IResult> Read(Guid id, HttpResponse response, Archive archive, CancellationToken ct)
    {
        var garment = await archive.Find(id, ct) ?? throw new NotFoundException($"No garment has the id {id}.");
        Versions.Tag(response, garment.Version);
        return Shown(garment);
    }

    private static async Task<IResult> Decide(Guid id, HttpContext http, Archive archive, IndexFollower index, Book book, CancellationToken ct)
    {
        var seen = Versions.Seen(http.Request);
        var show = (await AccountBody.Read(http.Request, ct, "shown")).YesOrNo("shown") ?? throw new FaultException("shown", "Say true to show the piece to visitors, false to hide it.");
        var saved = await archive.ShowToVisitors(id, seen, show, Versions.Who, ct);
        await Versions.Written(http.Response, saved.Garment, saved.Position, index);
        await book.Write(http, show ? Deeds.ShowedToVisitors : Deeds.HidFromVisitors, id.ToString());
        return Shown(saved.Garment);
    }

    private static IResult Shown(Garment garment) => Api.Json(new JsonObject { ["shown"] = garment.IsForVisitors, ["sees"] = garment.State(Sight.Shown) });
}
