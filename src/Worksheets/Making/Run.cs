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
    /// Tucks in the order they are sewn: away from the side they cover, so that each next fold is measured from stitching that
    /// lies open (as I. McGlauflin, Handicraft for Girls, works up from a hem with tucks that lie down). The halves of a centre lie follow one another.
    /// </summary>
    public IEnumerable<IReadOnlyList<Tuck>> Working(IReadOnlyList<Tuck> tucks) => Lies switch
    {
        "towards-end" => [[.. tucks.Reverse()]],
        "from-centre" => [[.. tucks.Where(t => t.Half == "start")], [.. tucks.Where(t => t.Half == "end").Reverse()]],
        "towards-centre" => [[.. tucks.Where(t => t.Half == "start").Reverse()], [.. tucks.Where(t => t.Half == "end")]],
        _ => [tucks],
    };

    /// <summary>Groups with their width, their count and, where there is more than one tuck, their space, and the space to the next group; of a centre lie one half, from the middle outwards.</summary>
    public IEnumerable<(int Group, Length Width, int Count, Length? Space, Length? ToNext)> Groups()
    {
        for (int i = Tucks.Count(t => t.Half == "start"), next; i < Tucks.Count; i = next)
        {
            for (next = i + 1; next < Tucks.Count && Tucks[next].Group == Tucks[i].Group;)
            {
                next++;
            }

            yield return (Tucks[i].Group, Tucks[i].Width, next - i, next - i > 1 ? Spaces[i] : null, next < Tucks.Count ? Spaces[next - 1] : null);
        }
    }

    /// <summary>The plain cloth seen in the middle of a centre lie.</summary>
    public Length Centre => Spaces[(Tucks.Count / 2) - 1];

    /// <summary>True where one notched gauge serves: one width, one space all along.</summary>
    public bool IsEven => !TwinNeedle && Groups().Count() == 1;

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
