using System.Text.Json.Nodes;

namespace HeirloomArchive.Sewing;

/// <summary>The answer of <c>POST /api/plans/tucks</c>; lengths as <see cref="LengthJson"/> writes them, in the plan's unit.</summary>
public static class TuckPlanJson
{
    /// <summary>Writes a plan: <c>finished</c>, <c>cloth</c>, <c>takeUp</c>, <c>correctionPerTuck</c> (or null), <c>lines</c>, <c>spacings</c>, <c>cautions</c>.</summary>
    public static JsonObject Write(TuckPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new()
        {
            ["finished"] = L(plan.Finished),
            ["cloth"] = L(plan.Cloth),
            ["takeUp"] = L(plan.TakeUp),
            ["correctionPerTuck"] = plan.CorrectionPerTuck is { } correction ? L(correction) : null,
            ["lines"] = new JsonArray([.. plan.Lines.Select(Line)]),
            ["spacings"] = new JsonArray([.. plan.Spacings.Select(Apart)]),
            ["cautions"] = new JsonArray([.. plan.Cautions.Select(c => new JsonObject { ["code"] = c.Code, ["text"] = c.Text })]),
        };

        JsonObject L(Length length) => LengthJson.Write(length, plan.Unit);

        JsonObject Line(TuckLine line) => new()
        {
            ["tuck"] = line.Tuck,
            ["group"] = line.Group,
            ["half"] = line.Half switch { Half.Start => "start", Half.End => "end", _ => null },
            ["width"] = L(line.Width),
            ["firstStitch"] = L(line.FirstStitch),
            ["fold"] = L(line.Fold),
            ["secondStitch"] = L(line.SecondStitch),
            ["finishedStitch"] = L(line.FinishedStitch),
            ["finishedFold"] = L(line.FinishedFold),
        };

        JsonObject Apart(TuckSpacing spacing) => new()
        {
            ["space"] = L(spacing.Space),
            ["stitchToStitch"] = L(spacing.StitchToStitch),
            ["foldToFold"] = L(spacing.FoldToFold),
        };
    }
}
