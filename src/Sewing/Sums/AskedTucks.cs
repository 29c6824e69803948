using System.ComponentModel;
using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Sewing.Sums;

/// <summary>Tucks as a sum asks for them, their spacing in any of its three meanings, and a whole run as one of its parts.</summary>
internal static class AskedTucks
{
    /// <summary>Equal tucks: how many, how wide, how far apart.</summary>
    public static IReadOnlyList<Ask> Equal(int most) =>
    [
        Ask.Whole("tucks", "Tucks", 1, most, "3"),
        RunAsks.Width("1/2 in"),
        .. Apart("1/4 in"),
    ];

    /// <summary>A spacing in any of its three meanings; whether one is needed is for the sum to say.</summary>
    public static Ask[] Apart(string space) =>
    [
        Ask.AnyLength("space", "Space: plain cloth seen between", space, "Give one of the three; the other two may stay empty. 0 where the tucks meet, below 0 where they overlap.").Optional() with { Drawing = "apart" },
        Ask.AnyLength("stitchToStitch", "Or stitching to stitching, finished", "3/4 in").Optional(),
        Ask.AnyLength("foldToFold", "Or fold to fold on the flat cloth", "1 3/4 in").Optional(),
    ];

    /// <summary>A whole run, as for its own plan.</summary>
    public static Ask Run(string name, [Localizable(true)] string label, [Localizable(true)] string hint) => Ask.Part(name, label, hint,
        Ask.Rows("groups", "Groups", 1, TuckRun.MostGroups, "Tucks of one width and spacing; with a centre from the middle outwards.", [.. Equal(TuckRun.MostInGroup)]),
        Ask.Lengths("between", "Space from group to group", 0, TuckRun.MostGroups, "1 in").Optional() with { AboveZero = false, Least = -Length.Longest },
        RunAsks.Lead, RunAsks.Trail, RunAsks.Centre, RunAsks.LiesAsk(hanging: false), RunAsks.Strip);

    /// <summary>The plain cloth seen between equal tucks, from whichever of the three was given.</summary>
    public static Length Space(Asked asked)
    {
        var width = asked.Length("width");
        var ways = new (string Name, Length Beyond)[] { ("space", Length.Zero), ("stitchToStitch", width), ("foldToFold", 3 * width) };
        var given = ways.Where(w => asked.Has(w.Name)).Select(w => (w.Name, Space: asked.Length(w.Name) - w.Beyond)).ToList();
        if (given.Count == 0)
        {
            asked.Check(asked.Whole("tucks") == 1, "space", "How far apart? Give a space (the plain cloth seen), stitchToStitch (finished) or foldToFold (flat).");
            return Length.Zero;
        }

        var (name, space) = given[0];
        foreach (var other in given.Where(g => g.Space != space))
        {
            asked.Refuse(other.Name, T($"{asked.Show(asked.Length(other.Name))} does not agree with the {name} of {asked.Show(asked.Length(name))}: give one of them, or two that agree."));
        }

        asked.Check(width + space > Length.Zero, name, T($"{asked.Show(asked.Length(name))} is too near for tucks of {asked.Show(width)}: the plain cloth between them must be more than {asked.Show(-width)}."));
        return space;
    }

    /// <summary>Tells all three spacings of tucks of one width.</summary>
    public static Answer Apart(this Answer answer, Length width, Length space) => answer
        .Figure("space", "Space: plain cloth seen between", space)
        .Figure("stitchToStitch", "Stitching to stitching, finished", width + space)
        .Figure("foldToFold", "Fold to fold on the flat cloth", (3 * width) + space);

    /// <summary>The plan of a run that was sent as a part.</summary>
    /// <param name="run">The part.</param>
    /// <exception cref="FaultException">The run can't be laid out: by its own paths.</exception>
    public static TuckPlan Plan(Asked run) => TuckPlan.Make(new()
    {
        Groups = [.. run.Rows("groups").Select(g => new TuckGroup(g.Whole("tucks"), g.Length("width"), RunAsks.ApartOf(g)))],
        Between = [.. run.Lengths("between").Select(b => new Spacing(b))],
        Lead = run.LengthOrNull("lead"),
        Trail = run.LengthOrNull("trail"),
        Centre = run.LengthOrNull("centre"),
        Lies = RunAsks.LiesOf(run, Lies.TowardsEnd),
        TestStrip = RunAsks.StripOf(run),
        Unit = run.Unit,
        Path = run.At("")[..^1],
    });
}
