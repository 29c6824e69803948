using System.Collections.Frozen;
using System.Globalization;
using System.Numerics;

namespace HeirloomArchive.Sewing;

/// <summary>What came of reading a text as a length: the length, or a problem and whether it lies in the writing or in the size.</summary>
internal readonly record struct LengthReading(Length Length, LengthUnit Unit, string? Problem = null, FaultKind Kind = FaultKind.Unreadable);

/// <summary>Lengths as people write them. Fractions are kept as such until the end; one rounding, to the nanometre.</summary>
internal ref struct LengthText
{
    private const int LongestText = 60;
    private const string Units = // texts
        "in, ft, yd, nails, mm, cm or m";
    private const string Fractions = "½1/2⅓1/3⅔2/3¼1/4¾3/4⅕1/5⅖2/5⅗3/5⅘4/5⅙1/6⅚5/6⅐1/7⅛1/8⅜3/8⅝5/8⅞7/8⅑1/9";

    /// <summary>Nanometres of each unit. A nail is 1/16 yd (The Workwoman's Guide, 1838, ch. III).</summary>
    private static readonly FrozenDictionary<string, long> Nanometres = new Dictionary<string, long>(StringComparer.OrdinalIgnoreCase)
    {
        ["in"] = Length.Inch, ["ins"] = Length.Inch, ["inch"] = Length.Inch, ["inches"] = Length.Inch,
        ["\""] = Length.Inch, ["″"] = Length.Inch, ["”"] = Length.Inch, ["''"] = Length.Inch, ["′′"] = Length.Inch, ["’’"] = Length.Inch,
        ["ft"] = 12 * Length.Inch, ["foot"] = 12 * Length.Inch, ["feet"] = 12 * Length.Inch,
        ["'"] = 12 * Length.Inch, ["′"] = 12 * Length.Inch, ["’"] = 12 * Length.Inch,
        ["yd"] = 36 * Length.Inch, ["yds"] = 36 * Length.Inch, ["yard"] = 36 * Length.Inch, ["yards"] = 36 * Length.Inch,
        ["nail"] = Length.Inch * 9 / 4, ["nails"] = Length.Inch * 9 / 4,
        ["mm"] = 1_000_000, ["millimetre"] = 1_000_000, ["millimetres"] = 1_000_000, ["millimeter"] = 1_000_000, ["millimeters"] = 1_000_000,
        ["cm"] = 10_000_000, ["centimetre"] = 10_000_000, ["centimetres"] = 10_000_000, ["centimeter"] = 10_000_000, ["centimeters"] = 10_000_000,
        ["m"] = 1_000_000_000, ["metre"] = 1_000_000_000, ["metres"] = 1_000_000_000, ["meter"] = 1_000_000_000, ["meters"] = 1_000_000_000,
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private readonly ReadOnlySpan<char> text;
    private int at;

    private LengthText(ReadOnlySpan<char> text) => this.text = text;

    public static LengthReading Read(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var text = typed.AsSpan().Trim();
        if (text.IsEmpty)
        {
            return Unreadable(T($"A length is missing: write a number and {T(Units)}, as in 3/8 in."));
        }

        return text.Length > LongestText
            ? Unreadable(T($"“{Shown.Short(typed)}” is too long for a length: write a number and {T(Units)}, as in 3/8 in."))
            : new LengthText(text).Read();
    }

    private LengthReading Read()
    {
        var negative = Take('-') || Take('−');
        SkipSpace();
        BigInteger sum = 0, over = 1;
        var last = long.MaxValue;
        while (at < text.Length)
        {
            if (!TryNumber(out var numerator, out var denominator))
            {
                return Unclear();
            }

            SkipSpace();
            var from = at;
            SkipUnit();
            if (from == at)
            {
                return at < text.Length ? Unclear() : Unreadable(T($"“{Shown.Short(text)}” has no unit: write {T(Units)}, as in {Shown.Short(text)} in."));
            }

            var name = text[from..at].ToString();
            if (!Nanometres.TryGetValue(name, out var unit))
            {
                return Unreadable(T($"“{Shown.Short(name)}” in “{Shown.Short(text)}” is not a unit of length here: write {T(Units)}."));
            }

            if (unit >= last || (last != long.MaxValue && IsMetric(unit) != IsMetric(last)))
            {
                return Unclear();
            }

            last = unit;
            sum = (sum * denominator) + (numerator * unit * over);
            over *= denominator;
            Take('.');
            SkipSpace();
        }

        if (last == long.MaxValue)
        {
            return Unclear();
        }

        var shown = IsMetric(last) ? LengthUnit.Millimetres : LengthUnit.Inches;
        var nanometres = Length.Rounded(negative ? -sum : sum, over);
        return BigInteger.Abs(nanometres) > Length.Longest.Nanometres
            ? new(Length.Zero, shown, T($"“{Shown.Short(text)}” is too long: lengths here go up to 1 km."), FaultKind.Senseless)
            : new(Length.FromNanometres((long)nanometres), shown);
    }

    public static string Write(long nanometres, LengthUnit unit)
    {
        var (step, steps) = unit == LengthUnit.Inches ? (Length.Inch / 64, 64) : (1_000L, 1_000);
        var count = (long)Length.Rounded(nanometres, step);
        var about = count * step == nanometres ? "" : "≈ ";
        var sign = count < 0 ? "-" : "";
        var (whole, rest) = Math.DivRem(Math.Abs(count), steps);
        if (unit == LengthUnit.Millimetres)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{about}{sign}{whole + (rest / 1_000m):0.###} mm");
        }

        var shared = (long)BigInteger.GreatestCommonDivisor(rest, steps);
        var fraction = string.Create(CultureInfo.InvariantCulture, $"{rest / shared}/{steps / shared}");
        return string.Create(CultureInfo.InvariantCulture, $"{about}{sign}{(rest == 0 ? $"{whole}" : whole == 0 ? fraction : $"{whole} {fraction}")} in");
    }

    /// <summary><c>3</c>, <c>0.375</c>, <c>12,5</c>, <c>3/8</c>, <c>1 1/2</c>, <c>1-1/2</c>, <c>½</c> or <c>1½</c>.</summary>
    private bool TryNumber(out BigInteger numerator, out BigInteger denominator)
    {
        denominator = 1;
        if (!TryDigits(out numerator))
        {
            numerator = 0;
            return Peek() is '.' or ',' ? TryDecimals(ref numerator, ref denominator) : TryVulgar(ref numerator, ref denominator);
        }

        if (Peek() is '.' or ',')
        {
            return TryDecimals(ref numerator, ref denominator);
        }

        if (TakeSlash())
        {
            return TryDigits(out denominator) && !denominator.IsZero;
        }

        var whole = at;
        if (!Take('-'))
        {
            SkipSpace();
        }

        if (TryVulgar(ref numerator, ref denominator))
        {
            return true;
        }

        if (TryDigits(out var over) && TakeSlash() && TryDigits(out var under))
        {
            (numerator, denominator) = ((numerator * under) + over, under);
            return !under.IsZero;
        }

        at = whole;
        return true;
    }

    private bool TryDecimals(ref BigInteger numerator, ref BigInteger denominator)
    {
        var from = ++at;
        if (!TryDigits(out var decimals))
        {
            return false;
        }

        denominator = BigInteger.Pow(10, at - from);
        numerator = (numerator * denominator) + decimals;
        return true;
    }

    private bool TryVulgar(ref BigInteger numerator, ref BigInteger denominator)
    {
        var found = at < text.Length && text[at] > '/' && !char.IsAsciiDigit(text[at]) ? Fractions.IndexOf(text[at], StringComparison.Ordinal) : -1;
        if (found < 0)
        {
            return false;
        }

        at++;
        denominator = Fractions[found + 3] - '0';
        numerator = (numerator * denominator) + (Fractions[found + 1] - '0');
        return true;
    }

    private bool TryDigits(out BigInteger digits)
    {
        var from = at;
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }

        digits = at > from ? BigInteger.Parse(text[from..at], NumberStyles.None, CultureInfo.InvariantCulture) : 0;
        return at > from;
    }

    private void SkipUnit()
    {
        if (Peek() is '\'' or '′' or '’')
        {
            var mark = text[at++];
            Take(mark);
        }
        else if (!Take('"') && !Take('″') && !Take('”'))
        {
            while (at < text.Length && char.IsLetter(text[at]))
            {
                at++;
            }
        }
    }

    private void SkipSpace()
    {
        while (at < text.Length && char.IsWhiteSpace(text[at]) && !char.IsControl(text[at]))
        {
            at++;
        }
    }

    private readonly char Peek() => at < text.Length ? text[at] : '\0';

    private bool Take(char wanted)
    {
        var found = Peek() == wanted && at < text.Length;
        at += found ? 1 : 0;
        return found;
    }

    private bool TakeSlash() => Take('/') || Take('⁄') || Take('∕');

    private readonly LengthReading Unclear() =>
        Unreadable(T($"“{Shown.Short(text)}” can't be read as a length: write a number and {T(Units)}, as in 3/8 in, 1 1/2 in or 9.5 mm."));

    private static LengthReading Unreadable(string problem) => new(Length.Zero, LengthUnit.Inches, problem);

    private static bool IsMetric(long unit) => unit % Length.Inch != 0 && unit != Length.Inch * 9 / 4;
}
