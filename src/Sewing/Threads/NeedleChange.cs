using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>When a machine needle should be changed. Common practice: after six to eight hours of sewing, or at the first bad sign.</summary>
public static class NeedleChange
{
    /// <summary>Hours after which many change it: common practice.</summary>
    public const int Soon = 6;

    /// <summary>Hours after which nobody should go on: common practice.</summary>
    public const int Late = 8;

    /// <summary>Hours of sewing in so many stitches.</summary>
    /// <param name="stitches">Sewn.</param>
    /// <param name="perMinute">Above zero.</param>
    public static decimal Hours(long stitches, decimal perMinute) => stitches / (60 * perMinute);

    /// <summary>Whole stitches in so many hours.</summary>
    public static long Stitches(int hours, decimal perMinute) => (long)decimal.Floor(60 * hours * perMinute);

    internal static Sum Sum { get; } = new()
    {
        Slug = "needle-change",
        Shelf = Shelf.Thread,
        Title = "When to change the needle",
        Lead = "Whether a machine needle is due to be changed, from the hours or the stitches it has sewn.",
        Asks =
        [
            Ask.Number("hours", "Hours sewn", 0, 1_000, "5", "With this needle, the machine running. Give the hours or the stitches.").Optional(),
            Ask.Whole("stitches", "Stitches sewn", 0, 100_000_000, "120000", "From the plans sewn with it.").Optional(),
            Ask.Number("perMinute", "Stitches a minute", 1, 10_000, "400", "Your pace at the machine; needed with stitches.").Optional(),
        ],
        Example = """{"stitches":120000,"perMinute":400}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        asked.Check(asked.Has("hours") != asked.Has("stitches"), asked.Has("hours") ? "stitches" : "hours", "Give the hours or the stitches sewn with this needle, one of them.");
        asked.Check(!asked.Has("stitches") || asked.Has("perMinute"), "perMinute", "With stitches your pace is needed too, for example 400 a minute: it makes hours of them.");
        asked.Throw();
        var hours = asked.Has("hours") ? asked.Number("hours") : Hours(asked.Whole("stitches"), asked.Number("perMinute"));
        var answer = new Answer(asked.Unit)
            .Figure("due", "Change it", hours >= Late ? T("now") : hours >= Soon ? T("at the next piece") : T("not yet"))
            .Figure("hoursSewn", "Hours sewn", decimal.Round(hours, 2))
            .Figure("hoursLeft", T($"Hours left to {Soon}"), decimal.Round(Math.Max(0, Soon - hours), 2))
            .Figure("hoursLeftAtMost", T($"Hours left to {Late}"), decimal.Round(Math.Max(0, Late - hours), 2));
        if (asked.Has("perMinute"))
        {
            var pace = asked.Number("perMinute");
            answer.Figure("stitchesAtSoon", T($"Stitches in {Soon} hours"), Stitches(Soon, pace)).Figure("stitchesAtLate", T($"Stitches in {Late} hours"), Stitches(Late, pace));
        }

        if (hours >= Soon)
        {
            answer.Caution("needle-due", "A worn point pushes threads aside and pulls ladders in lawn: change it before fine work.");
        }

        return answer
            .Note(T($"{Soon} to {Late} hours of sewing is common practice, with no printed source. Many take a new needle for every fine piece, and at once after hitting a pin, or when it pops, skips or snags."))
            .Note("Draw the point over a scrap of fine silk or your finger nail's back: a burr catches. Old needles go into a closed tin, counted.")
            .Drawn(T($"{hours.ToString("0.##", CultureInfo.InvariantCulture)} hours sewn as a bar, with marks at {Soon} and {Late}."), Picture(hours));
    }

    private static Panel Picture(decimal hours)
    {
        var sketch = new Sketch(34);
        var scale = (sketch.Room - 12) / (double)Math.Max(10, hours);
        sketch.Box(Sketch.Margin, 13, sketch.Room - 12, 9, Ink.Cloth).Box(Sketch.Margin, 13, (double)hours * scale, 9, Ink.Allowance)
            .Text(Sketch.Margin, 9, T($"{hours.ToString("0.##", CultureInfo.InvariantCulture)} hours sewn"), Ink.Number, 2.8, Anchor.Start);
        foreach (var mark in new[] { Soon, Late })
        {
            var x = Sketch.Margin + (mark * scale);
            sketch.Line(x, 11, x, 24, Ink.Stitching).Text(x, 29, hours <= 60 ? $"{mark} h" : mark == Late ? $"{Soon}–{Late} h" : "", Ink.StitchNumber, 2.6);
        }

        return sketch.Panel();
    }
}
