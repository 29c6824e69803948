using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>A run of tucks as it looks when sewn, to scale across the row: each tuck a strip from stitching to fold, with its shadow.</summary>
public static class TuckDrawing
{
    private const decimal Height = 46;
    private static readonly string[] PlanFields = ["groups", "between", "centre", "lead", "trail", "lies"];

    /// <summary>The plan of a recorded run, or null where too little of it is recorded, or what is recorded can't be planned.</summary>
    public static TuckPlan? PlanOf(JsonObject technique)
    {
        if (technique["kind"]?.ToString() != "tucks" || technique["groups"] is not JsonArray { Count: > 0 })
        {
            return null;
        }

        try
        {
            return TuckPlan.Make(TuckRunJson.Read(Asked(technique)));
        }
        catch (FaultException)
        {
            return null;
        }
    }

    /// <summary>What a plan is asked of a recorded run.</summary>
    public static JsonObject Asked(JsonObject technique)
    {
        var asked = new JsonObject();
        foreach (var name in PlanFields.Where(n => technique[n] is not (null or JsonArray { Count: 0 })))
        {
            asked[name] = technique[name]!.DeepClone();
        }

        if (technique["tuckKind"]?.ToString() == "twin-needle")
        {
            asked["twinNeedle"] = true;
            asked.Remove("lies");
            foreach (var group in (asked["groups"] as JsonArray ?? []).OfType<JsonObject>().Where(_ => technique["needleGap"] is not null))
            {
                group["width"] = technique["needleGap"]!.DeepClone();
            }
        }

        return asked;
    }

    /// <summary>A whole <c>svg</c> element, decoration beside words that say the same: it is named, not described.</summary>
    public static string Svg(TuckPlan plan, string name)
    {
        var margin = plan.Finished.Millimetres * 0.02m + 2;
        var left = -margin;
        var width = plan.Finished.Millimetres + (2 * margin);
        var scale = width / 240;
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"swatch\" role=\"img\" viewBox=\"0 0 240 {Height}\" preserveAspectRatio=\"none\"><title>{System.Net.WebUtility.HtmlEncode(name)}</title>");
        svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"sw-cloth\" x=\"{At(0)}\" y=\"5\" width=\"{N(plan.Finished.Millimetres / scale)}\" height=\"{Height - 10}\"/>");
        foreach (var line in plan.Lines)
        {
            var (stitch, fold) = (line.FinishedStitch.Millimetres, line.FinishedFold.Millimetres);
            var shade = Math.Min((plan.Finished.Millimetres + margin) * 0.006m, Math.Abs(fold - stitch) * 0.6m);
            var beyond = fold >= stitch ? fold : fold - shade;
            svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"sw-shade\" x=\"{At(beyond)}\" y=\"5\" width=\"{N(shade / scale)}\" height=\"{Height - 10}\"/>");
            svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"sw-tuck\" x=\"{At(Math.Min(stitch, fold))}\" y=\"5\" width=\"{N(Math.Abs(fold - stitch) / scale)}\" height=\"{Height - 10}\"/>");
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"sw-fold\" d=\"M{At(fold)} 5V{Height - 5}\"/><path class=\"sw-stitch\" d=\"M{At(stitch)} 5V{Height - 5}\"/>");
        }

        return svg.Append("</svg>").ToString();

        string At(decimal mm) => N((mm - left) / scale);
    }

    private static string N(decimal number) => decimal.Round(number, 2).ToString(CultureInfo.InvariantCulture);
}
