using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>A run or an insertion at its place in the whole. All its lengths are from the start of the whole.</summary>
internal sealed class Part
{
    /// <summary>What it is before it has its place.</summary>
    /// <param name="asked">The place in the request, from 0.</param>
    /// <param name="half"><c>start</c> or <c>end</c> of a mirrored whole, else null.</param>
    /// <param name="run">The tucks, or null.</param>
    /// <param name="insertion">The insertion, or null.</param>
    public Part(int asked, string? half, Run? run, AskedInsertion? insertion) =>
        (Asked, Half, Run, Insertion) = (asked, half, run, insertion);

    public int Asked { get; }

    public string? Half { get; }

    public Run? Run { get; }

    public AskedInsertion? Insertion { get; }

    /// <summary>Its place from the start, from 1.</summary>
    public int Number { get; private set; }

    public Length FlatFrom { get; private set; }

    public Length FinishedFrom { get; private set; }

    public IReadOnlyList<Tuck> Tucks { get; private set; } = [];

    /// <summary>From 1, of an insertion among the insertions.</summary>
    public int Strip { get; private set; }

    public Length FlatTo => FlatFrom + (Run?.Cloth ?? (Insertion!.LaidOn ? Insertion.Width.Length : Length.Zero));

    public Length FinishedTo => FinishedFrom + (Run?.Finished ?? Insertion!.Width.Length);

    public void Place(int number, int tucksBefore, int stripsBefore, Length flat, Length finished)
    {
        (Number, Strip, FlatFrom, FinishedFrom) = (number, Insertion is null ? 0 : stripsBefore + 1, flat, finished);
        Tucks = Run is null ? [] : [.. Run.Tucks.Select(t => t.At(tucksBefore, Half, flat, finished))];
    }
}

/// <summary>The whole piece of work from start to end: one run, or several things side by side.</summary>
internal sealed class Whole
{
    public Whole(IReadOnlyList<Part> parts, bool sectioned, bool mirrored, LengthUnit unit)
    {
        (Parts, Sectioned, Mirrored, Unit) = (parts, sectioned, mirrored, unit);
        var (flat, finished, tucks, strips) = (Length.Zero, Length.Zero, 0, 0);
        for (var i = 0; i < parts.Count; i++)
        {
            parts[i].Place(i + 1, tucks, strips, flat, finished);
            (flat, finished) = (parts[i].FlatTo, parts[i].FinishedTo);
            tucks += parts[i].Tucks.Count;
            strips += parts[i].Insertion is null ? 0 : 1;
        }

        (Cloth, Finished) = (flat, finished);
        Tucks = [.. parts.SelectMany(p => p.Tucks)];
    }

    /// <summary>From start to end, both halves.</summary>
    public IReadOnlyList<Part> Parts { get; }

    /// <summary>Asked as sections, even if there is one.</summary>
    public bool Sectioned { get; }

    public bool Mirrored { get; }

    public LengthUnit Unit { get; }

    public Length Finished { get; }

    public Length Cloth { get; }

    /// <summary>What all the tucks take up.</summary>
    public Length TakeUp => Runs.Aggregate(Length.Zero, (sum, run) => sum + run.TakeUp);

    /// <summary>Numbered over the whole.</summary>
    public IReadOnlyList<Tuck> Tucks { get; }

    /// <summary>The runs from start to end, both halves.</summary>
    public IEnumerable<Run> Runs => Parts.Select(p => p.Run).OfType<Run>();

    /// <summary>The runs as they were asked for: of a mirrored whole one half.</summary>
    public IEnumerable<Part> AskedRuns => Parts.Where(p => p.Run is not null && p.Half != "start");

    public IEnumerable<Part> Insertions => Parts.Where(p => p.Insertion is not null);

    public bool FromMiddle => Mirrored || (Parts is [{ Run.FromMiddle: true }]);

    public bool AllTwinNeedle => Runs.Any() && Runs.All(r => r.TwinNeedle);

    public bool AnyTwinNeedle => Runs.Any(r => r.TwinNeedle);

    /// <summary>"the run", or "the piece" where it is made of several things.</summary>
    public string Name => Sectioned ? T("the piece") : T("the run");

    /// <summary>What <c>result</c> holds of the plan itself: <c>plan</c>, or the sections, and all lines over the whole where one plan does not tell them.</summary>
    public void Write(JsonObject result, IReadOnlyList<AskedSection> asked, IReadOnlyList<JsonObject?> fits)
    {
        JsonObject L(Length length) => LengthJson.Write(length, Unit);
        if (!Sectioned)
        {
            result["plan"] = Parts[0].Run!.Plan;
        }
        else
        {
            result["finished"] = L(Finished);
            result["cloth"] = L(Cloth);
            result["takeUp"] = L(TakeUp);
            result["mirrored"] = Mirrored;
            result["sections"] = new JsonArray([.. Parts.Select(p => new JsonObject
            {
                ["technique"] = asked[p.Asked].Technique,
                ["half"] = p.Half,
                ["plan"] = p.Run?.Plan.DeepClone(),
                ["lies"] = p.Run?.Lies,
                ["fit"] = p.Half == "start" ? null : fits[p.Asked]?.DeepClone(),
                ["insertion"] = p.Insertion is { } i ? new JsonObject { ["width"] = LengthJson.Write(i.Width.Length, i.Width.Text), ["laidOn"] = i.LaidOn } : null,
                ["flatFrom"] = L(p.FlatFrom),
                ["flatTo"] = L(p.FlatTo),
                ["finishedFrom"] = L(p.FinishedFrom),
                ["finishedTo"] = L(p.FinishedTo),
            })]);
        }

        if (Sectioned || AnyTwinNeedle)
        {
            result["lines"] = new JsonArray([.. Parts.SelectMany(p => p.Tucks.Select(t => Line(p, t)))]);
        }

        JsonNode Line(Part part, Tuck tuck) => new JsonObject
        {
            ["tuck"] = tuck.Number,
            ["section"] = part.Number,
            ["group"] = tuck.Group,
            ["half"] = tuck.Half,
            ["twinNeedle"] = part.Run!.TwinNeedle,
            ["width"] = L(tuck.Width),
            ["firstStitch"] = L(tuck.First),
            ["fold"] = L(tuck.Fold),
            ["secondStitch"] = L(tuck.Second),
            ["finishedStitch"] = L(tuck.SewnStitch),
            ["finishedSecondStitch"] = L(part.Run.TwinNeedle ? tuck.SewnStitch + tuck.Width - part.Run.TakenByOne : tuck.SewnStitch),
            ["finishedFold"] = L(tuck.SewnFold),
        };
    }
}
