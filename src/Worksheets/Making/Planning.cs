using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>From what she asked to a planned run: her own plan, or the best arrangement that fits her width.</summary>
internal static class Planning
{
    /// <returns>The run; and, from a fit, the arrangement taken and how many there were.</returns>
    public static (Run Run, JsonObject? Fit) Of(WorksheetRequest request, Recorded recorded)
    {
        if (request.Plan is { } plan)
        {
            return (Planned(plan, "plan"), null);
        }

        var onto = Completed(request.Onto!, recorded.Tucks);
        var answer = Fit.Find(FitRequestJson.Read(onto, "onto", onto: true));
        if (!answer.Fits)
        {
            throw new DoesNotFitException(answer);
        }

        var written = Plain(FitAnswerJson.Write(answer));
        var chosen = written["arrangements"]![0]!.AsObject();
        return (Planned(Arranged(chosen, onto), "onto"), new JsonObject { ["count"] = written["count"]!.DeepClone(), ["chosen"] = chosen.DeepClone() });
    }

    /// <summary>A node as it reads from text, whatever it was built from.</summary>
    public static JsonObject Plain(JsonObject node) => JsonNode.Parse(node.ToJsonString())!.AsObject();

    private static Run Planned(JsonObject plan, string path)
    {
        if (plan["twinNeedle"].Yes())
        {
            throw new FaultException($"{path}.twinNeedle", "Twin-needle tucks are not served on a worksheet yet; plan tucks with a fold.");
        }

        var answer = TuckPlanJson.Write(TuckPlan.Make(TuckRunJson.Read(plan, path)));
        return Run.Of(Plain(answer), plan["lies"]?.GetValue<string>() ?? "towards-end");
    }

    /// <summary>What she left out of <c>onto</c> is as the technique has it: its lie, and its first group to be like.</summary>
    private static JsonObject Completed(JsonObject onto, JsonObject? technique)
    {
        var completed = onto.DeepClone().AsObject();
        if (technique is null)
        {
            return completed;
        }

        if (!completed.ContainsKey("lies") && technique["lies"] is { } lies)
        {
            completed["lies"] = lies.DeepClone();
        }

        if (!completed.ContainsKey("like") && Like(technique) is { } like)
        {
            completed["like"] = like;
        }

        return completed;
    }

    /// <summary>The technique's first group if it has count, width and a spacing; a half's count doubled.</summary>
    private static JsonObject? Like(JsonObject technique)
    {
        if (technique["groups"].Each().FirstOrDefault() is not { } group
            || group["tucks"] is not { } tucks || group["width"] is not JsonObject width || Space(group, Run.Read(width)) is not { } space)
        {
            return null;
        }

        var half = technique["centre"] is not null || technique["lies"].Text() is "from-centre" or "towards-centre";
        return new JsonObject
        {
            ["tucks"] = tucks.Whole() * (half ? 2 : 1),
            ["width"] = new JsonObject { ["mm"] = Run.Read(width).Millimetres },
            ["space"] = new JsonObject { ["mm"] = space.Millimetres },
        };
    }

    /// <summary>The plain cloth seen, from whichever of the three spacings she measured; null when there is none, or an overlap.</summary>
    private static Length? Space(JsonObject group, Length width)
    {
        Length? space =
            group["space"] is JsonObject s ? Run.Read(s)
            : group["stitchToStitch"] is JsonObject p ? Run.Read(p) - width
            : group["foldToFold"] is JsonObject d ? Run.Read(d) - (width * 3)
            : null;
        return space >= Length.Zero ? space : null;
    }

    private static JsonObject Arranged(JsonObject chosen, JsonObject onto)
    {
        var lies = onto["lies"]?.GetValue<string>() ?? "towards-end";
        var middle = lies is "from-centre" or "towards-centre";
        var tucks = chosen["tucks"].Whole() / (middle ? 2 : 1);
        var group = new JsonObject { ["tucks"] = tucks, ["width"] = Sendable(chosen["width"]!) };
        if (tucks > 1)
        {
            group["space"] = Sendable(chosen["space"]!);
        }

        var plan = new JsonObject { ["groups"] = new JsonArray(group), ["trail"] = Sendable(chosen["trail"]!), ["lies"] = lies };
        if (middle)
        {
            plan["centre"] = onto["centre"]?.DeepClone() ?? Sendable(chosen["space"]!);
        }
        else
        {
            plan["lead"] = Sendable(chosen["lead"]!);
        }

        if (onto["testStrip"] is { } strip)
        {
            plan["testStrip"] = strip.DeepClone();
        }

        return plan;
    }

    /// <summary>A length that came out, as it may go in again: without its text where that was rounded.</summary>
    private static JsonObject Sendable(JsonNode length)
    {
        var sent = length.DeepClone().AsObject();
        if (sent["text"].Text().StartsWith('≈'))
        {
            sent.Remove("text");
        }

        return sent;
    }
}
