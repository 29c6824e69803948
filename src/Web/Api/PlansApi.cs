using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Web.Api;

/// <summary>Pure computing: nothing is read from the archive and nothing written.</summary>
public static class PlansApi
{
    public static void MapPlans(this IEndpointRouteBuilder app)
    {
        var plans = app.MapGroup("/api/plans").WithTags("Plans");
        plans.MapPost("/tucks", Tucks).Accepts<JsonObject>("application/json").WithSummary("Every line of a run of tucks, flat and finished.");
        plans.MapPost("/fit", FitTucks).Accepts<JsonObject>("application/json").WithSummary("The arrangements of equal tucks that fit a width exactly.");
        foreach (var sum in AllSums.InOrder)
        {
            plans.MapPost("/" + sum.Slug, (HttpRequest request, CancellationToken ct) => Work(sum, request, ct)).Accepts<JsonObject>("application/json").WithSummary(sum.Lead);
        }
    }

    // The drawing of the same plan, for who asks for it.
    private static async Task<IResult> Work(Sum sum, HttpRequest request, CancellationToken ct)
    {
        var answer = sum.Of(await Body.ReadObject(request, ct));
        return answer.Panels.Count > 0 && request.GetTypedHeaders().Accept.Any(a => a.MediaType == "image/svg+xml")
            ? Results.Text(Svg.Of(answer.Panels, sum.Title, answer.Shows), "image/svg+xml")
            : Api.Json(answer.ToJson());
    }

    private static async Task<IResult> Tucks(HttpRequest request, CancellationToken ct) =>
        Api.Json(TuckPlanJson.Write(TuckPlan.Make(TuckRunJson.Read(await Body.ReadObject(request, ct)))));

    private static async Task<IResult> FitTucks(HttpRequest request, CancellationToken ct) =>
        Api.Json(FitAnswerJson.Write(Fit.Find(FitRequestJson.Read(await Body.ReadObject(request, ct)))));
}
