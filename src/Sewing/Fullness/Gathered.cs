using System.Globalization;
using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Fullness;

/// <summary>A flat length drawn up to a shorter one: fullness = flat / finished.</summary>
/// <param name="Finished">As drawn up, above zero.</param>
/// <param name="Flat">Before it is drawn up, not shorter.</param>
/// <param name="Fullness">As given, or flat / finished to 28 places.</param>
public sealed record Gathered(Length Finished, Length Flat, decimal Fullness)
{
    /// <summary>What is drawn in: flat less finished, exact.</summary>
    public Length Extra => Flat - Finished;

    /// <summary>From both lengths.</summary>
    public static Gathered OfLengths(Length finished, Length flat) => new(finished, flat, (decimal)flat.Nanometres / finished.Nanometres);

    /// <summary>From the finished length; the flat is rounded once to the nanometre.</summary>
    public static Gathered OfFinished(Length finished, decimal fullness) => new(finished, finished.Times(fullness), fullness);

    /// <summary>From the flat length; the finished is rounded once to the nanometre.</summary>
    public static Gathered OfFlat(Length flat, decimal fullness) => new(flat.DividedBy(fullness), flat, fullness);

    /// <summary>Half and quarter marks, from the start: at 1/4, 1/2 and 3/4 of an edge, each rounded once.</summary>
    public static IReadOnlyList<Length> Quarters(Length edge) => [edge.DividedBy(4), edge.DividedBy(2), (3 * edge).DividedBy(4)];

    internal static IReadOnlyList<Ask> Asks { get; } =
    [
        Ask.Above("finished", "Finished edge", "60 in", "What it is set to.").Optional(),
        Ask.Above("flat", "Flat length", "90 in", "Before it is drawn up.").Optional(),
        Ask.Number("fullness", "Fullness", 1, 20, "1 1/2", "Flat length for each finished length: 1 1/2, or 1.5. Any two of these three give the third.").Optional(),
    ];

    /// <summary>Any two of finished, flat and fullness give the third; with one length alone the usual fullness serves.</summary>
    internal static Gathered Read(Asked asked, decimal usual)
    {
        var (finished, flat) = (asked.LengthOrNull("finished"), asked.LengthOrNull("flat"));
        var fullness = asked.Number("fullness", usual);
        asked.Check(finished is not null || flat is not null, "finished", "Give the finished edge or the flat length: with neither there is nothing to work from.");
        asked.Throw();
        if (finished is { } edge && flat is { } cloth)
        {
            var both = OfLengths(edge, cloth);
            asked.Check(cloth >= edge, "flat", T($"{asked.Show(cloth)} can't be drawn up to {asked.Show(edge)}: the flat length must be at least as long."));
            asked.Check(!asked.Has("fullness") || Math.Abs((edge.Times(fullness) - cloth).Nanometres) <= 1, "fullness",
                T($"{asked.Show(cloth)} on {asked.Show(edge)} is a fullness of {both.Fullness.ToString("0.####", CultureInfo.InvariantCulture)}, not {fullness.ToString("0.####", CultureInfo.InvariantCulture)}: leave one of the three out."));
            asked.Throw();
            return both;
        }

        asked.Check(finished is null || finished.Value.Nanometres * fullness <= Length.Longest.Nanometres, "fullness",
            T($"{fullness.ToString("0.####", CultureInfo.InvariantCulture)} times {asked.Show(finished ?? default)} is more than 1 km of cloth."));
        asked.Throw();
        return finished is { } of ? OfFinished(of, fullness) : OfFlat(flat!.Value, fullness);
    }

    /// <summary>The figures of all gathered work, with quarter marks on both edges.</summary>
    internal void Add(Answer answer)
    {
        answer.Figure("flat", "Flat length", Flat, "before it is drawn up")
            .Figure("finished", "Finished edge", Finished)
            .Figure("fullness", "Fullness", Fullness, "flat ÷ finished")
            .Figure("extra", "Drawn in", Extra, T($"{(100 * Extra.Nanometres / (decimal)Flat.Nanometres).ToString("0.#", CultureInfo.InvariantCulture)} % of the flat length"))
            .Table("quarterMarks", "Mark both edges before drawing up", [new("mark", "Mark"), new("flat", "On the flat piece"), new("finished", "On the edge it is set to")],
                Quarters(Flat).Zip(Quarters(Finished), (a, b) => (a, b)).Select((m, i) => (IReadOnlyList<object?>)[i == 1 ? T("half") : i == 0 ? T("first quarter") : T("third quarter"), m.a, m.b]))
            .Note("Both edges are marked in halves and quarters before the gathers are drawn up, and matched mark to mark.", "Given by all the handbooks read, among them McGlauflin, Handicraft for Girls (c. 1910)");
    }

    /// <summary>The flat piece above, the drawn-up one below, at one scale, with quarter marks.</summary>
    internal Panel Picture(Asked asked, int strips)
    {
        var sketch = new Sketch(62);
        var scale = sketch.ScaleFor(Flat);
        Strip(sketch, Flat, 12, scale, T($"flat {asked.Show(Flat)}"));
        for (var i = 1; i < Math.Min(strips, 60); i++)
        {
            var x = Sketch.Margin + (sketch.Room * i / strips);
            sketch.Line(x, 12, x, 26, Ink.CutEdge);
        }

        Strip(sketch, Finished, 42, scale, T($"finished {asked.Show(Finished)}"));
        var width = Finished.Mm() * scale;
        var folds = Math.Max(2, (int)(width / 2));
        for (var i = 0; i < folds; i++)
        {
            var x = Sketch.Margin + (width * (i + 0.5) / folds);
            sketch.Line(x, 43, x, 54, Ink.FoldFine);
        }

        return sketch.Panel();
    }

    private static void Strip(Sketch sketch, Length edge, double y, double scale, string caption)
    {
        var width = edge.Mm() * scale;
        sketch.Box(Sketch.Margin, y, width, 14, Ink.Cloth).Across(Sketch.Margin, Sketch.Margin + width, y - 3, caption)
            .Line(Sketch.Margin, y + 1.5, Sketch.Margin + width, y + 1.5, Ink.Stitching);
        for (var quarter = 1; quarter < 4; quarter++)
        {
            var x = Sketch.Margin + (width * quarter / 4);
            sketch.Line(x, y, x, y + 4, Ink.Datum);
            sketch.Text(x, y + 17.5, quarter == 2 ? "1/2" : $"{quarter}/4", Ink.Number, 2.4);
        }
    }
}
