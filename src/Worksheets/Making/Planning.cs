using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>From what she asked to a planned run: her own plan, or the best arrangement that fits her width.</summary>
internal static class Planning
{
    private const int MostTucks = 1000;

    /// <returns>The run; and, from a fit, the arrangement taken and how many there were.</returns>
    /// <exception cref="DoesNotFitException">Nothing fits the width.</exception>
    public static (Run Run, JsonObject? Fit) Of(WorksheetRequest request, Recorded recorded)
    {
        if (request.Plan is { } plan)
        {
            return (Planned(plan), null);
        }

        var onto = Completed(request.Onto!, recorded.Tucks);
        var answer = Fit.Find(onto);
        if (!answer.Fits)
        {
            throw new DoesNotFitException(answer);
        }

        var chosen = FitAnswerJson.Write(answer)["arrangements"]![0]!.DeepClone();
        return (Planned(onto.RunOf(answer.Arrangements[0])), new JsonObject { ["count"] = answer.Count, ["chosen"] = chosen });
    }

    /// <summary>A node as it reads from text, whatever it was built from.</summary>
    public static JsonObject Plain(JsonObject node) => JsonNode.Parse(node.ToJsonString())!.AsObject();

    private static Run Planned(TuckRun run)
    {
        if (run.TwinNeedle)
        {
            throw new FaultException($"{run.Path}.twinNeedle", "Twin-needle tucks are not served on a worksheet yet; plan tucks with a fold.");
        }

        return Run.Of(Plain(TuckPlanJson.Write(TuckPlan.Make(run))), Word(run.Lies ?? Lies.TowardsEnd));
    }

    /// <summary>What she left out of <c>onto</c> is as the technique has it: its lie, and its first group to be like.</summary>
    private static FitRequest Completed(FitRequest onto, JsonObject? technique) =>
        technique is null ? onto : onto with { Lies = onto.Lies ?? Read(technique["lies"].Text()), Like = onto.Like ?? Like(technique) };

    /// <summary>The technique's first group if it has count, width and a spacing; a half's count doubled.</summary>
    private static Likeness? Like(JsonObject technique)
    {
        if (technique["groups"].Each().FirstOrDefault() is not { } group
            || group["tucks"] is not { } tucks || group["width"] is not JsonObject width || Space(group, Run.Read(width)) is not { } space)
        {
            return null;
        }

        var half = technique["centre"] is not null || technique["lies"].Text() is "from-centre" or "towards-centre";
        var count = tucks.Whole() * (half ? 2 : 1);
        return count is >= 1 and <= MostTucks ? new Likeness(count, Run.Read(width), space) : null;
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

    private static string Word(Lies lies) => lies switch
    {
        Lies.TowardsStart => "towards-start",
        Lies.FromCentre => "from-centre",
        Lies.TowardsCentre => "towards-centre",
        _ => "towards-end",
    };

    private static Lies? Read(string word) => word switch
    {
        "towards-end" => Lies.TowardsEnd,
        "towards-start" => Lies.TowardsStart,
        "from-centre" => Lies.FromCentre,
        "towards-centre" => Lies.TowardsCentre,
        _ => null,
    };
}
