using System.Numerics;

namespace HeirloomArchive.Sewing.Threads;

/// <summary>
/// How heavy a thread is for its length: tex, grams in 1 000 m, kept as an exact fraction. The conversions between tex, decitex, denier,
/// metric, cotton and linen count follow from definitions alone and are exact; a decimal is rounded once, to twelve places.
/// </summary>
public readonly record struct ThreadSize
{
    /// <summary>Tex × Ne: 453.592 37 g × 1 000 / (840 × 0.9144 m), as a fraction: 590.5412…</summary>
    private static readonly ThreadSize OneHank = new(453_592_370, 768_096);

    /// <summary>Tex × lea: a lea of linen is 300 yd, a pound of it has so many.</summary>
    private static readonly ThreadSize OneLea = new(453_592_370, 274_320);

    private readonly BigInteger over;
    private readonly BigInteger under;

    private ThreadSize(BigInteger over, BigInteger under)
    {
        var shared = BigInteger.GreatestCommonDivisor(over, under);
        (this.over, this.under) = (over / shared, under / shared);
    }

    /// <summary>Grams in 1 000 m.</summary>
    public decimal Tex => Decimal(over, under);

    /// <summary>Grams in 10 000 m.</summary>
    public decimal Dtex => Decimal(10 * over, under);

    /// <summary>Grams in 9 000 m.</summary>
    public decimal Denier => Decimal(9 * over, under);

    /// <summary>Metric count: metres in a gram.</summary>
    public decimal Nm => Decimal(1_000 * under, over);

    /// <summary>English cotton count: hanks of 840 yd in a pound.</summary>
    public decimal Ne => Decimal(OneHank.over * under, OneHank.under * over);

    /// <summary>Linen count: leas of 300 yd in a pound.</summary>
    public decimal Lea => Decimal(OneLea.over * under, OneLea.under * over);

    /// <summary>The exact fraction of tex in lowest terms: <c>6479891/438912</c>.</summary>
    public string Exact => FormattableString.Invariant($"{over}/{under}");

    /// <summary>From tex, above zero.</summary>
    public static ThreadSize FromTex(decimal tex) => Of(tex, 1, 1);

    /// <summary>From decitex, above zero.</summary>
    public static ThreadSize FromDtex(decimal dtex) => Of(dtex, 1, 10);

    /// <summary>From denier, above zero.</summary>
    public static ThreadSize FromDenier(decimal denier) => Of(denier, 1, 9);

    /// <summary>From the metric count of one ply, above zero.</summary>
    public static ThreadSize FromNm(decimal count) => Of(count, 1, 1_000).Inverse();

    /// <summary>From the cotton count of one ply, above zero.</summary>
    public static ThreadSize FromNe(decimal count) => Of(count, OneHank.under, OneHank.over).Inverse();

    /// <summary>From the linen count of one ply, above zero.</summary>
    public static ThreadSize FromLea(decimal count) => Of(count, OneLea.under, OneLea.over).Inverse();

    /// <summary>So many plies laid together; what twisting shortens them by is left out, as on the spool.</summary>
    public ThreadSize Plied(int plies) => new(over * plies, under);

    /// <summary>
    /// About how thick the thread is, taken as round: √(4 tex / (1 000 π × density × packing)) mm. An estimate; floating point inside,
    /// rounded once to the nanometre.
    /// </summary>
    /// <param name="density">Of the fibre, g/cm³.</param>
    /// <param name="packing">Share of the round that is fibre; about 0.6.</param>
    public Length Diameter(double density, double packing) =>
        Length.FromNanometres((long)Math.Round(1e6 * Math.Sqrt(4 * (double)Tex / (1_000 * Math.PI * density * packing))));

    private static ThreadSize Of(decimal number, BigInteger times, BigInteger parts)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(number, 0);
        var (over, under) = Curves.Fraction(number);
        return new(over * times, under * parts);
    }

    private ThreadSize Inverse() => new(under, over);

    private static decimal Decimal(BigInteger over, BigInteger under) =>
        (decimal)Length.Rounded(over * 1_000_000_000_000, under) / 1_000_000_000_000;
}
