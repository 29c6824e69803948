using System.ComponentModel;
using HeirloomArchive.Sewing.Sums;
using HeirloomArchive.Sewing.TuckKinds;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>What the sums about sizes ask alike: ranges, the finest marking, the antique to be like, which way the tucks lie.</summary>
internal static class SizeAsks
{
    public static Ask Finest { get; } = Ask.Choice("finest", "Finest marking", "What your ruler shows: every width, space and end is a whole number of it.",
        [.. Markings.All.Select(m => (m.Slug, m.Slug))]).Optional();

    public static Ask Lie { get; } = Ask.Choice("lies", "The tucks lie", "As on the antique.",
        ("towards-end", "all towards the end"), ("towards-start", "all towards the start"),
        ("from-centre", "away from the middle, both sides alike"), ("towards-centre", "towards the middle, both sides alike")).Optional();

    /// <summary>What is changed so that something fits, in a word of the reader's language.</summary>
    public static string Changed(string what) => what switch
    {
        "finished" => T("finished"),
        "groups" => T("groups"),
        "tucks" => T("tucks"),
        "space" => T("space"),
        "gap" => T("gap"),
        "width" => T("width"),
        "ends" => T("ends"),
        _ => T("cloth"),
    };

    /// <summary>Lengths from one to another.</summary>
    public static Ask Range(string name, [Localizable(true)] string label, string from, string to, [Localizable(true)] string hint = "") => Ask.Part(name, label, hint,
        Ask.Plain("from", "From", from) with { Needed = true }, Ask.Plain("to", "To", to) with { Needed = true }) with { Needed = true };

    /// <summary>Whole numbers from one to another, 1 to the most.</summary>
    public static Ask Counts(string name, [Localizable(true)] string label, string example, int most) => Ask.Part(name, label, "",
        Ask.Whole("from", "From", 1, most, "1"), Ask.Whole("to", "To", 1, most, example)) with { Needed = true };

    /// <summary>The finest marking; the first of them when it was left out.</summary>
    public static Length FinestOf(Asked asked) => asked.Text("finest") is { Length: > 0 } slug ? Markings.All.First(m => m.Slug == slug).Length : Markings.All[0].Length;

    public static Lies LiesOf(Asked asked) => RunAsks.LiesOf(asked, Lies.TowardsEnd);

    /// <summary>The range, with a fault where it is none or begins too low.</summary>
    public static LengthRange RangeOf(Asked asked, string name, Length least)
    {
        var part = asked.Part(name)!;
        var (from, to) = (part.Length("from"), part.Length("to"));
        part.Check(from <= to, "from", T($"From {asked.Show(from)} to {asked.Show(to)} is no range: from must not be above to."));
        part.Check(from >= least, "from", T($"{asked.Show(from)} is too little: at least {asked.Show(least)}."));
        return new(from, to);
    }

    /// <summary>The range, with a fault where it is none.</summary>
    public static CountRange CountsOf(Asked asked, string name)
    {
        var part = asked.Part(name)!;
        var (from, to) = (part.Whole("from"), part.Whole("to"));
        part.Check(from <= to, "from", T($"From {from} to {to} is no range: from must not be above to."));
        return new(from, to);
    }
}
