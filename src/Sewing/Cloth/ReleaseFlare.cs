using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.Cloth;

/// <summary>Release tucks let into a panel: stitched part of the way, the cloth they hold set free below. Plain geometry, exact.</summary>
/// <param name="Tucks">1 or more.</param>
/// <param name="Width">Of a tuck, fold to stitching, above zero.</param>
/// <param name="Finished">The panel across its tucks, sewn.</param>
/// <param name="Panel">The panel's length from top to bottom.</param>
/// <param name="Stitched">How far down each tuck is stitched.</param>
public sealed record ReleaseFlare(int Tucks, Length Width, Length Finished, Length Panel, Length Stitched)
{
    /// <summary>What the tucks set free below: twice the width of each.</summary>
    public Length Gained => 2 * Tucks * Width;

    /// <summary>The flat cloth across: the width above and what is set free.</summary>
    public Length Below => Finished + Gained;

    /// <summary>The width below over the width above, to four places.</summary>
    public decimal Ratio => Below.Over(Finished);

    /// <summary>How far the cloth hangs free.</summary>
    public Length Free => Panel - Stitched;

    /// <summary>The plain cloth between tucks when they are spread evenly, half of it at each side; below zero they overlap. Rounded to the nanometre.</summary>
    public Length Space => (Finished - (Tucks * Width)).DividedBy(Tucks);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "release-flare",
        Shelf = Shelf.Cloth,
        Title = "Release tucks let into a panel",
        Lead = "Tucks stitched part of the way down: how much width they set free below, and how full the panel falls.",
        Asks =
        [
            Ask.Whole("tucks", "Tucks", 1, 200, "6"),
            Ask.Above("width", "Width of a tuck", "1/4 in", "From the fold to the stitching."),
            Ask.Above("finished", "Panel across, sewn", "10 in", "Over the tucks, where they are stitched."),
            Ask.Above("panel", "Panel from top to bottom", "24 in"),
            Ask.Above("stitched", "Stitched for", "6 in", "From the top down to where the tucks are let go."),
        ],
        Example = """{"tucks":6,"width":"1/4 in","finished":"10 in","panel":"24 in","stitched":"6 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var flare = new ReleaseFlare(asked.Whole("tucks"), asked.Length("width"), asked.Length("finished"), asked.Length("panel"), asked.Length("stitched"));
        asked.Check(flare.Stitched < flare.Panel, "stitched",
            T($"{asked.Show(flare.Stitched)} of stitching leaves nothing free on a panel of {asked.Show(flare.Panel)}: stitch less than that, or take plain tucks."));
        asked.Check(flare.Space >= Length.Zero, "width",
            N(
                flare.Tucks,
                $"{flare.Tucks} tuck of {asked.Show(flare.Width)} lies on {asked.Show(flare.Tucks * flare.Width)}; on {asked.Show(flare.Finished)} a tuck can be at most {asked.Show(flare.Finished.DividedBy(flare.Tucks))} wide.",
                $"{flare.Tucks} tucks of {asked.Show(flare.Width)} lie on {asked.Show(flare.Tucks * flare.Width)}; on {asked.Show(flare.Finished)} a tuck can be at most {asked.Show(flare.Finished.DividedBy(flare.Tucks))} wide."));
        asked.Throw();
        return new Answer(asked.Unit)
            .Figure("gained", "Width set free below", flare.Gained, "twice the width of each tuck")
            .Figure("below", "Panel across, below", flare.Below)
            .Figure("cloth", "Cloth to cut across", flare.Below, "seams beside it are not in it")
            .Figure("ratio", "Below over above", flare.Ratio)
            .Figure("free", "Hangs free for", flare.Free)
            .Figure("space", "Plain cloth between tucks", flare.Space, "spread evenly, half of it at each side")
            .Note("A tuck sewn part of the way takes twice its width above, and gives it back below: plain geometry.")
            .Note("Fasten off each tuck well where it is let go: that end takes the strain, and it is where old ones tear. To strengthen one on an antique, ask a textile conservator first.")
            .Drawn(T($"{asked.Show(flare.Finished)} across where the tucks are stitched, {asked.Show(flare.Below)} below."), flare.Picture(asked));
    }

    private Panel Picture(Asked asked)
    {
        var (above, below, stitched, panel) = (Finished.Mm(), Below.Mm(), Stitched.Mm(), Panel.Mm());
        (double X, double Y)[] outline = [(-above / 2, 0), (above / 2, 0), (above / 2, stitched), (below / 2, panel), (-below / 2, panel), (-above / 2, stitched)];
        var sketch = new Sketch(120);
        var to = new Scaled(outline, 24, 16, 120, 86);
        sketch.Area(to.At(outline), Ink.Cloth);
        for (var i = 0; i < Tucks; i++)
        {
            var x = (-above / 2) + (((i + 0.5) * above) / Tucks) - (Width.Mm() / 2);
            var ((left, top), (right, end)) = (to.At(x, 0), to.At(x + Width.Mm(), stitched));
            sketch.Box(left, top, right - left, end - top, Ink.Tuck).Line(left, top, left, end, Ink.Stitching).Line(right, top, right, end, Ink.Fold);
            var foot = to.At(((i + 0.5) / Tucks * below) - (below / 2), panel);
            sketch.Line(right, end, foot.X, foot.Y, Ink.FoldFine);
        }

        sketch.Across(to.At(-above / 2, 0).X, to.At(above / 2, 0).X, 12, asked.Show(Finished));
        sketch.Across(to.At(-below / 2, 0).X, to.At(below / 2, 0).X, 112, asked.Show(Below));
        return sketch.Down(150, to.At(0, 0).Y, to.At(0, stitched).Y, asked.Show(Stitched)).Panel();
    }
}
