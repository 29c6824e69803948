using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>A planned run as the worksheet works with it: the answer of the tucks route, read.</summary>
internal sealed class Run
{
    private Run(JsonObject plan, string lies)
    {
        Plan = plan;
        Lies = lies;
        Finished = Read(plan["finished"]);
        Cloth = Read(plan["cloth"]);
        TakeUp = Read(plan["takeUp"]);
        Correction = plan["correctionPerTuck"] is { } c ? Read(c) : null;
        Tucks = [.. plan["lines"].Each().Select(Tuck.Read)];
        Spaces = [.. plan["spacings"].Each().Select(s => Read(s["space"]))];
    }

    /// <summary>The answer itself, stored as it is.</summary>
    public JsonObject Plan { get; }

    public string Lies { get; }

    /// <summary>"towards the end".</summary>
    public string LiesInWords => Lies.Replace("-", " the ", StringComparison.Ordinal);

    public Length Finished { get; }

    public Length Cloth { get; }

    public Length TakeUp { get; }

    /// <summary>What each tuck takes up beyond twice its width, by her strip; null without one.</summary>
    public Length? Correction { get; }

    public IReadOnlyList<Tuck> Tucks { get; }

    /// <summary>Between tuck i and i + 1, over the whole run.</summary>
    public IReadOnlyList<Length> Spaces { get; }

    public bool FromMiddle => Lies is "from-centre" or "towards-centre";

    public static Run Of(JsonObject plan, string lies) => new(plan, lies);

    /// <summary>
    /// The tucks in the order they are sewn: away from the covered side, so that each next fold can be measured from the
    /// stitching just done. The halves of a centre lie follow one another.
    /// </summary>
    public IEnumerable<IReadOnlyList<Tuck>> Working() => Lies switch
    {
        "towards-start" => [[.. Tucks.Reverse()]],
        "from-centre" => [[.. Tucks.Where(t => t.Half == "start").Reverse()], [.. Tucks.Where(t => t.Half == "end")]],
        "towards-centre" => [[.. Tucks.Where(t => t.Half == "start")], [.. Tucks.Where(t => t.Half == "end").Reverse()]],
        _ => [Tucks],
    };

    /// <summary>Groups of more than one tuck with their width and space; a centre lie's once.</summary>
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

    /// <summary>Half of twice a distance from the middle, rounded down to the nanometre, so that both halves read alike.</summary>
    public static Length FromMiddleOf(Length at, Length whole) =>
        Length.FromNanometres(Math.Abs((2 * at.Nanometres) - whole.Nanometres) / 2);

    public static Length Read(JsonNode? length) => Length.FromMillimetres(length!["mm"]!.GetValue<decimal>());
}

/// <summary>A tuck with its three lines on the flat cloth, from the start of the run, and where they come when sewn.</summary>
internal sealed record Tuck(
    int Number, int Group, string? Half, Length Width, Length First, Length Fold, Length Second, Length SewnStitch, Length SewnFold)
{
    public static Tuck Read(JsonObject line) => new(
        line["tuck"].Whole(), line["group"].Whole(), line["half"]?.GetValue<string>(), Run.Read(line["width"]), Run.Read(line["firstStitch"]),
        Run.Read(line["fold"]), Run.Read(line["secondStitch"]), Run.Read(line["finishedStitch"]), Run.Read(line["finishedFold"]));
}
