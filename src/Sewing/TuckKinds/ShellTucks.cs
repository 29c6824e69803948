using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Fullness;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>What a strip of shell tuck tells: its fold was whipped over at intervals and drawn in.</summary>
/// <param name="Shells">In the strip, 1 or more.</param>
/// <param name="Before">Its length before.</param>
/// <param name="After">Its length with the shells drawn.</param>
/// <param name="WidthBefore">Of the tuck as stitched, fold to stitching.</param>
/// <param name="WidthAfter">Of the shells at their widest.</param>
public sealed record ShellStrip(int Shells, Length Before, Length After, Length WidthBefore, Length WidthAfter)
{
    /// <summary>What each shell draws in of the length, rounded once to the nanometre (halves to even).</summary>
    public Length DrawnIn => (Before - After).DividedBy(Shells);

    /// <summary>What the tuck loses in width.</summary>
    public Length DepthLost => WidthBefore - WidthAfter;
}

/// <summary>Shell tucks: the fold whipped over at even intervals and drawn into shells. Nothing but a strip tells what they draw in.</summary>
internal static class ShellTucks
{
    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "shell",
        Shelf = Shelf.Tucks,
        Title = "Shell tucks",
        Lead = "How many shells a tuck takes, and by a strip you have sewn how long to cut it and how wide it is when drawn.",
        Asks =
        [
            Ask.Above("length", "Length of the tuck", "12 in", "As it must measure when the shells are drawn."),
            RunAsks.Width("1/4 in"),
            Ask.Above("shell", "A shell", "3/8 in", "From stitch to stitch over the fold, as marked."),
            Ask.Whole("tucks", "Tucks", 1, RunAsks.MostTucks, "1").Optional(),
            Ask.Part("strip", "Strip", "A piece of shell tuck you have sewn with the same cloth and thread.",
                Ask.Whole("shells", "Shells in it", 1, 1_000, "10"),
                Ask.Above("before", "Its length before", "3 3/4 in"),
                Ask.Above("after", "Its length after", "3 7/16 in"),
                Ask.Above("widthBefore", "Width of its tuck before", "1/4 in"),
                Ask.Above("widthAfter", "Width at the shells after", "3/16 in")),
        ],
        Example = """
            {"length":"12 in","width":"1/4 in","shell":"3/8 in","strip":{"shells":10,"before":"3 3/4 in","after":"3 7/16 in","widthBefore":"1/4 in","widthAfter":"3/16 in"}}
            """,
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (length, width, shell, tucks) = (asked.Length("length"), asked.Length("width"), asked.Length("shell"), asked.Whole("tucks", 1));
        var strip = Strip(asked, shell);
        var drawn = strip?.DrawnIn ?? Length.Zero;
        asked.Check(shell <= length, "shell", T($"{asked.Show(shell)} is longer than the tuck of {asked.Show(length)}: it can be at most that."));
        var ways = Rounding.BothWays(length, shell - drawn);
        asked.Check(ways[0].Count * tucks <= 100_000, "shell", T($"{asked.Show(shell)} would make more than 100 000 shells: take longer ones."));
        asked.Throw();
        var answer = new Answer(asked.Unit)
            .Figure("shells", "Shells in a tuck", ways[0].Count, ways.Count > 1 ? "or one more: see the table" : "")
            .Figure("shellsAll", "Shells in all", ways[0].Count * tucks)
            .Figure("takeUp", "Taken up across", 2 * tucks * width)
            .Figure("drawnIn", "Drawn in by each", strip?.DrawnIn, inUnit: RunAsks.Fine(asked.Unit, strip?.DrawnIn))
            .Figure("depthLost", "Width lost", strip?.DepthLost)
            .Figure("widthDrawn", "Width when drawn", width - strip?.DepthLost)
            .Table("ways", "Whole shells", [new("shells", "Shells"), new("finishedShell", "Each, drawn"), new("markedShell", "Mark each"), new("cut", "Length to cut")],
                ways.Select(w => (IReadOnlyList<object?>)[w.Count, w.Each, strip is null ? null : w.Each + drawn, strip is null ? null : length + (w.Count * drawn)]));
        if (strip is null)
        {
            answer.Caution("no-strip", "Without a strip nobody can say what the shells draw in: sew ten in this cloth and thread first, and cut the real one long.");
        }
        else if (strip.WidthBefore != width)
        {
            answer.Caution("strip-other-width", T($"The strip's tuck was {asked.Show(strip.WidthBefore)}, this is {asked.Show(width)}: sew a strip of that width to be sure."));
        }

        return answer
            .Note("The lines of stitching lie as those of a plain tuck and take up twice its width; drawing the fold in narrows what is seen and shortens the tuck. Common practice.")
            .Note("Two stitches over the fold at each mark, the needle slipped along inside the fold to the next. Common practice.")
            .Drawn(T($"A tuck of {asked.Show(length)} in {ways[0].Count} shells, drawn in at even marks."), Picture(asked, length, width - (strip?.DepthLost ?? Length.Zero), ways[0].Count));
    }

    private static ShellStrip? Strip(Asked asked, Length shell)
    {
        if (asked.Part("strip") is not { } part)
        {
            return null;
        }

        var strip = new ShellStrip(part.Whole("shells"), part.Length("before"), part.Length("after"), part.Length("widthBefore"), part.Length("widthAfter"));
        part.Check(strip.DrawnIn >= Length.Zero, "after", T($"{part.Show(strip.After)} is longer than the {part.Show(strip.Before)} before: shells draw in."));
        part.Check(strip.DepthLost >= Length.Zero, "widthAfter", T($"{part.Show(strip.WidthAfter)} is wider than the {part.Show(strip.WidthBefore)} before: shells lose width."));
        part.Check(strip.DepthLost < asked.Length("width"), "widthAfter", T($"By the strip {part.Show(strip.DepthLost)} of the width is lost: a tuck of {part.Show(asked.Length("width"))} would have none left."));
        part.Check(strip.DrawnIn < shell, "after", T($"By the strip each shell draws in {part.Show(strip.DrawnIn)}: a shell of {part.Show(shell)} would have no length left."));
        asked.Throw();
        return strip;
    }

    private static Panel Picture(Asked asked, Length length, Length drawn, long shells)
    {
        // A long tuck is shown by its first shells only, still to scale.
        var shown = (int)Math.Min(shells, 16);
        var reach = length.Mm() * shown / shells;
        var scale = new Sketch(1).Room / reach;
        var deep = Math.Min(drawn.Mm() * scale, 60);
        scale *= deep / Math.Max(drawn.Mm() * scale, 1e-6);
        var sketch = new Sketch(deep + 30);
        var pitch = reach * scale / shown;
        var end = Sketch.Margin + (shown * pitch);
        sketch.Box(Sketch.Margin, 8, end - Sketch.Margin, deep + 10, Ink.Cloth);
        List<(double, double)> edge = [(end, 12), (Sketch.Margin, 12)];
        for (var i = 0; i < shown; i++)
        {
            for (var k = 0; k <= 10; k++)
            {
                var bow = Math.Sin(Math.PI * k / 10);
                edge.Add((Sketch.Margin + ((i + (k / 10.0)) * pitch), 12 + (deep * (0.55 + (0.45 * bow)))));
            }
        }

        sketch.Area(edge, Ink.Tuck).Path(edge[2..], Ink.FoldFine).Line(Sketch.Margin, 12, end, 12, Ink.Stitching);
        for (var i = 1; i < shown; i++)
        {
            sketch.Line(Sketch.Margin + (i * pitch), 12, Sketch.Margin + (i * pitch), 12 + (deep * 0.55), Ink.Stitching);
        }

        return sketch.Across(Sketch.Margin, end, deep + 24, shown < shells
            ? T($"the first {shown} of {shells} shells") : asked.Show(length)).Panel();
    }
}
