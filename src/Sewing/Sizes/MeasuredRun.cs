namespace HeirloomArchive.Sewing.Sizes;

/// <summary>A whole run measured at once, from the first fold to the last stitching: (tucks - 1) × repeat + width. As the record keeps it under <c>over</c>.</summary>
/// <param name="Run">What the tape read, above zero.</param>
/// <param name="Tucks">How many it holds, 1 or more.</param>
/// <param name="WidthLeast">The narrowest tuck in it, if she measured.</param>
/// <param name="WidthMost">The widest.</param>
public sealed record RunReading(Length Run, int Tucks, Length? WidthLeast, Length? WidthMost);

/// <summary>Tucks counted over a length, from a stitching line to the same line of a later tuck.</summary>
/// <param name="Over">What the tape read, above zero.</param>
/// <param name="Tucks">How many tucks further on, 1 or more.</param>
public sealed record CountReading(Length Over, int Tucks);

/// <summary>Everything she measured on one run.</summary>
/// <param name="Over">Whole runs.</param>
/// <param name="Counts">Counts over a length.</param>
/// <param name="Widths">Single tucks, fold to stitching.</param>
/// <param name="Spaces">Single spaces.</param>
/// <param name="Tape">The smallest division of the tape, above zero.</param>
public sealed record RunReadings(IReadOnlyList<RunReading> Over, IReadOnlyList<CountReading> Counts, IReadOnlyList<Length> Widths, IReadOnlyList<Length> Spaces, Length Tape);

/// <summary>A length as it most likely is.</summary>
/// <param name="Value">Rounded once to the nanometre; a space may come out below zero.</param>
/// <param name="Error">Its standard error: in about two cases of three the true length lies within it.</param>
public sealed record Estimate(Length Value, Length Error);

/// <summary>One marking the maker may have worked by.</summary>
/// <param name="Name"><c>1/16 in</c>; <c>by eye</c> for none.</param>
/// <param name="Share">Its share of what speaks for any of them, 0 to 1; all shares add up to 1.</param>
/// <param name="Width">The width on it that agrees best; null by eye or when no width is known.</param>
/// <param name="Space">The space on it that agrees best.</param>
public sealed record MarkingShare(string Name, double Share, Length? Width, Length? Space);

/// <summary>The likeliest width, space and repeat of a run from several measurements, and the marking it was probably made by.</summary>
/// <remarks>
/// <para>A reading lies within half a division at each of its two ends, anywhere alike: its variance is division² / 6 (the usual rule for a reading
/// rounded to a scale; common practice). Several tucks or spaces are averaged, with their own scatter where that is larger; a least and a most width stand for
/// anything between, alike: variance (most - least)² / 12 besides. Repeat and width are the weighted least squares of all of it, space = repeat - width;
/// errors follow from the weights, and where the measurements disagree by more than the tape explains all errors grow by the same factor.</para>
/// <para>A marking is scored by how much better its whole numbers agree with width and space than lengths laid by eye would: the probability density at its
/// points, times the area that each point stands for. A coarse marking that hits counts for more than a fine one, which hits by chance. All start equal;
/// the scores are shared out to 1. The model is ours.</para>
/// </remarks>
public sealed record MeasuredRun
{
    /// <summary>Stitching to stitching.</summary>
    public required Estimate Repeat { get; init; }

    /// <summary>Fold to stitching line; null when only counts over a length are known.</summary>
    public Estimate? Width { get; init; }

    /// <summary>The plain cloth between; null when only counts over a length are known.</summary>
    public Estimate? Space { get; init; }

    /// <summary>By how much the measurements disagree beside what the tape explains: 1 or less is as good as the tape; null when none is to spare.</summary>
    public double? Disagreement { get; init; }

    /// <summary>The likeliest first.</summary>
    public required IReadOnlyList<MarkingShare> Markings { get; init; }

    /// <summary>The name of what is no marking at all.</summary>
    internal const string ByEye = "by eye";

    private static readonly (string Name, Length Length)[] Known =
    [
        ("1/4 in", Length.FromSixtyFourthsOfInch(16)), ("1/8 in", Length.FromSixtyFourthsOfInch(8)), ("1/16 in", Length.FromSixtyFourthsOfInch(4)), ("1/32 in", Length.FromSixtyFourthsOfInch(2)),
        ("5 mm", Length.FromMillimetres(5)), ("2 mm", Length.FromMillimetres(2)), ("1 mm", Length.FromMillimetres(1)), ("0.5 mm", Length.FromMillimetres(0.5m)),
    ];

    /// <summary>Works it out.</summary>
    /// <exception cref="FaultException">The measurements can't tell, or contradict one another; kind <see cref="FaultKind.Senseless"/>.</exception>
    public static MeasuredRun Of(RunReadings readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        var fit = new RunLeastSquares();
        var reading = Square(readings.Tape) / 6;
        foreach (var run in readings.Over)
        {
            fit.Add(run.Tucks - 1, 1, run.Run.Mm(), reading);
            if ((run.WidthLeast ?? run.WidthMost) is { } one)
            {
                var (least, most) = (run.WidthLeast ?? one, run.WidthMost ?? one);
                fit.Add(0, 1, (least + most).Mm() / 2, reading + (Square(most - least) / 12));
            }
        }

        foreach (var count in readings.Counts)
        {
            fit.Add(count.Tucks, 0, count.Over.Mm(), reading);
        }

        Mean(readings.Widths, 0, 1);
        Mean(readings.Spaces, 1, -1);
        return fit.Solve() switch
        {
            { } both when both.Width <= 0 => throw new FaultException("over", T($"By these measurements a tuck would be {Of(both.Width, 0).Value} wide: one of them can't be right. Measure a tuck by itself and give it under widths.")),
            { Repeat: <= 0 } => throw new FaultException("over", "By these measurements each tuck would lie on or before the last: one of them can't be right. Count and measure again."),
            { } both => new()
            {
                Repeat = Of(both.Repeat, both.RepeatVariance),
                Width = Of(both.Width, both.WidthVariance),
                Space = Of(both.Repeat - both.Width, both.SpaceVariance),
                Disagreement = fit.Disagreement,
                Markings = Score(m => Pair(both, m), m => Hit(both, m)),
            },
            _ when fit.RepeatAlone() is var (repeat, variance) => new()
            {
                Repeat = Of(repeat, variance),
                Disagreement = fit.Disagreement,
                Markings = Score(m => Comb(repeat, Math.Sqrt(variance), m, m), _ => (null, null)),
            },
            _ => throw new FaultException("over", "Width and space can't be told apart by this alone: measure also the width of a tuck, or count tucks over a length."),
        };

        void Mean(IReadOnlyList<Length> lengths, double repeats, double widths)
        {
            if (lengths.Count > 0)
            {
                var mean = lengths.Average(Curves.Mm);
                var scatter = lengths.Count > 1 ? lengths.Sum(l => Math.Pow(l.Mm() - mean, 2)) / (lengths.Count - 1) : 0;
                fit.Add(repeats, widths, mean, Math.Max(reading, scatter) / lengths.Count);
            }
        }
    }

    private static List<MarkingShare> Score(Func<double, double> score, Func<double, (Length?, Length?)> hit)
    {
        var scored = Known.Select(m => (m.Name, Score: score(m.Length.Mm()), Hit: hit(m.Length.Mm()))).Append((Name: ByEye, Score: 1, Hit: (null, null))).ToList();
        var all = scored.Sum(s => s.Score);
        return [.. scored.Select(s => new MarkingShare(s.Name, s.Score / all, s.Hit.Item1, s.Hit.Item2)).OrderByDescending(s => s.Share)];
    }

    /// <summary>The density at a marking's points of width and space, times the area of each.</summary>
    private static double Pair(RunSolution fit, double marking)
    {
        var (sigma, sum) = (Math.Sqrt(fit.WidthVariance), 0.0);
        if (sigma > 1_000 * marking)
        {
            return 1; // so uncertain a width tells nothing of any marking, and would be walked through by the million
        }

        var (slope, spread) = fit.SpaceGivenWidth;
        var first = Math.Max(1, Math.Floor((fit.Width - (6 * sigma)) / marking));
        for (var width = first * marking; width <= fit.Width + (6 * sigma) + marking; width += marking)
        {
            sum += marking * Density(width - fit.Width, sigma) * Comb(fit.Space + (slope * (width - fit.Width)), spread, marking, 0);
        }

        return sum;
    }

    private static (Length? Width, Length? Space) Hit(RunSolution fit, double marking)
    {
        // Beside the nearest width its neighbours too: width and space are not independent.
        var (slope, spread) = fit.SpaceGivenWidth;
        var nearest = Math.Max(1, Math.Round(fit.Width / marking));
        var best = Enumerable.Range(-2, 5).Select(step => nearest + step).Where(w => w >= 1).Select(w =>
        {
            var mean = fit.Space + (slope * ((w * marking) - fit.Width));
            var space = Math.Max(0, Math.Round(mean / marking));
            return (Width: w, Space: space, Density: Density((w * marking) - fit.Width, Math.Sqrt(fit.WidthVariance)) * Density((space * marking) - mean, spread));
        }).MaxBy(x => x.Density);
        return (Of(best.Width * marking, 0).Value, Of(best.Space * marking, 0).Value);
    }

    /// <summary>The density at the points of a marking from a least one up, times the marking; spread over many points that comes to 1.</summary>
    private static double Comb(double mean, double sigma, double marking, double least)
    {
        if (sigma > 5 * marking)
        {
            return 1;
        }

        var sum = 0.0;
        for (var point = Math.Max(least, Math.Floor((mean - (6 * sigma)) / marking) * marking); point <= mean + (6 * sigma) + marking; point += marking)
        {
            sum += marking * Density(point - mean, sigma);
        }

        return sum;
    }

    private static double Density(double apart, double sigma) => Math.Exp(-0.5 * apart * apart / (sigma * sigma)) / (sigma * Math.Sqrt(2 * Math.PI));

    private static double Square(Length length) => length.Mm() * length.Mm();

    private static Estimate Of(double millimetres, double variance) =>
        new(Length.FromNanometres((long)Math.Round(millimetres * 1e6)), Length.FromNanometres((long)Math.Round(Math.Sqrt(Math.Max(0, variance)) * 1e6)));
}

/// <summary>Repeat and width with their variances, in millimetres.</summary>
internal sealed record RunSolution(double Repeat, double Width, double RepeatVariance, double WidthVariance, double Covariance)
{
    public double Space => Repeat - Width;

    public double SpaceVariance => RepeatVariance + WidthVariance - (2 * Covariance);

    /// <summary>How the space changes with the width, and its spread when the width is known.</summary>
    public (double Slope, double Spread) SpaceGivenWidth
    {
        get
        {
            var shared = Covariance - WidthVariance;
            return (shared / WidthVariance, Math.Sqrt(Math.Max(1e-12, SpaceVariance - (shared * shared / WidthVariance))));
        }
    }
}

/// <summary>Weighted least squares of measurements that are each so many repeats and so many widths, in millimetres.</summary>
internal sealed class RunLeastSquares
{
    private readonly List<(double Repeats, double Widths, double Value, double Variance)> measured = [];

    /// <summary>Root mean square of what is left over, in units of what the tape explains.</summary>
    public double? Disagreement { get; private set; }

    public void Add(double repeats, double widths, double value, double variance) => measured.Add((repeats, widths, value, variance));

    /// <summary>Null when repeat and width can't be told apart.</summary>
    public RunSolution? Solve()
    {
        double rr = 0, rw = 0, ww = 0, r = 0, w = 0;
        foreach (var (repeats, widths, value, variance) in measured)
        {
            rr += repeats * repeats / variance;
            rw += repeats * widths / variance;
            ww += widths * widths / variance;
            r += repeats * value / variance;
            w += widths * value / variance;
        }

        var determinant = (rr * ww) - (rw * rw);
        if (determinant <= 1e-9 * rr * ww || rr * ww == 0)
        {
            return null;
        }

        var (repeat, width) = (((ww * r) - (rw * w)) / determinant, ((rr * w) - (rw * r)) / determinant);
        var grown = Grown(repeat, width, 2);
        return new(repeat, width, grown * ww / determinant, grown * rr / determinant, -grown * rw / determinant);
    }

    /// <summary>When only counts over a length are known.</summary>
    public (double Repeat, double Variance)? RepeatAlone()
    {
        if (measured.Count == 0 || measured.Exists(m => m.Widths != 0))
        {
            return null;
        }

        var weight = measured.Sum(m => m.Repeats * m.Repeats / m.Variance);
        var repeat = measured.Sum(m => m.Repeats * m.Value / m.Variance) / weight;
        return (repeat, Grown(repeat, 0, 1) / weight);
    }

    /// <summary>By what the variances grow because the measurements disagree; never less than 1.</summary>
    private double Grown(double repeat, double width, int unknowns)
    {
        var spare = measured.Count - unknowns;
        if (spare < 1)
        {
            return 1;
        }

        var misfit = measured.Sum(m => Math.Pow(m.Value - (m.Repeats * repeat) - (m.Widths * width), 2) / m.Variance) / spare;
        Disagreement = Math.Sqrt(misfit);
        return Math.Max(1, misfit);
    }
}
