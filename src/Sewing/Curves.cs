using System.Numerics;

namespace HeirloomArchive.Sewing;

/// <summary>Lengths by factors that are no whole numbers: arcs and mitres with floating point inside, ratios exactly. Rounded once to the nanometre (halves to even).</summary>
internal static class Curves
{
    /// <summary>The length so many times.</summary>
    public static Length Times(this Length length, double factor) =>
        Length.FromNanometres(checked((long)Math.Round(length.Nanometres * factor, MidpointRounding.ToEven)));

    /// <summary>The length so many times; a factor written in decimals is kept exactly.</summary>
    public static Length Times(this Length length, decimal factor) => Length.FromNanometres(decimal.ToInt64(decimal.Round(length.Nanometres * factor)));

    /// <summary>A part of the length; a divisor written in decimals is kept exactly.</summary>
    public static Length DividedBy(this Length length, decimal by) => Length.FromNanometres(decimal.ToInt64(decimal.Round(length.Nanometres / by)));

    /// <summary>The length times one length over another, in whole numbers.</summary>
    public static Length Times(this Length length, Length over, Length under) =>
        Length.FromNanometres((long)Length.Rounded((BigInteger)length.Nanometres * over.Nanometres, under.Nanometres));

    /// <summary>Along a circle, through so many degrees.</summary>
    public static Length Arc(Length radius, decimal degrees) => radius.Times(Radians(degrees));

    /// <summary>Degrees as radians.</summary>
    public static double Radians(decimal degrees) => (double)degrees * Math.PI / 180;

    /// <summary>How many times one length is another, to four places.</summary>
    public static decimal Over(this Length length, Length other) => decimal.Round((decimal)length.Nanometres / other.Nanometres, 4);

    /// <summary>How many times one length holds another, a begun part counted whole.</summary>
    public static long PartsOf(this Length length, Length part) => (length.Nanometres + part.Nanometres - 1) / part.Nanometres;

    /// <summary>A number written in decimals as an exact fraction, not shortened.</summary>
    public static (BigInteger Over, BigInteger Under) Fraction(decimal number)
    {
        var under = BigInteger.Pow(10, number.Scale);
        return ((BigInteger)(number * (decimal)under), under);
    }

    /// <summary>In millimetres, for drawings and statistics.</summary>
    public static double Mm(this Length length) => (double)length.Millimetres;
}
