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

    private static async Task<IResult> Work(Sum sum, HttpRequest request, CancellationToken ct)
    {
        var answer = sum.Of(await Body.ReadObject(request, ct));
        return answer.Panels.Count > 0 && AsksForDrawing(request) ? Drawn(answer.Panels, sum.Title, answer.Shows) : Api.Json(answer.ToJson());
    }

    private static async Task<IResult> Tucks(HttpRequest request, CancellationToken ct)
    {
        var plan = TuckPlan.Make(TuckRunJson.Read(await Body.ReadObject(request, ct)));
        return AsksForDrawing(request) ? Drawn([.. RunSketch.Of(plan)], "A run of tucks", RunSketch.Words(plan)) : Api.Json(TuckPlanJson.Write(plan));
    }

    // The best arrangement is the one drawn; where none fits there is nothing to draw, and the answer says why.
    private static async Task<IResult> FitTucks(HttpRequest request, CancellationToken ct)
    {
        var asked = FitRequestJson.Read(await Body.ReadObject(request, ct));
        var answer = Fit.Find(asked);
        if (answer.Fits && AsksForDrawing(request))
        {
            var plan = TuckPlan.Make(asked.RunOf(answer.Arrangements[0]));
            return Drawn([.. RunSketch.Of(plan)], "Tucks that fit", RunSketch.Words(plan));
        }

        return Api.Json(FitAnswerJson.Write(answer));
    }

    private static bool AsksForDrawing(HttpRequest request) => request.GetTypedHeaders().Accept.Any(a => a.MediaType == "image/svg+xml");

    private static IResult Drawn(IReadOnlyList<Panel> panels, string title, string words) => Results.Text(Svg.Of(panels, title, words), "image/svg+xml");
}
