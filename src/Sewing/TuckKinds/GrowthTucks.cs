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

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "growth",
        Shelf = Shelf.Tucks,
        Title = "Growth tucks let out",
        Lead = "How much longer a skirt or sleeve becomes as its growth tucks are let out, one after the other.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks", 1, 50, "3"),
            Ask.Above("width", "Width of a tuck", "1/2 in", "From the fold to the stitching."),
            Ask.Plain("length", "Length now", "18 in", "With all tucks sewn."),
        ],
        Example = """{"tucks":3,"width":"1/2 in","length":"18 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (tucks, width, length) = (asked.Whole("tucks"), asked.Length("width"), asked.LengthOrNull("length"));
        var answer = new Answer(asked.Unit)
            .Figure("gainEach", "Each tuck gives", Gain(width))
            .Figure("gainAll", "All together", tucks * Gain(width))
            .Table("letOut", "One after the other", [new("tucks", "Tucks let out"), new("gain", "Longer by"), new("length", "Length then")],
                Enumerable.Range(0, tucks + 1).Select(n => (IReadOnlyList<object?>)[n, n * Gain(width), length + (n * Gain(width))]))
            .Note("A tuck lies on three layers of cloth; let out, the two it took up come back.")
            .Note("An old fold line may stay to be seen, and old stitching may have cut weak threads: look before you let out a tuck of an antique, and ask a textile conservator.");
        return answer.Drawn($"{tucks} tucks; each let out adds {asked.Show(Gain(width))}.", Picture(asked, tucks, width));
    }

    private static Panel Picture(Asked asked, int tucks, Length width)
    {
        var sketch = new Sketch(34);
        var scale = sketch.ScaleFor(tucks * 4 * width);
        var wide = (double)width.Millimetres * scale;
        for (var i = 0; i < tucks; i++)
        {
            var x = Sketch.Margin + (i * 4 * wide);
            sketch.Box(x, 12, 4 * wide, 14, Ink.Cloth).Box(x + wide, 12, 2 * wide, 14, Ink.TakenUp)
                .Line(x + wide, 12, x + wide, 26, Ink.Stitching).Line(x + (2 * wide), 12, x + (2 * wide), 26, Ink.Fold).Line(x + (3 * wide), 12, x + (3 * wide), 26, Ink.Stitching);
            sketch.Across(x + wide, x + (3 * wide), 9, asked.Show(Gain(width)));
        }

        return sketch.Panel();
    }
}
