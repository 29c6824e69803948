using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>A planned run by itself, from its own start: the answer of the tucks route, read.</summary>
internal sealed class Run
{
    private Run(JsonObject plan, string? lies, TestStrip? strip)
    {
        Plan = plan;
        Lies = lies;
        Strip = strip;
        Finished = Read(plan["finished"]);
        Cloth = Read(plan["cloth"]);
        TakeUp = Read(plan["takeUp"]);
        Correction = plan["correctionPerTuck"] is { } c ? Read(c) : null;
        Tucks = [.. plan["lines"].Each().Select(Tuck.Read)];
        Spaces = [.. plan["spacings"].Each().Select(s => Read(s["space"]))];
        Apart = [.. plan["spacings"].Each().Select(s => Read(s["foldToFold"]))];
    }

    /// <summary>The answer itself, stored as it is.</summary>
    public JsonObject Plan { get; }

    /// <summary>Which way the tucks lie; null for twin-needle tucks, which lie neither way.</summary>
    public string? Lies { get; }

    /// <summary>Pin tucks of a twin needle: no fold, but a line to follow.</summary>
    public bool TwinNeedle => Lies is null;

    /// <summary>The strip it was planned with, or null.</summary>
    public TestStrip? Strip { get; }

    /// <summary>"towards the end".</summary>
    public string LiesInWords => Lies switch
    {
        "towards-start" => T("towards the start"),
        "from-centre" => T("from the centre"),
        "towards-centre" => T("towards the centre"),
        null => T("neither way"),
        _ => T("towards the end"),
    };

    public Length Finished { get; }

    public Length Cloth { get; }

    public Length TakeUp { get; }

    /// <summary>What each tuck takes up beyond twice its width, by her strip; null without one, and for twin-needle tucks.</summary>
    public Length? Correction { get; }

    public IReadOnlyList<Tuck> Tucks { get; }

    /// <summary>Plain cloth between tuck i and i + 1, over the whole run.</summary>
    public IReadOnlyList<Length> Spaces { get; }

    /// <summary>Fold to fold between tuck i and i + 1 on the flat cloth.</summary>
    public IReadOnlyList<Length> Apart { get; }

    public bool FromMiddle => Lies is "from-centre" or "towards-centre";

    public static Run Of(JsonObject plan, string? lies, TestStrip? strip) => new(plan, lies, strip);

    /// <summary>What one twin-needle tuck takes up.</summary>
    public Length TakenByOne => Length.FromNanometres(TakeUp.Nanometres / Tucks.Count);

    /// <summary>
    /// Tucks in the order they are sewn: away from the covered side, so that each next fold can be measured from the
    /// stitching just done. The halves of a centre lie follow one another.
    /// </summary>
    public IEnumerable<IReadOnlyList<Tuck>> Working(IReadOnlyList<Tuck> tucks) => Lies switch
    {
        "towards-start" => [[.. tucks.Reverse()]],
        "from-centre" => [[.. tucks.Where(t => t.Half == "start").Reverse()], [.. tucks.Where(t => t.Half == "end")]],
        "towards-centre" => [[.. tucks.Where(t => t.Half == "start")], [.. tucks.Where(t => t.Half == "end").Reverse()]],
        _ => [tucks],
    };

    /// <summary>Groups with their width and, where there is more than one tuck, their space; a centre lie's once.</summary>
    public IEnumerable<(int Group, Length Width, Length? Space)> Groups()
    {
        for (var i = 0; i < Tucks.Count; i++)
        {
            var tuck = Tucks[i];
            if (tuck.Half == "start" || (i > 0 && Tucks[i - 1].Group == tuck.Group && Tucks[i - 1].Half == tuck.Half))
            {
                continue;
            }

            var more = i + 1 < Tucks.Count && Tucks[i + 1].Group == tuck.Group && Tucks[i + 1].Half == tuck.Half;
            yield return (tuck.Group, tuck.Width, more ? Spaces[i] : null);
        }
    }

    /// <summary>True where one notched gauge serves: one width, one space all along.</summary>
    public bool IsEven => !TwinNeedle && Tucks.All(t => t.Width == Tucks[0].Width)
        && Groups().Select(g => g.Space).Where(s => s is not null).Distinct().Count() <= 1 && Groups().Count() == 1;

    /// <summary>Half of twice a distance from the middle, rounded down to the nanometre, so that both halves read alike.</summary>
    public static Length FromMiddleOf(Length at, Length whole) =>
        Length.FromNanometres(Math.Abs((2 * at.Nanometres) - whole.Nanometres) / 2);

    public static Length Read(JsonNode? length) => Length.FromMillimetres(length!["mm"]!.GetValue<decimal>());
}

/// <summary>A tuck with its three lines on the flat cloth and where they come when sewn, all from one start.</summary>
internal sealed record Tuck(
    int Number, int Group, string? Half, Length Width, Length First, Length Fold, Length Second, Length SewnStitch, Length SewnFold)
{
    public static Tuck Read(JsonObject line) => new(
        line["tuck"].Whole(), line["group"].Whole(), line["half"]?.GetValue<string>(), Run.Read(line["width"]), Run.Read(line["firstStitch"]),
        Run.Read(line["fold"]), Run.Read(line["secondStitch"]), Run.Read(line["finishedStitch"]), Run.Read(line["finishedFold"]));

    /// <summary>The same tuck as it stands in the whole.</summary>
    public Tuck At(int before, string? half, Length flat, Length finished) => this with
    {
        Number = Number + before,
        Half = half ?? Half,
        First = First + flat,
        Fold = Fold + flat,
        Second = Second + flat,
        SewnStitch = SewnStitch + finished,
        SewnFold = SewnFold + finished,
    };
}
