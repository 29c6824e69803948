namespace HeirloomArchive.Sewing.Fitting;

/// <summary>
/// Counts pairs of whole numbers x and y in a box by what p x + q y leaves of a whole, without walking through them: sums of whole parts of
/// quotients, by Euclid's algorithm (as in Graham, Knuth, Patashnik, Concrete Mathematics, 3.5, from memory). Steps grow with the digits only.
/// </summary>
internal static class Lattice
{
    /// <summary>How many pairs have p x + q y from <paramref name="least"/> to <paramref name="most"/>.</summary>
    public static Int128 Between(Span x, Span y, long p, long q, long least, long most) =>
        x.IsEmpty || y.IsEmpty || least > most ? 0 : Sum(x, y, p, q, most, Points) - Sum(x, y, p, q, least - 1, Points);

    /// <summary>The sum of <paramref name="most"/> - (p x + q y) + 1 over the pairs for which it is above zero.</summary>
    public static Int128 Left(Span x, Span y, long p, long q, long most) =>
        x.IsEmpty || y.IsEmpty ? 0 : Sum(x, y, p, q, most, Rests);

    /// <summary>A box from zero up without the same beyond its far side.</summary>
    private static Int128 Sum(Span x, Span y, long p, long q, long most, Func<Sums, long, long, long, long, Int128> of)
    {
        return From(most - (q * y.From)) - From(most - (q * (y.To + 1)));

        // All y from zero up; x from its greatest downwards, so that what is left rises.
        Int128 From(long left)
        {
            var last = Math.Min(x.To, Span.Floor(left, p));
            if (last < x.From)
            {
                return 0;
            }

            var (count, rest) = (last - x.From + 1, left - (p * last));
            return of(Quotients(count - 1, p, rest, q), count, p, rest, q);
        }
    }

    private static Int128 Points(Sums k, long count, long p, long rest, long q) => k.First + count;

    /// <summary>For each x with R left and k = R / q: (k + 1)(R + 1) - q k (k + 1) / 2.</summary>
    private static Int128 Rests(Sums k, long count, long p, long rest, long q)
    {
        var all = (Int128)count;
        var rests = (all * rest) + (p * (all * (all - 1) / 2));
        return (rest * k.First) + (p * k.Weighted) + k.First + rests + all - (q * (k.Squared + k.First) / 2);
    }

    /// <summary>Over i from 0: the sums of k, i k and k² with k the whole part of (a i + b) / c.</summary>
    private readonly record struct Sums(Int128 First, Int128 Weighted, Int128 Squared);

    private static Sums Quotients(Int128 last, Int128 a, Int128 b, Int128 c)
    {
        if (last < 0)
        {
            return default;
        }

        var (linear, squares) = (last * (last + 1) / 2, last * (last + 1) * ((2 * last) + 1) / 6);
        if (a >= c || b >= c)
        {
            var (slope, start) = (a / c, b / c);
            var less = Quotients(last, a % c, b % c, c);
            return new(
                less.First + (slope * linear) + (start * (last + 1)),
                less.Weighted + (slope * squares) + (start * linear),
                less.Squared + (slope * slope * squares) + (start * start * (last + 1)) + (2 * slope * start * linear) + (2 * start * less.First) + (2 * slope * less.Weighted));
        }

        var most = ((a * last) + b) / c;
        if (most == 0)
        {
            return default;
        }

        var turned = Quotients(most - 1, c, c - b - 1, a);
        var first = (last * most) - turned.First;
        return new(first, ((most * last * (last + 1)) - turned.Squared - turned.First) / 2, (last * most * (most + 1)) - (2 * turned.Weighted) - (2 * turned.First) - first);
    }
}
