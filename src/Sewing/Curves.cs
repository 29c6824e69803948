namespace HeirloomArchive.Sewing;

/// <summary>Lengths by factors that are no whole numbers: arcs, mitres, ratios. Floating point inside, rounded once to the nanometre (halves to even).</summary>
internal static class Curves
{
    /// <summary>The length so many times.</summary>
    public static Length Times(this Length length, double factor) =>
        Length.FromNanometres(checked((long)Math.Round(length.Nanometres * factor, MidpointRounding.ToEven)));

    /// <summary>The length so many times; a factor written in decimals is kept exactly.</summary>
    public static Length Times(this Length length, decimal factor) => Length.FromMillimetres(length.Millimetres * factor);

    /// <summary>The length times one length over another, in whole numbers.</summary>
    public static Length Times(this Length length, Length over, Length under) =>
        Length.FromNanometres((long)Length.Rounded((System.Numerics.BigInteger)length.Nanometres * over.Nanometres, under.Nanometres));

    /// <summary>Along a circle, through so many degrees.</summary>
    public static Length Arc(Length radius, decimal degrees) => radius.Times(Radians(degrees));

    /// <summary>Degrees as radians.</summary>
    public static double Radians(decimal degrees) => (double)degrees * Math.PI / 180;

    /// <summary>How many times one length is another, to four places.</summary>
    public static decimal Over(this Length length, Length other) => decimal.Round((decimal)length.Nanometres / other.Nanometres, 4);

    /// <summary>How many times one length holds another, the last part counted whole.</summary>
    public static long PartsOf(this Length length, Length part) => (length.Nanometres + part.Nanometres - 1) / part.Nanometres;

    /// <summary>In millimetres, for a drawing.</summary>
    public static double Mm(this Length length) => (double)length.Millimetres;
}
