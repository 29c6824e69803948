using System.Numerics;

namespace HeirloomArchive.Sewing;

/// <summary>
/// A length on cloth in whole nanometres, so that inch fractions (1/64 in = 396 875 nm) and millimetres add without rounding.
/// What is read lies between -1 km and 1 km; below zero it is taken only where a rule says so (an overlap).
/// </summary>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>Nanometres in an inch: 25.4 mm exactly.</summary>
    internal const long Inch = 25_400_000;

    private const long SixtyFourth = Inch / 64;

    private Length(long nanometres) => Nanometres = nanometres;

    /// <summary>The exact value, in nanometres.</summary>
    public long Nanometres { get; }

    /// <summary>The exact value in millimetres, to six places and without trailing zeros.</summary>
    public decimal Millimetres => Nanometres / 1_000_000m;

    /// <summary>No length at all.</summary>
    public static Length Zero => default;

    /// <summary>The longest that is read or planned: 1 km.</summary>
    public static Length Longest => new(1_000_000_000_000);

    /// <summary>A length of so many nanometres; any value.</summary>
    public static Length FromNanometres(long nanometres) => new(nanometres);

    /// <summary>A length of so many millimetres, rounded once to the nanometre (halves to even).</summary>
    /// <exception cref="OverflowException">Beyond what 64 bits of nanometres hold (some 9 million km).</exception>
    public static Length FromMillimetres(decimal millimetres) =>
        new(decimal.ToInt64(decimal.Round(millimetres * 1_000_000m)));

    /// <summary>A length of so many sixty-fourths of an inch, exact.</summary>
    /// <exception cref="OverflowException">Beyond what 64 bits of nanometres hold.</exception>
    public static Length FromSixtyFourthsOfInch(long count) => new(checked(count * SixtyFourth));

    /// <summary>Reads what a person types: <c>3/8 in</c>, <c>1½"</c>, <c>1 yd 4 1/2 in</c>, <c>2 nails</c>, <c>12,5 cm</c>, <c>-1/16 in</c>.</summary>
    /// <param name="text">A number and its unit, or several from the larger unit to the smaller; at most 60 characters.</param>
    /// <param name="length">Rounded once to the nanometre; zero when it can't be read.</param>
    /// <param name="problem">What is wrong and what would be right, a sentence; empty when it was read.</param>
    /// <returns>True when it reads and lies between -1 km and 1 km.</returns>
    public static bool TryParse(string text, out Length length, out string problem)
    {
        var reading = LengthText.Read(text);
        length = reading.Problem is null ? reading.Length : Zero;
        problem = reading.Problem ?? "";
        return reading.Problem is null;
    }

    /// <summary>The unit she thinks in, from what she typed: millimetres for mm, cm and m; inches for all else.</summary>
    public static LengthUnit UnitOf(string typed) => LengthText.Read(typed).Unit;

    /// <summary>
    /// A computed length in words: <c>1 3/8 in</c> to 1/64, or <c>9.525 mm</c> to 3 places, where that is exact; else the nearest with
    /// <c>≈ </c> before it. Below zero with a hyphen.
    /// </summary>
    public string ToText(LengthUnit unit) => LengthText.Write(Nanometres, unit);

    /// <summary>The same as <see cref="ToText"/> in millimetres.</summary>
    public override string ToString() => ToText(LengthUnit.Millimetres);

    /// <inheritdoc />
    public int CompareTo(Length other) => Nanometres.CompareTo(other.Nanometres);

    /// <summary>Both lengths one after the other.</summary>
    public static Length operator +(Length a, Length b) => new(checked(a.Nanometres + b.Nanometres));

    /// <summary>What is left of the first without the second; may be below zero.</summary>
    public static Length operator -(Length a, Length b) => new(checked(a.Nanometres - b.Nanometres));

    /// <summary>The same length the other way.</summary>
    public static Length operator -(Length a) => new(checked(-a.Nanometres));

    /// <summary>The length so many times.</summary>
    public static Length operator *(Length a, long times) => new(checked(a.Nanometres * times));

    /// <summary>The length so many times.</summary>
    public static Length operator *(long times, Length a) => a * times;

    /// <summary>Shorter.</summary>
    public static bool operator <(Length a, Length b) => a.Nanometres < b.Nanometres;

    /// <summary>Longer.</summary>
    public static bool operator >(Length a, Length b) => a.Nanometres > b.Nanometres;

    /// <summary>Not longer.</summary>
    public static bool operator <=(Length a, Length b) => a.Nanometres <= b.Nanometres;

    /// <summary>Not shorter.</summary>
    public static bool operator >=(Length a, Length b) => a.Nanometres >= b.Nanometres;

    /// <summary>A part of the length, rounded once to the nanometre (halves to even).</summary>
    /// <exception cref="DivideByZeroException">No parts.</exception>
    internal Length DividedBy(long parts) => new((long)Rounded(Nanometres, parts));

    /// <summary>A quotient to the nearest whole number, halves to even.</summary>
    internal static BigInteger Rounded(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.Sign < 0)
        {
            (numerator, denominator) = (-numerator, -denominator);
        }

        var (floor, rest) = BigInteger.DivRem(numerator, denominator);
        if (rest.Sign < 0)
        {
            (floor, rest) = (floor - 1, rest + denominator);
        }

        var side = (rest * 2).CompareTo(denominator);
        return side > 0 || (side == 0 && !floor.IsEven) ? floor + 1 : floor;
    }
}
