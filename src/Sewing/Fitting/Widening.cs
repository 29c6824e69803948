namespace HeirloomArchive.Sewing.Fitting;

/// <summary>A range opened by the least that lets something in.</summary>
internal static class Widening
{
    /// <summary>
    /// The range opened downwards, upwards or (uneven ends) both ways by the fewest steps that let something in.
    /// Opening it further never takes anything out, so the number of steps is found by halving.
    /// </summary>
    /// <returns>Null when nothing gets in however wide it is opened.</returns>
    public static T? Least<T>(Span range, Span limits, Func<Span, T> with, Func<T, bool> any)
        where T : class
    {
        if (!any(with(limits)))
        {
            return null;
        }

        long tooFew = 0, enough = 1;
        while (!any(with(Opened(enough, enough))))
        {
            (tooFew, enough) = (enough, enough * 2);
        }

        while (enough - tooFew > 1)
        {
            var half = (tooFew + enough) / 2;
            (tooFew, enough) = any(with(Opened(half, half))) ? (tooFew, half) : (half, enough);
        }

        return new[] { Opened(enough, 0), Opened(0, enough), Opened(enough, enough) }.Select(with).First(any);

        Span Opened(long below, long above) => new(Math.Max(limits.From, range.From - below), Math.Min(limits.To, range.To + above));
    }
}
