using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>Stitches, thread and hours of a seam or of a run of tucks.</summary>
internal static class StitchCountSum
{
    // Wheeler & Wilson's comparison of 1861.
    private static readonly (int PerMinute, string Who)[] Paces = // texts
        [(23, "By hand, fine linen, 1861"), (640, "By machine, fine linen, 1861"), (30, "By hand, fine silk, 1861"), (550, "By machine, fine silk, 1861")];

    public static Sum Sum { get; } = new()
    {
        Slug = "stitch-count",
        Shelf = Shelf.Thread,
        Title = "Stitches, thread and hours",
        Lead = "How many stitches a seam or a run of tucks has, how much thread it takes, and how long it takes by hand and by machine.",
        Asks =
        [
            Ask.Above("length", "Length of seam", "36 in", "All together; or give the tucks.").Optional(),
            Ask.Whole("tucks", "Tucks", 1, 2_000, "20", "Each is stitched once along its length.").Optional(),
            Ask.Above("tuckLength", "Length of a tuck", "9 in").Optional(),
            Ask.Choice("stitch", "Stitch", "", ("lockstitch", "Lockstitch, machine"), ("chainstitch", "Chainstitch, machine"), ("running", "Running, hand"), ("backstitch", "Backstitch, hand"), ("whip", "Whipping, hand")),
            Ask.Above("stitchLength", "Length of a stitch", "2 mm", "From one to the next; or give them to the inch.").Optional(),
            Ask.Number("perInch", "Stitches to the inch", 1, 60, "12") with { AboveZero = true, Needed = false },
            Ask.Above("thickness", "Thickness of all layers", "0.6 mm", "Pressed together; the usual factor serves when left out.").Optional(),
            Ask.Above("bite", "Depth of whipping", "1 mm", "From the edge to where the needle goes in; as deep as a stitch is long when left out.").Optional(),
            Ask.Number("factor", "Your own factor", 1, 20, "2.6", "Thread unpicked from a trial, for each length of its seam.").Optional(),
            Ask.Number("perMinute", "Your pace, stitches a minute", 0.1m, 10_000, "20", "Counted over five minutes of your own sewing.").Optional(),
            Ask.Above("needleful", "A needleful", "50 cm", "Hand stitches: 50 cm when left out.").Optional(),
            Ask.Plain("ends", "Lost of each needleful", "10 cm", "Fastening on and off: 10 cm when left out."),
        ],
        Example = """{"tucks":20,"tuckLength":"9 in","stitch":"running","perInch":12,"perMinute":20}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (seam, kind) = (Seam(asked), Enum.Parse<SeamStitch>(asked.Text("stitch"), ignoreCase: true));
        asked.Check(asked.Has("stitchLength") != asked.Has("perInch"), asked.Has("stitchLength") ? "perInch" : "stitchLength", "Give the length of a stitch or how many go to the inch, one of them.");
        asked.Check(kind == SeamStitch.Whip || !asked.Has("bite"), "bite", "Only whipping has a depth: leave it out.");
        var byMachine = kind is SeamStitch.Lockstitch or SeamStitch.Chainstitch;
        asked.Check(!byMachine || (!asked.Has("needleful") && !asked.Has("ends")), asked.Has("needleful") ? "needleful" : "ends", "A machine sews from the spool: needlefuls belong to hand stitches. Leave it out.");
        asked.Throw();
        var stitch = asked.LengthOrNull("stitchLength") ?? Length.FromNanometres(decimal.ToInt64(decimal.Round(Length.Inch / asked.Number("perInch"))));
        var stitches = asked.Has("perInch") ? StitchCount.Stitches(seam, asked.Number("perInch")) : StitchCount.Stitches(seam, stitch);
        var bite = asked.LengthOrNull("bite") ?? stitch;
        var factor = asked.Has("factor") ? (double)asked.Number("factor")
            : asked.Has("thickness") ? StitchCount.Factor(kind, stitch, asked.Length("thickness"), bite) : StitchCount.UsualFactor(kind, stitch, bite);
        asked.Check(factor <= 100, "stitchLength", T($"Stitches {asked.Show(stitch)} long would take {factor.ToString("0", CultureInfo.InvariantCulture)} times their seam in thread: give a longer stitch or thinner layers."));
        asked.Throw();
        var thread = seam.Times(factor);
        var answer = new Answer(asked.Unit).Figure("stitches", "Stitches", stitches).Figure("seam", "Length of seam", seam)
            .Figure("stitchLength", "A stitch", stitch).Figure("perInch", "Stitches to the inch", decimal.Round((decimal)Length.Inch / stitch.Nanometres, 4))
            .Figure("factor", "Thread for each length of seam", decimal.Round((decimal)factor, 4)).Figure("thread", kind == SeamStitch.Lockstitch ? "Thread, spool and bobbin together" : "Thread", thread);
        if (!byMachine)
        {
            Needlefuls(asked, answer, thread);
        }

        AddHours(asked, answer, stitches, byMachine);
        AddNotes(asked, answer, kind);
        return answer.Drawn(N(
            Math.Min(12, stitches),
            $"The seam, {asked.Show(seam)}, above the {asked.Show(thread)} of thread it takes; below, its first {Math.Min(12, stitches)} stitch, magnified.",
            $"The seam, {asked.Show(seam)}, above the {asked.Show(thread)} of thread it takes; below, its first {Math.Min(12, stitches)} stitches, magnified."), Bars(asked, seam, thread), Closely(asked, stitch, (int)Math.Min(12, stitches), kind));
    }

    private static Length Seam(Asked asked)
    {
        var run = asked.Has("tucks") || asked.Has("tuckLength");
        asked.Check(asked.Has("length") != run, "length", "Give the length of seam, or the tucks and the length of one; not both.");
        asked.Check(asked.Has("tucks") == asked.Has("tuckLength"), asked.Has("tucks") ? "tuckLength" : "tucks", "Tucks and the length of one belong together: give both.");
        asked.Throw();
        var seam = asked.LengthOrNull("length") ?? asked.Whole("tucks") * asked.Length("tuckLength");
        asked.Check(seam <= Length.Longest, "tuckLength", T($"{asked.Whole("tucks")} tucks of {asked.Show(asked.Length("tuckLength"))} are more than 1 km of stitching."));
        asked.Throw();
        return seam;
    }

    private static void Needlefuls(Asked asked, Answer answer, Length thread)
    {
        var needleful = asked.LengthOrNull("needleful") ?? Length.FromMillimetres(500);
        var ends = asked.LengthOrNull("ends") ?? Length.FromMillimetres(100);
        asked.Check(ends < needleful, asked.Has("needleful") ? "needleful" : "ends", T($"{asked.Show(ends)} lost of a needleful of {asked.Show(needleful)} leaves nothing to sew with."));
        asked.Throw();
        var count = StitchCount.Needlefuls(thread, needleful, ends);
        answer.Figure("needlefuls", "Needlefuls", count).Figure("threadWithEnds", "Thread with their ends", count * needleful)
            .Note("A thread of 40 to 50 cm at most; longer ones fray and tangle.", "Dillmont, Encyclopedia of Needlework (1886)")
            .Note("10 cm lost of each needleful is common practice.");
        if (needleful > Length.FromMillimetres(500))
        {
            answer.Caution("needleful-long", T($"A needleful of {asked.Show(needleful)} is longer than the 50 cm the handbook allows."));
        }
    }

    private static void AddHours(Asked asked, Answer answer, long stitches, bool byMachine)
    {
        var own = asked.Has("perMinute") ? asked.Number("perMinute") : (decimal?)null;
        if (own is { } pace)
        {
            answer.Figure("hours", byMachine ? "Hours at your pace, by machine" : "Hours at your pace, by hand", Hours(stitches, pace));
        }

        answer.Figure("handHours", "Hours by hand as in 1861", Hours(stitches, 23), "23 stitches a minute").Figure("machineHours", "Hours by machine as in 1861", Hours(stitches, 640), "640 stitches a minute")
            .Table("paces", "Hours, stitching alone", [new("pace", "Pace"), new("perMinute", "Stitches a minute"), new("hours", "Hours")],
                (own is { } hers ? new[] { (Who: T("Yours"), PerMinute: hers) } : []).Concat(Paces.Select(p => (p.Who, PerMinute: (decimal)p.PerMinute)))
                    .Select(p => (IReadOnlyList<object?>)[T(p.Who), p.PerMinute, Hours(stitches, p.PerMinute)]))
            .Note("The paces of 1861 are a sewing machine maker's comparison, made to sell machines; marking, folding and pressing are not counted.", "Cooper, The Invention of the Sewing Machine (1968), from Wheeler & Wilson, 1861");
    }

    private static void AddNotes(Asked asked, Answer answer, SeamStitch kind)
    {
        if (asked.Has("factor"))
        {
            answer.Note("The factor is your own: the surest there is.");
            return;
        }

        var known = asked.Has("thickness");
        var (text, source) = kind switch
        {
            SeamStitch.Lockstitch => known ? (T("Lockstitch takes 2 + 2 × thickness × stitches for each length."), T("Published notes on thread consumption for garment making, stitch type 301"))
                : (T("Lockstitch takes about 2 1/2 times its seam, half of it from the bobbin."), T("The same notes, the ratio used in the trade for stitch type 301")),
            SeamStitch.Chainstitch => known ? (T("Single chainstitch takes 3 + 2 × thickness × stitches for each length."), T("Published notes on thread consumption for garment making, stitch type 101"))
                : (T("Single chainstitch takes about 4 times its seam: from memory."), (string?)null),
            SeamStitch.Running => (known ? T("Running takes 1 + 2 × thickness × stitches for each length: plain geometry.") : T("Running takes about a tenth more than its seam: common practice."), null),
            SeamStitch.Backstitch => (T("Backstitch lies once above and twice below, so three times its seam, and the thickness as well where it is given: plain geometry."), null),
            _ => (T("Whipping slants over the edge, so its depth counts: plain geometry, with no slack."), null),
        };
        answer.Note(text, source).Note("Sew a trial of 10 cm, unpick it and measure the thread: your own factor is better than any printed one. Allow a little over for ends and mistakes; 10 to 15 % is common practice.");
    }

    private static Panel Bars(Asked asked, Length seam, Length thread)
    {
        var sketch = new Sketch(44);
        var scale = sketch.ScaleFor(thread > seam ? thread : seam);
        var (first, second) = (seam.Mm() * scale, thread.Mm() * scale);
        return sketch.Box(Sketch.Margin, 14, first, 5, Ink.Cloth).Line(Sketch.Margin, 16.5, Sketch.Margin + first, 16.5, Ink.Stitching).Across(Sketch.Margin, Sketch.Margin + first, 11, T($"seam {asked.Show(seam)}"))
            .Box(Sketch.Margin, 34, second, 1.4, Ink.Tuck).Line(Sketch.Margin, 34.7, Sketch.Margin + second, 34.7, Ink.Fold).Across(Sketch.Margin, Sketch.Margin + second, 30, T($"thread {asked.Show(thread)}")).Panel();
    }

    private static Panel Closely(Asked asked, Length stitch, int count, SeamStitch kind)
    {
        var sketch = new Sketch(26);
        var step = Math.Min(14, sketch.Room / count);
        sketch.Box(Sketch.Margin, 12, step * count, 9, Ink.Cloth).Across(Sketch.Margin, Sketch.Margin + step, 8.5, asked.Show(stitch));
        for (var i = 0; i < count; i++)
        {
            var x = Sketch.Margin + (i * step);
            if (kind == SeamStitch.Whip)
            {
                sketch.Line(x, 17, x + step, 12, Ink.Fold);
            }
            else
            {
                sketch.Line(x + (step * 0.06), 16.5, x + (step * (kind == SeamStitch.Running ? 0.5 : 0.94)), 16.5, Ink.Fold);
            }
        }

        return sketch.Panel();
    }

    private static decimal Hours(long stitches, decimal perMinute) => decimal.Round(stitches / perMinute / 60, 2);
}
