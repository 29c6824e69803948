using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>Growth tucks: sewn in to be let out as a child grows. One of width w lengthens by 2w.</summary>
/// <remarks>Purpose: McGlauflin, Handicraft for Girls (c. 1910), exercise 39; the gain is plain geometry.</remarks>
public static class GrowthTucks
{
    /// <summary>What one tuck gives when it is let out: twice its width, exact.</summary>
    /// <param name="width">Fold to stitching line, above zero.</param>
    public static Length Gain(Length width) => 2 * width;

    /// <summary>What the first tucks give when they are let out, from none to all: one more than there are tucks.</summary>
    /// <param name="widths">In the order they are let out.</param>
    public static IReadOnlyList<Length> Gains(IReadOnlyList<Length> widths)
    {
        List<Length> gains = [Length.Zero];
        foreach (var width in widths)
        {
            gains.Add(gains[^1] + Gain(width));
        }

        return gains;
    }

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "growth",
        Shelf = Shelf.Tucks,
        Title = "Growth tucks let out",
        Lead = "How much longer a skirt or sleeve becomes as its growth tucks are let out, one after the other.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks", 1, 50, "3").Optional(),
            Ask.Above("width", "Width of a tuck", "1/2 in", "From the fold to the stitching.").Optional(),
            Ask.Lengths("widths", "Or each width of its own", 1, 50, "1 in; 3/4 in; 1/2 in", "In the order you would let them out; instead of tucks and width.").Optional(),
            Ask.Whole("letOut", "Tucks to let out", 0, 50, "2", "All of them when it is left out.").Optional(),
            Ask.Plain("length", "Length now", "18 in", "With all tucks sewn."),
            Ask.Above("wanted", "Length wanted", "20 in", "Says how many to let out for it.").Optional(),
        ],
        Example = """{"tucks":3,"width":"1/2 in","length":"18 in","letOut":2}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var widths = Widths(asked);
        var gains = Gains(widths);
        var letOut = asked.Whole("letOut", widths.Count);
        asked.Check(letOut <= widths.Count, "letOut", T($"{letOut} tucks can't be let out of {widths.Count}: at most {widths.Count}."));
        asked.Throw();
        var length = asked.LengthOrNull("length");
        var answer = new Answer(asked.Unit)
            .Figure("gainEach", "Each tuck gives", widths.Distinct().Count() == 1 ? Gain(widths[0]) : null, widths.Distinct().Count() == 1 ? "" : "they differ: see the table")
            .Figure("gainAll", "All together", gains[^1])
            .Figure("gainLetOut", N(letOut, $"{letOut} let out gives", $"{letOut} let out give"), gains[letOut])
            .Figure("lengthLetOut", "Length then", length + gains[letOut])
            .Table("letOut", "One after the other", [new("tucks", "Tucks let out"), new("gain", "Longer by"), new("length", "Length then")],
                gains.Select((gain, n) => (IReadOnlyList<object?>)[n, gain, length + gain]));
        Wanted(asked, answer, gains);
        return answer
            .Note("Tucks are put in so that the garment can be made longer as the child grows.", "McGlauflin, Handicraft for Girls (c. 1910), exercise 39")
            .Note("A tuck lies on three layers of cloth; let out, the two it took up come back.")
            .Note("An old fold line may stay to be seen, and old stitching may have cut weak threads: look before you let out a tuck of an antique, and ask a textile conservator.")
            .Drawn(N(
                widths.Count,
                $"{widths.Count} tuck on the flat cloth; let out it adds {asked.Show(gains[^1])}.",
                $"{widths.Count} tucks on the flat cloth, those to be let out first; all let out add {asked.Show(gains[^1])}."), Picture(asked, widths));
    }

    private static IReadOnlyList<Length> Widths(Asked asked)
    {
        if (!asked.Has("widths"))
        {
            asked.Check(asked.Has("tucks"), "tucks", "How many tucks? Give tucks and width, or widths.");
            asked.Check(asked.Has("width"), "width", "How wide is a tuck? Give tucks and width, or widths.");
            asked.Throw();
            return [.. Enumerable.Repeat(asked.Length("width"), asked.Whole("tucks"))];
        }

        var widths = asked.Lengths("widths");
        asked.Check(!asked.Has("width"), "width", T($"{asked.Show(asked.Length("width"))} stands beside widths of their own: give one or the other."));
        asked.Check(asked.Whole("tucks", widths.Count) == widths.Count, "tucks",
            T($"{asked.Whole("tucks")} tucks and {widths.Count} widths do not agree: leave tucks out."));
        asked.Throw();
        return widths;
    }

    private static void Wanted(Asked asked, Answer answer, IReadOnlyList<Length> gains)
    {
        if (asked.LengthOrNull("wanted") is not { } wanted)
        {
            return;
        }

        asked.Check(asked.Has("length"), "length", "How long is it now? The length wanted is reckoned from it.");
        asked.Throw();
        var missing = wanted - asked.Length("length");
        asked.Check(missing <= gains[^1], "wanted", T($"{asked.Show(wanted)} can't be reached: with all tucks let out it is {asked.Show(asked.Length("length") + gains[^1])}."));
        asked.Throw();
        var needed = gains.TakeWhile(g => g < missing).Count();
        answer.Figure("tucksForWanted", T($"Let out for {asked.Show(wanted)}"), needed)
            .Figure("over", "Too long by", gains[needed] - (missing < Length.Zero ? Length.Zero : missing), missing < Length.Zero ? "it is long enough now" : "");
    }

    private static Panel Picture(Asked asked, IReadOnlyList<Length> widths)
    {
        var sketch = new Sketch(34);
        var all = widths.Aggregate(Length.Zero, (sum, w) => sum + (4 * w));
        var scale = sketch.ScaleFor(all);
        var x = Sketch.Margin;
        double last = -100;
        foreach (var width in widths)
        {
            var wide = width.Mm() * scale;
            sketch.Box(x, 12, 4 * wide, 14, Ink.Cloth).Box(x + wide, 12, 2 * wide, 14, Ink.TakenUp)
                .Line(x + wide, 12, x + wide, 26, Ink.Stitching).Line(x + (2 * wide), 12, x + (2 * wide), 26, Ink.Fold).Line(x + (3 * wide), 12, x + (3 * wide), 26, Ink.Stitching);
            if (x + (2 * wide) - last > 14)
            {
                sketch.Across(x + wide, x + (3 * wide), 9, asked.Show(Gain(width)));
                last = x + (2 * wide);
            }

            x += 4 * wide;
        }

        return sketch.Panel();
    }
}
