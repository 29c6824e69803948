using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>From what she asked to a planned run: her own plan, or the best arrangement that fits her width.</summary>
internal static class Planning
{
    private const int MostTucks = 1000;

    /// <returns>The whole; and for each section (a single run is one) the arrangement taken from its fit and how many there were, or null.</returns>
    /// <exception cref="DoesNotFitException">Nothing fits the width.</exception>
    public static (Whole Whole, IReadOnlyList<JsonObject?> Fits) Of(WorksheetRequest request, Recorded recorded)
    {
        if (request.Sections.Count == 0)
        {
            var (_, run, fit, unit) = OfRun(request.Plan, request.Onto, recorded.Tucks, "onto");
            return (new Whole([new Part(0, null, Written(run.Plan, run.Lies, run.Strip), null)], false, false, unit), [fit]);
        }

        return OfSections(request, recorded);
    }

    private static (Whole, IReadOnlyList<JsonObject?>) OfSections(WorksheetRequest request, Recorded recorded)
    {
        List<Part> parts = [], mirror = [];
        List<JsonObject?> fits = [];
        List<Fault> faults = [];
        LengthUnit? unit = null;
        for (var i = 0; i < request.Sections.Count; i++)
        {
            var section = request.Sections[i];
            var half = request.Mirrored ? "end" : null;
            if (section.Insertion is { } insertion)
            {
                unit ??= insertion.Width.Unit;
                parts.Add(new Part(i, half, null, insertion));
                mirror.Insert(0, new Part(i, "start", null, insertion));
                fits.Add(null);
                continue;
            }

            try
            {
                var technique = section.Technique is { } id ? recorded.Technique(id) : null;
                var (asked, run, fit, its) = OfRun(section.Plan, section.Onto, Recorded.Word(technique?["kind"]) == "tucks" ? technique : null, $"sections[{i}].onto");
                unit ??= its;
                fits.Add(fit);
                if (request.Mirrored && run.Lies is "from-centre" or "towards-centre")
                {
                    faults.Add(new Fault($"{asked.Path}.lies", T("A half that is mirrored can't have a centre of its own: let its tucks lie towards-end (away from the middle) or towards-start, or leave “mirrored” out.")));
                    continue;
                }

                parts.Add(new Part(i, half, Written(run.Plan, run.Lies, run.Strip), null));
                mirror.Insert(0, new Part(i, "start", Written(Mirror.Of(run.Plan, asked.TwinNeedle), Mirror.Lies(run.Lies), run.Strip), null));
            }
            catch (FaultException e) when (e is not DoesNotFitException)
            {
                faults.AddRange(e.Faults);
            }
        }

        var whole = new Whole(request.Mirrored ? [.. mirror, .. parts] : parts, true, request.Mirrored, unit ?? LengthUnit.Inches);
        if (whole.Tucks.Count > TuckRun.MostInRun)
        {
            faults.Add(new Fault("sections", request.Mirrored
                ? T($"{whole.Tucks.Count} tucks in all, both halves counted: a worksheet has at most {TuckRun.MostInRun}.")
                : T($"{whole.Tucks.Count} tucks in all: a worksheet has at most {TuckRun.MostInRun}.")));
        }

        if (whole.Cloth > Length.Longest)
        {
            faults.Add(new Fault("sections", T($"All together they need {whole.Cloth.ToText(whole.Unit)} of cloth: lengths here go up to 1 km.")));
        }

        return faults.Count == 0 ? (whole, fits) : throw new FaultException(faults);
    }

    private static (TuckRun Asked, (TuckPlan Plan, string? Lies, TestStrip? Strip) Run, JsonObject? Fit, LengthUnit Unit) OfRun(
        TuckRun? plan, FitRequest? asked, JsonObject? technique, string path)
    {
        if (plan is not null)
        {
            return (plan, Planned(plan), null, plan.Unit);
        }

        var onto = Completed(asked!, technique);
        var answer = Fit.Find(onto);
        if (!answer.Fits)
        {
            throw new DoesNotFitException(answer, path);
        }

        var chosen = FitAnswerJson.Write(answer)["arrangements"]![0]!.DeepClone();
        var run = onto.RunOf(answer.Arrangements[0]);
        return (run, Planned(run), new JsonObject { ["count"] = answer.Count, ["chosen"] = chosen }, run.Unit);
    }

    private static (TuckPlan, string?, TestStrip?) Planned(TuckRun run) =>
        (TuckPlan.Make(run), run.TwinNeedle ? null : Word(run.Lies ?? Lies.TowardsEnd), run.TestStrip);

    private static Run Written(TuckPlan plan, string? lies, TestStrip? strip) => Run.Of(Plain(TuckPlanJson.Write(plan)), lies, strip);

    /// <summary>A node as it reads from text, whatever it was built from.</summary>
    public static JsonObject Plain(JsonObject node) => JsonNode.Parse(node.ToJsonString())!.AsObject();

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
