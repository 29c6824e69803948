using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Api;

/// <summary>Pure computing: nothing is read from the archive and nothing written.</summary>
public static class PlansApi
{
    public static void MapPlans(this IEndpointRouteBuilder app)
    {
        var plans = app.MapGroup("/api/plans").WithTags("Plans");
        plans.MapPost("/tucks", Tucks).Accepts<JsonObject>("application/json").WithSummary("Every line of a run of tucks, flat and finished.");
        plans.MapPost("/fit", FitTucks).Accepts<JsonObject>("application/json").WithSummary("The arrangements of equal tucks that fit a width exactly.");
    }

    private static async Task<IResult> Tucks(HttpRequest request, CancellationToken ct) =>
        Api.Json(TuckPlanJson.Write(TuckPlan.Make(TuckRunJson.Read(await Body.ReadObject(request, ct)))));

    private static async Task<IResult> FitTucks(HttpRequest request, CancellationToken ct) =>
        Api.Json(FitAnswerJson.Write(Fit.Find(FitRequestJson.Read(await Body.ReadObject(request, ct)))));
}
