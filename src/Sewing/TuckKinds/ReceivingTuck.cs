using HeirloomArchive.Sewing.Drawing;
using HeirloomArchive.Sewing.Sums;

namespace HeirloomArchive.Sewing.TuckKinds;

/// <summary>A receiving tuck, or hem-tuck: the lower edge of a skirt with a tuck that hangs over the seam of what is set under it. All from the raw edge, on the flat cloth.</summary>
/// <param name="FirstStitch">The stitching line nearer the raw edge: w + seam - under.</param>
/// <param name="Crease">2w + seam - under.</param>
/// <param name="SecondStitch">3w + seam - under.</param>
/// <param name="RawEdgeShows">What is seen of the raw edge below the fold before anything is set under: seam - under; below zero it ends above the fold.</param>
/// <remarks>McGlauflin, Handicraft for Girls (c. 1910): crease at twice the hem and 1/4 in; the ruffle's seam then lies at the fold. With the seam deeper under the tuck, the crease is that much lower: plain geometry.</remarks>
public sealed record ReceivingTuck(Length FirstStitch, Length Crease, Length SecondStitch, Length RawEdgeShows)
{
    /// <summary>A quarter of an inch, McGlauflin's seam.</summary>
    public static Length UsualSeam { get; } = Length.FromSixtyFourthsOfInch(16);

    /// <summary>Where the lines of the tuck fall.</summary>
    /// <param name="width">Of the tuck, above zero.</param>
    /// <param name="seam">With which ruffle or lace is sewn to the raw edge.</param>
    /// <param name="under">How far the seam lies hidden above the fold, 0 to <paramref name="width"/>.</param>
    public static ReceivingTuck Of(Length width, Length seam, Length under) =>
        new(width + seam - under, (2 * width) + seam - under, (3 * width) + seam - under, seam - under);

    /// <summary>The sum with its route and page.</summary>
    internal static Sum Sum { get; } = new()
    {
        Slug = "receiving",
        Shelf = Shelf.Tucks,
        Title = "A hem-tuck with a ruffle or lace under it",
        Lead = "Where to crease a tuck that hides the seam of a ruffle or lace set under it, and how much of that is seen.",
        Asks =
        [
            RunAsks.Width("1 in"),
            Ask.Choice("set", "Set under it", "", ("ruffle", "a ruffle"), ("lace", "lace")),
            Ask.Above("setWidth", "Its width", "3 in", "As it hangs, from its seam to its lower edge."),
            Ask.Plain("seam", "Seam", "1/4 in", "A quarter of an inch when it is left out."),
            Ask.Plain("under", "Seam hidden above the fold by", "1/8 in", "0 when left out: the seam lies at the fold. At most the width of the tuck."),
            Ask.Above("cloth", "Cloth before", "8 in", "Says what is left when the tuck is sewn.").Optional(),
            Ask.Above("allowed", "Allowed for the tuck", "1 in", "Of the length of the skirt, for tuck and seam together.").Optional(),
        ],
        Example = """{"width":"1 in","set":"ruffle","setWidth":"3 in","cloth":"8 in"}""",
        Work = Work,
    };

    private static Answer Work(Asked asked)
    {
        var (width, set, under) = (asked.Length("width"), asked.Length("setWidth"), asked.Length("under"));
        var seam = asked.LengthOrNull("seam") ?? UsualSeam;
        var tuck = Of(width, seam, under);
        asked.Check(under <= width, "under", T($"{asked.Show(under)} is deeper than the tuck: the seam can lie at most {asked.Show(width)} above the fold, at its stitching."));
        asked.Check(under < set, "setWidth", T($"{asked.Show(set)} would be hidden wholly: it must be more than the {asked.Show(under)} under the tuck."));
        asked.Check(asked.LengthOrNull("cloth") is not { } there || there > tuck.SecondStitch, "cloth", T($"{asked.Show(asked.Length("cloth"))} is too little: the upper stitching line lies {asked.Show(tuck.SecondStitch)} from the raw edge. It must be more than that."));
        var need = (2 * width) + seam;
        asked.Check(asked.LengthOrNull("allowed") is not { } allowed || allowed >= need, "allowed", T($"{asked.Show(asked.Length("allowed"))} is too little: the tuck takes {asked.Show(2 * width)} and the seam {asked.Show(seam)}. A tuck of at most {asked.Show(Half(asked.Length("allowed") - seam))} would do."));
        asked.Throw();
        var answer = new Answer(asked.Unit)
            .Figure("crease", "Crease from the raw edge", tuck.Crease)
            .Figure("firstStitch", "Lower line of stitching", tuck.FirstStitch)
            .Figure("secondStitch", "Upper line of stitching", tuck.SecondStitch)
            .Figure("rawEdgeShows", "Raw edge seen below the fold", tuck.RawEdgeShows, tuck.RawEdgeShows < Length.Zero ? "below 0: it ends above the fold" : "")
            .Figure("takeUp", "Taken up", 2 * width)
            .Figure("under", "Seam above the fold by", under)
            .Figure("seen", "Seen below the fold", set - under, asked.Text("set") == "lace" ? "of the lace" : "of the ruffle")
            .Figure("setCut", "Cut what is set under", set + seam, "with its seam, without a hem of its own")
            .Figure("allow", "Allow for tuck and seam", need);
        if (asked.LengthOrNull("cloth") is { } cloth)
        {
            answer.Figure("finished", "Cloth left", cloth - (2 * width), "from the raw edge, tuck sewn");
        }

        if (asked.LengthOrNull("allowed") is { } given)
        {
            answer.Figure("left", "Left of what was allowed", given - need);
        }

        return answer
            .Note("Crease the hem-tuck at twice its width and a quarter of an inch from the bottom; a quarter of an inch of raw edge then shows below the tuck.", "McGlauflin, Handicraft for Girls (c. 1910), exercise 41")
            .Note("A receiving tuck of 3/8 in for a dust ruffle, with 1 in allowed for it.", "Kinne and Cooley, Clothing and Health (c. 1916), lesson 13")
            .Note("Sew ruffle or lace to the raw edge before the tuck is stitched down over the seam, or slip it under and catch it with the tuck's own stitching when the seam is hidden as deep as the tuck. Common practice.")
            .Drawn(T($"From the side: the tuck hangs over the seam, which lies {asked.Show(under)} above the fold; {asked.Show(set - under)} is seen below it. Beside it the flat cloth from the raw edge: stitching, crease and stitching at {asked.Show(tuck.FirstStitch)}, {asked.Show(tuck.Crease)} and {asked.Show(tuck.SecondStitch)}."),
                FlatPicture(asked, tuck, width), SidePicture(asked, width, seam, under, set));
    }

    private static Length Half(Length length) => length > Length.Zero ? Length.FromNanometres(length.Nanometres / 2) : Length.Zero;

    private static Panel FlatPicture(Asked asked, ReceivingTuck tuck, Length width)
    {
        var sketch = new Sketch(46);
        var scale = sketch.ScaleFor(tuck.SecondStitch + width);
        double X(Length at) => Sketch.Margin + (at.Mm() * scale);
        sketch.Text(Sketch.Margin, 5, T("The flat cloth, raw edge on the left"), Ink.Caption, 2.8, Anchor.Start)
            .Box(Sketch.Margin, 9, sketch.Room, 14, Ink.Cloth).Box(X(tuck.FirstStitch), 9, X(tuck.SecondStitch) - X(tuck.FirstStitch), 14, Ink.TakenUp)
            .Line(Sketch.Margin, 9, Sketch.Margin, 23, Ink.CutEdge).Line(X(tuck.Crease), 9, X(tuck.Crease), 23, Ink.Fold);
        var y = 28.0;
        foreach (var at in new[] { tuck.FirstStitch, tuck.Crease, tuck.SecondStitch })
        {
            if (at != tuck.Crease)
            {
                sketch.Line(X(at), 9, X(at), 23, Ink.Stitching);
            }

            sketch.Across(Sketch.Margin, X(at), y, asked.Show(at));
            y += 5.5;
        }

        return sketch.Panel();
    }

    /// <summary>Cut through, hanging: the cloth comes down, folds up and down again round the tuck, and ends in the seam.</summary>
    private static Panel SidePicture(Asked asked, Length width, Length seam, Length under, Length set)
    {
        var (w, s, u, r) = (width.Mm(), seam.Mm(), under.Mm(), set.Mm());
        var gap = Math.Max(w, r / 3) / 3;
        // y grows downwards from the stitching; the fold hangs at w, the seam at w - u.
        (double, double)[] cloth = [(0, -w), (0, 0), (-gap, 0), (-gap, w), (-0.4 * gap, w), (-0.4 * gap, 0.02 * w), (gap, 0.02 * w), (gap, w - u + s)];
        (double, double)[] ruffle = [(1.8 * gap, w - u + s), (1.8 * gap, w - u + (r / 12)), (1.4 * gap, w - u + (r / 2)), (2.2 * gap, w - u + (r * 0.75)), (1.8 * gap, w - u + r)];
        var place = new Scaled([.. cloth, .. ruffle], 30, 9, 60, 60);
        var sketch = new Sketch(76);
        var (fold, seen) = (place.At(0, w), place.At(0, w - u + r));
        return sketch.Text(Sketch.Margin, 5, T("From the side"), Ink.Caption, 2.8, Anchor.Start)
            .Path(place.At(cloth), Ink.Fold).Path(place.At(ruffle), Ink.CutEdge)
            .Line(place.At(-gap, 0).X - 1, place.At(0, 0).Y, place.At(gap, 0).X + 1, place.At(0, 0).Y, Ink.Stitching)
            .Line(place.At(gap, 0).X - 1, place.At(0, w - u).Y, place.At(1.8 * gap, 0).X + 1, place.At(0, w - u).Y, Ink.Stitching)
            .Down(96, place.At(0, 0).Y, fold.Y, T($"tuck {asked.Show(width)}")).Down(130, fold.Y, seen.Y, T($"seen {asked.Show(set - under)}")).Panel();
    }
}
