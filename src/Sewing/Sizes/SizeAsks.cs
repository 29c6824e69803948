using System.ComponentModel;
using System.Globalization;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Sizes;

/// <summary>What the sums about sizes ask alike: ranges, the finest marking, the antique to be like, which way the tucks lie.</summary>
internal static class SizeAsks
{
    private static readonly (string Slug, Length Length)[] Markings =
    [
        ("1/16 in", Length.FromSixtyFourthsOfInch(4)), ("1/32 in", Length.FromSixtyFourthsOfInch(2)), ("1/64 in", Length.FromSixtyFourthsOfInch(1)),
        ("1 mm", Length.FromMillimetres(1m)), ("0.5 mm", Length.FromMillimetres(0.5m)), ("0.25 mm", Length.FromMillimetres(0.25m)),
    ];

    private static readonly (string Slug, string Words, Lies Lies)[] Ways = // texts
    [
        ("towards-end", "all towards the end", Lies.TowardsEnd), ("towards-start", "all towards the start", Lies.TowardsStart),
        ("from-centre", "away from the middle, both sides alike", Lies.FromCentre), ("towards-centre", "towards the middle, both sides alike", Lies.TowardsCentre),
    ];

    public static Ask Finest { get; } = Ask.Choice("finest", "Finest marking", "What your ruler shows: every width, space and end is a whole number of it.",
        [.. Markings.Select(m => (m.Slug, m.Slug))]).Optional();

    public static Ask Lie { get; } = Ask.Choice("lies", "The tucks lie", "As on the antique.", [.. Ways.Select(w => (w.Slug, w.Words))]).Optional();

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

    /// <summary>Whole numbers from one to another.</summary>
    public static Ask Counts(string name, [Localizable(true)] string label, int from, int to, [Localizable(true)] string hint = "") => Ask.Part(name, label, hint,
        Ask.Whole("from", "From", 1, to, "1"), Ask.Whole("to", "To", 1, to, from.ToString(CultureInfo.InvariantCulture))) with { Needed = true };

    public static Length FinestOf(Asked asked) => Array.Find(Markings, m => m.Slug == asked.Text("finest")) is { Slug: not null } marking ? marking.Length : Markings[0].Length;

    public static Lies LiesOf(Asked asked) => Array.Find(Ways, w => w.Slug == asked.Text("lies")) is { Slug: not null } way ? way.Lies : Lies.TowardsEnd;

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
