using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary><see cref="StitchRegularity"/> with its route and page.</summary>
internal static class RegularitySum
{
    private const int MostStitches = 500;

    public static Sum Sum { get; } = new()
    {
        Slug = "stitch-regularity",
        Shelf = Shelf.Thread,
        Title = "How even the stitches are",
        Lead = "From stitches measured along one line: mean, spread, stitches to the inch, and what their evenness hints of hand or machine.",
        Asks =
        [
            Ask.Lengths("stitches", "Stitches", 0, MostStitches, "2 mm", "Each stitch along one line, ten or more, one on each line; pass none over because it is odd."),
            Ask.Choice("seen", "What is seen", "Of running stitches only every other one shows on a face; a machine would show twice as many.",
                ("end-to-end", "every stitch, end to end"), ("one-face", "running stitches, with gaps between")).Optional(),
            Ask.Above("over", "Over what length", "24 mm", "From the start of the first to the start of the one after the last, if you measured it.").Optional(),
            Ask.Text("slants", "Slants in degrees", "2; -1; 3", "How far each leans from the line, between semicolons, if you measured them.").Optional(),
            Ask.Above("ruler", "Smallest division of your ruler", "0.5 mm", "0.5 mm when left out; for a thread counter 0.1 mm.").Optional(),
        ],
        Example = """
            {"stitches":["2 mm","2.5 mm","1.8 mm","2.2 mm","2 mm","2.6 mm","1.7 mm","2.1 mm","2.4 mm","1.9 mm","2.3 mm","2 mm"],"seen":"one-face","slants":"4; -2; 7; 3; -5; 6; 1; 8; -3; 5; 2; 4","ruler":"0.1 mm"}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var stitches = asked.Lengths("stitches");
        var missing = StitchRegularity.FewestStitches - stitches.Count;
        asked.Check(missing <= 0, "stitches", N(
            stitches.Count,
            $"{stitches.Count} stitch says too little: measure at least {missing} more, {StitchRegularity.FewestStitches} in all.",
            $"{stitches.Count} stitches say too little: measure at least {missing} more, {StitchRegularity.FewestStitches} in all."));
        var slants = Slants(asked);
        var seen = asked.Text("seen") == "one-face" ? StitchesSeen.OneFace : StitchesSeen.EndToEnd;
        var sum = stitches.Aggregate(Length.Zero, (a, b) => a + b);
        asked.Check(asked.LengthOrNull("over") is not { } over || over >= sum, "over", T($"The stitches alone come to {asked.Show(sum)}: the length they lie over can't be less."));
        asked.Throw();
        var found = StitchRegularity.Of(stitches, seen, asked.LengthOrNull("over"), slants, asked.LengthOrNull("ruler") ?? Length.FromMillimetres(0.5m));
        var answer = new Answer(asked.Unit)
            .Figure("stitches", "Stitches measured", found.Stitches)
            .Figure("mean", "Mean length", found.Mean, "", LengthUnit.Millimetres)
            .Figure("spread", "Spread (standard deviation)", found.Spread, "Two stitches of three lie within it of the mean, roughly.", LengthUnit.Millimetres)
            .Figure("shortest", "Shortest", found.Range.Shortest)
            .Figure("longest", "Longest", found.Range.Longest)
            .Figure("variation", "Coefficient of variation, in %", Rounded(100 * found.Variation, 1), "Spread over mean.")
            .Figure("perInch", "Stitches seen in an inch", Rounded(found.PerInch, 2))
            .Figure("perCm", "Stitches seen in a centimetre", Rounded(found.PerInch / 2.54, 2))
            .Figure("asMachine", "A machine would show in an inch", Rounded(found.PerInchAsMachine, 2), seen == StitchesSeen.OneFace ? "Twice as many: running stitches are seen on one face only every other one." : "")
            .Figure("slantMean", "Mean slant, in degrees", found.Slant is { } slant ? Rounded(slant.Mean, 1) : null)
            .Figure("slantSpread", "Spread of the slants, in degrees", found.Slant is { } spread ? Rounded(spread.Spread, 1) : null)
            .Figure("leansTo", "Leans to", Leaning(found.HandToMachine) switch { "hand" => T("hand"), "machine" => T("machine"), _ => T("neither") })
            .Figure("handToMachine", "Likelier by hand than by machine, so many times", Rounded(found.HandToMachine, found.HandToMachine < 1 ? 3 : 1))
            .Figure("strength", "How strong a hint", Strength(found.HandToMachine))
            .Figure("evidence", "In words", Evidence(found))
            .Note("The hint compares the spread of these stitches with a spread usual by hand (about 16 % of the mean; slants about 6 degrees) and by machine (about 4.5 %; 1.5 degrees), each give or take a factor of 1.6, with what reading the ruler adds. These figures are assumptions from common practice; no published measurement was found, and so nothing beyond 50 to 1 is ever told.")
            .Note("A practised hand can be as even as a machine, and a worn machine, fine gathers or puckered cloth as uneven as a hand. Look at both faces: a running stitch goes through and back with one thread, a lockstitch has two threads, a chain stitch loops on the wrong side. Knots, back-stitches and a thread that wanders from the line speak for a hand.")
            .Caution("hint-only", "A hint, not a verdict: it does not tell who made a piece, and hand sewing dates nothing.");
        return answer.Drawn(T($"The {found.Stitches} stitches one after the other, from {asked.Show(found.Range.Shortest)} to {asked.Show(found.Range.Longest)} long; below, how often each length comes."), Line(stitches, seen), Lengths(asked, stitches, found));
    }

    private static List<double> Slants(Asked asked)
    {
        var slants = new List<double>();
        foreach (var text in asked.Text("slants").Split([';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var read = double.TryParse(text.Replace(',', '.').Replace('−', '-').TrimEnd('°'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var degrees);
            asked.Check(read && Math.Abs(degrees) <= 90, "slants", T($"“{Shown.Short(text)}” is no slant: write degrees from -90 to 90 between semicolons, as in 2; -1; 3."));
            slants.Add(degrees);
        }

        asked.Check(slants.Count is 0 or >= StitchRegularity.FewestStitches, "slants", T($"{slants.Count} slants say too little: measure at least {StitchRegularity.FewestStitches - slants.Count} more, or leave them out."));
        return slants;
    }

    private static decimal Rounded(double number, int places) => decimal.Round((decimal)number, places);

    private static string Leaning(double ratio) => Weight(ratio) < 2 ? "neither" : ratio > 1 ? "hand" : "machine";

    private static double Weight(double ratio) => Math.Max(ratio, 1 / ratio);

    private static string Strength(double ratio) => Weight(ratio) switch
    {
        < 2 => T("none to speak of"),
        < 5 => T("weak"),
        < 20 => T("fair"),
        _ => T("strong, as far as evenness can tell"),
    };

    private static string Evidence(StitchRegularity found)
    {
        var times = Rounded(Weight(found.HandToMachine), 1).ToString("0.#", CultureInfo.InvariantCulture);
        var most = Weight(found.HandToMachine) >= StitchRegularity.MostRatio ? T($"{times} times or more") : T($"about {times} times");
        return Leaning(found.HandToMachine) switch
        {
            "neither" => T("Stitches as even as these come from a hand and from a machine about as often: nothing is told."),
            "hand" => T($"Such unevenness is {most} as likely by hand as by machine: a hint for hand, not a verdict."),
            _ => T($"Such evenness is {most} as likely by machine as by hand: a hint for machine, not a verdict."),
        };
    }

    private static Panel Line(IReadOnlyList<Length> stitches, StitchesSeen seen)
    {
        var sketch = new Sketch(20);
        var gaps = seen == StitchesSeen.OneFace;
        var scale = sketch.ScaleFor(stitches.Aggregate(Length.Zero, (a, b) => a + b) * (gaps ? 2 : 1));
        sketch.Box(Sketch.Margin, 5, sketch.Room, 10, Ink.Cloth);
        var at = Sketch.Margin;
        foreach (var stitch in stitches)
        {
            var drawn = stitch.Mm() * scale;
            sketch.Line(at, 10, at + (gaps ? drawn : 0.92 * drawn), 10, Ink.Datum);
            at += gaps ? 2 * drawn : drawn;
        }

        return sketch.Panel();
    }

    /// <summary>So many stitches of each length, in ten classes from the shortest to the longest.</summary>
    private static Panel Lengths(Asked asked, IReadOnlyList<Length> stitches, StitchRegularity found)
    {
        const int classes = 10;
        var sketch = new Sketch(42);
        var (shortest, longest) = found.Range;
        var counts = new int[classes];
        foreach (var stitch in stitches)
        {
            counts[longest == shortest ? 0 : Math.Min(classes - 1, (int)((stitch - shortest).Nanometres * classes / (longest - shortest).Nanometres))]++;
        }

        var width = sketch.Room / classes;
        for (var i = 0; i < classes; i++)
        {
            var high = 24.0 * counts[i] / counts.Max();
            var (left, right) = (Sketch.Margin + (i * width) + 0.5, Sketch.Margin + ((i + 1) * width) - 0.5);
            sketch.Box(left, 32 - high, right - left, high, Ink.Cloth).Path([(left, 32), (left, 32 - high), (right, 32 - high), (right, 32)], Ink.FoldFine);
            if (counts[i] > 0)
            {
                sketch.Text(Sketch.Margin + ((i + 0.5) * width), 30.5 - high, counts[i].ToString(CultureInfo.InvariantCulture));
            }
        }

        return sketch.Line(Sketch.Margin, 32, Sketch.Margin + sketch.Room, 32, Ink.Datum)
            .Text(Sketch.Margin, 37, asked.Show(shortest), Ink.Caption, 2.8, Anchor.Start)
            .Text(Sketch.Margin + sketch.Room, 37, asked.Show(longest), Ink.Caption, 2.8, Anchor.End).Panel();
    }
}
