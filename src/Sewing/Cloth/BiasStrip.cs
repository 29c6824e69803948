using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>Strips on the true bias, at 45 degrees to the selvage. Square roots in floating point, each length rounded once to the nanometre.</summary>
/// <param name="Width">Of the strip as cut, straight across it.</param>
/// <param name="Length">Wanted, joined.</param>
public sealed record BiasStrip(Length Width, Length Length)
{
    private const int MostStrips = 5_000;
    private static readonly double Root = Math.Sqrt(2);

    /// <summary>The strip of a doubled band: twice its depth and half an inch.</summary>
    /// <param name="depth">Of the band when sewn.</param>
    /// <remarks>Baldt, Clothing for Women (1916).</remarks>
    public static Length ForBand(Length depth) => (2 * depth) + Sewing.Length.FromSixtyFourthsOfInch(32);

    /// <summary>What the width takes along the selvage.</summary>
    public Length AlongSelvage => Width.Times(Root);

    /// <summary>Side of the square whose whole area makes the strip, no seam lost.</summary>
    public Length SquareSide => Sewing.Length.FromNanometres((long)Math.Round(Math.Sqrt(Width.Nanometres * (double)Length.Nanometres)));

    /// <summary>The strip that a square gives, no seam lost.</summary>
    /// <param name="side">Of the square.</param>
    public Length FromSquare(Length side) => side.Times(side, Width);

    /// <summary>Strips right across a cloth, joined at their slanting ends.</summary>
    /// <param name="across">Between the selvages.</param>
    /// <param name="seam">What a join takes from each end, more than zero left of the strip.</param>
    public long StripsAcross(Length across, Length seam) =>
        Math.Max(1, (long)Math.Ceiling(((Length.Nanometres / Root) - (2 * seam.Nanometres)) / (across - (2 * seam)).Nanometres));

    /// <summary>Cloth along the selvage for so many strips, the slanting ends in it.</summary>
    public Length ClothFor(long strips, Length across) => across + Width.Times(strips * Root);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "bias-strip",
        Shelf = Shelf.Cloth,
        Title = "Bias strips and bands",
        Lead = "How wide to cut a strip on the bias, how much cloth it takes, and how far a square of cloth goes.",
        Asks =
        [
            Ask.Choice("kind", "What it is for", "A doubled band is cut twice its depth and 1/2 in.", ("strip", "a strip of the width I give"), ("band", "a doubled band of the depth I give")).Optional(),
            Ask.Above("width", "Width of the strip, or depth of the band", "1 1/4 in", "Straight across it.") with { Least = Sewing.Length.FromSixtyFourthsOfInch(1) },
            Ask.Above("length", "Length wanted", "100 in"),
            Ask.Above("square", "A square of cloth you have", "20 in", "Its side.").Optional() with { Most = Sewing.Length.FromMillimetres(100_000) },
            Ask.Above("loom", "Or cloth, between selvages", "36 in", "For strips cut right across it.").Optional(),
            Ask.Plain("seam", "A join takes from each end", "1/4 in"),
        ],
        Example = """{"width":"1 1/4 in","length":"100 in","square":"12 in","loom":"36 in","seam":"1/4 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var band = asked.Text("kind") == "band";
        var strip = new BiasStrip(band ? ForBand(asked.Length("width")) : asked.Length("width"), asked.Length("length"));
        var (square, loom, seam) = (asked.LengthOrNull("square"), asked.LengthOrNull("loom"), asked.Length("seam"));
        asked.Check(square is null || strip.AlongSelvage <= square, "square", T($"A square of {asked.Show(square ?? default)} has no whole strip: a strip of {asked.Show(strip.Width)} takes {asked.Show(strip.AlongSelvage)} along its side."));
        asked.Check(loom is null || loom > 2 * seam, "loom", T($"{asked.Show(loom ?? default)} is used up by the joins: it must be more than {asked.Show(2 * seam)}."));
        asked.Throw();
        var step = asked.Unit == LengthUnit.Inches ? Sewing.Length.FromSixtyFourthsOfInch(64) : Sewing.Length.FromMillimetres(10);
        var whole = strip.SquareSide.PartsOf(step) * step;
        var answer = new Answer(asked.Unit)
            .Figure("cutWidth", "Cut the strip wide", strip.Width, band ? "twice the depth and 1/2 in for turnings" : "turnings only as you gave them")
            .Figure("alongSelvage", "It takes along the selvage", strip.AlongSelvage)
            .Figure("squareSide", "Side of a square that just makes it", strip.SquareSide, "every thread of it, no seam lost")
            .Figure("squareToCut", asked.Unit == LengthUnit.Inches ? "Square to cut, in whole inches" : "Square to cut, in whole centimetres", whole, "rounded up; with many joins take more");
        if (square is { } side)
        {
            answer.Figure("fromSquare", T($"A square of {asked.Show(side)} gives at most"), strip.FromSquare(side), "no seam lost");
        }

        if (loom is { } across)
        {
            var strips = strip.StripsAcross(across, seam);
            asked.Check(strips <= MostStrips, "loom", T($"{asked.Show(across)} of cloth would take more than {MostStrips} strips: give a wider cloth."));
            asked.Throw();
            answer.Figure("strips", "Strips right across the cloth", strips).Figure("joins", "Joins", strips - 1)
                .Figure("cloth", "Cloth along the selvage", strip.ClothFor(strips, across), "the slanting ends and the seams of the joins in it");
        }

        return answer
            .Note("A doubled bias band is cut twice its depth and 1/2 in.", "Baldt, Clothing for Women (1916)")
            .Note("True bias lies at 45 degrees: what the strip takes along the selvage is its width times the root of 2. The area of the cloth over the width of the strip gives its length: plain geometry.")
            .Note("A bias strip stretches: cut with the cloth flat, join along the thread of the cloth, and never pull it on.")
            .Drawn(T($"A square of {asked.Show(square ?? whole)} marked in strips at 45 degrees, {asked.Show(strip.AlongSelvage)} apart along its side."), strip.Picture(asked, square ?? whole));
    }

    private Panel Picture(Asked asked, Length side)
    {
        const int MostLines = 120;
        var (s, step) = (side.Mm(), AlongSelvage.Mm());
        (double X, double Y)[] outline = [(0, 0), (s, 0), (s, s), (0, s)];
        var sketch = new Sketch(112);
        var to = new Scaled(outline, 30, 14, 100, 84);
        sketch.Area(to.At(outline), Ink.Cloth);
        for (var (i, at) = (1, step); at < 2 * s && i <= MostLines; i++, at = i * step)
        {
            var (from, end) = (to.At(Math.Max(0, at - s), Math.Min(at, s)), to.At(Math.Min(at, s), Math.Max(0, at - s)));
            sketch.Line(from.X, from.Y, end.X, end.Y, Ink.CutEdge);
        }

        return sketch.Across(to.At(0, 0).X, to.At(s, 0).X, 11, asked.Show(side)).Text(90, 106, T("the sides lie along the threads of the cloth"), Ink.Caption).Panel();
    }
}
