namespace HeirloomArchive.Sewing.Fitting;

/// <summary>Whole numbers from one to another, both included; none when the first is the greater.</summary>
internal readonly record struct Span(long From, long To)
{
    public bool IsEmpty => From > To;

    /// <summary>A range of lengths in whole numbers of a unit, in nanometres, its ends drawn inwards.</summary>
    public static Span Inwards(LengthRange range, long unit) => new(Ceiling(range.From.Nanometres, unit), Floor(range.To.Nanometres, unit));

    public Span AtLeast(long least) => this with { From = Math.Max(From, least) };

    public Span AtMost(long most) => this with { To = Math.Min(To, most) };

    /// <summary>The greatest whole number not above a quotient; the divisor is above zero.</summary>
    public static long Floor(long numerator, long divisor)
    {
        var (quotient, rest) = Math.DivRem(numerator, divisor);
        return rest < 0 ? quotient - 1 : quotient;
    }

    /// <summary>The least whole number not below a quotient; the divisor is above zero.</summary>
    public static long Ceiling(long numerator, long divisor) => -Floor(-numerator, divisor);
}

/// <summary>Whole numbers at equal steps.</summary>
internal readonly record struct Steps(long First, long Step, long Count)
{
    public static readonly Steps None = new(0, 1, 0);

    public long Last => First + (Step * (Count - 1));

    public long this[long index] => First + (Step * index);

    /// <summary>How many of them lie below a number that may be a fraction.</summary>
    public long Below(long numerator, long divisor) =>
        Count == 0 ? 0 : Math.Clamp(Span.Ceiling(Span.Ceiling(numerator, divisor) - First, Step), 0, Count);
}
