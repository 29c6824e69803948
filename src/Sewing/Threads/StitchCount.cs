namespace HeirloomArchive.Sewing.Threads;

/// <summary>How a seam is stitched.</summary>
public enum SeamStitch
{
    /// <summary>Machine, two threads.</summary>
    Lockstitch,

    /// <summary>Machine, one thread.</summary>
    Chainstitch,

    /// <summary>Hand, in and out.</summary>
    Running,

    /// <summary>Hand, each stitch back to the last.</summary>
    Backstitch,

    /// <summary>Hand, over an edge.</summary>
    Whip,
}

/// <summary>Stitches and thread of a length of seam. Factors use floating point inside; lengths are rounded to the nanometre once.</summary>
public static class StitchCount
{
    /// <summary>Stitches in a length, a begun one counted whole.</summary>
    /// <param name="seam">Above zero.</param>
    /// <param name="stitch">From one stitch to the next, above zero.</param>
    public static long Stitches(Length seam, Length stitch) => seam.PartsOf(stitch);

    /// <summary>Stitches in a length by so many to the inch, a begun one counted whole.</summary>
    public static long Stitches(Length seam, decimal perInch) => (long)decimal.Ceiling(seam.Nanometres * perInch / Length.Inch);

    /// <summary>
    /// Thread for each length of seam. Lockstitch 2 + 2TS and chainstitch 3 + 2TS are published for garment making (T thickness, S stitches for the
    /// length); running 1 + 2TS, backstitch 3 + 2TS and whip are plain geometry of the thread's path.
    /// </summary>
    /// <param name="kind">How it is stitched.</param>
    /// <param name="stitch">From one stitch to the next, above zero.</param>
    /// <param name="thickness">Of all layers; zero counts none.</param>
    /// <param name="bite">Of whipping: how far below the edge the needle goes in.</param>
    public static double Factor(SeamStitch kind, Length stitch, Length thickness, Length bite)
    {
        var through = (double)thickness.Nanometres / stitch.Nanometres;
        return kind switch
        {
            SeamStitch.Lockstitch => 2 + (2 * through),
            SeamStitch.Chainstitch => 3 + (2 * through),
            SeamStitch.Running => 1 + (2 * through),
            SeamStitch.Backstitch => 3 + (2 * through),
            // Two legs slant between the holes and the edge, half a stitch along each; the thread crosses the layers in the hole and again over the edge.
            _ => Math.Sqrt(1 + (4.0 * bite.Nanometres / stitch.Nanometres * bite.Nanometres / stitch.Nanometres)) + (2 * through),
        };
    }

    /// <summary>What serves where the thickness of the layers is not known.</summary>
    public static double UsualFactor(SeamStitch kind, Length stitch, Length bite) => kind switch
    {
        SeamStitch.Lockstitch => 2.5,
        SeamStitch.Chainstitch => 4,
        SeamStitch.Running => 1.1,
        _ => Factor(kind, stitch, Length.Zero, bite),
    };

    /// <summary>Needlefuls for so much thread, the last one begun counted whole.</summary>
    /// <param name="thread">In the stitches.</param>
    /// <param name="needleful">As cut.</param>
    /// <param name="ends">Lost of each for fastening on and off, below the needleful.</param>
    public static long Needlefuls(Length thread, Length needleful, Length ends) => thread.PartsOf(needleful - ends);
}
