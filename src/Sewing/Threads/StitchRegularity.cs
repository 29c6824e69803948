namespace HeirloomArchive.Sewing.Threads;

/// <summary>What is seen of a line of stitches.</summary>
public enum StitchesSeen
{
    /// <summary>Every one, end to end: machine stitching, back stitch.</summary>
    EndToEnd,

    /// <summary>Every other one, as of running stitches: the gaps are stitches of the other face.</summary>
    OneFace,
}

/// <summary>How even a line of stitches is, and what that says for hand or machine: a hint, not a verdict.</summary>
/// <remarks>
/// <para>Model. The spread of stitch lengths is looked at by itself: with n stitches whose logarithms have standard deviation s, (n - 1) s² / σ² follows the
/// chi-square law with n - 1 degrees of freedom for a worker or machine of true spread σ. Which σ a hand or a machine has is not known but spread itself,
/// on a logarithmic scale: about <see cref="HandSpread"/> for hand, <see cref="MachineSpread"/> for machine, give or take a factor of
/// <see cref="SpreadFactor"/>; reading the ruler adds division² / 6 to the variance of both. The likelihood ratio is that of the spread measured, averaged
/// over each. With slants the same is done with their standard deviation (<see cref="HandSlant"/>, <see cref="MachineSlant"/>) and the two ratios are multiplied
/// as though independent.</para>
/// <para>The parameters are assumptions from common practice; no published figure was found. The ratio is therefore never given beyond
/// <see cref="MostRatio"/> to 1.</para>
/// </remarks>
public sealed record StitchRegularity
{
    /// <summary>Fewest stitches that say anything.</summary>
    public const int FewestStitches = 10;

    /// <summary>The usual coefficient of variation of hand stitches: an assumption.</summary>
    public const double HandSpread = 0.16;

    /// <summary>That of an old domestic machine in order: an assumption.</summary>
    public const double MachineSpread = 0.045;

    /// <summary>Either may be so many times larger or smaller (one standard deviation).</summary>
    public const double SpreadFactor = 1.6;

    /// <summary>The usual standard deviation of the slant of hand stitches, in degrees: an assumption.</summary>
    public const double HandSlant = 6;

    /// <summary>That of machine stitches, in degrees: an assumption.</summary>
    public const double MachineSlant = 1.5;

    /// <summary>The strongest evidence that is ever told: the model is not known better than that.</summary>
    public const double MostRatio = 50;

    /// <summary>Stitches measured.</summary>
    public required int Stitches { get; init; }

    /// <summary>Their mean length.</summary>
    public required Length Mean { get; init; }

    /// <summary>Standard deviation (n - 1).</summary>
    public required Length Spread { get; init; }

    /// <summary>The shortest and the longest.</summary>
    public required (Length Shortest, Length Longest) Range { get; init; }

    /// <summary>Spread over mean.</summary>
    public required double Variation { get; init; }

    /// <summary>Stitches seen in an inch; running stitches with gaps as long as themselves unless a length was told.</summary>
    public required double PerInch { get; init; }

    /// <summary>Stitches a machine would show in an inch of the same line: of running stitches twice as many as are seen.</summary>
    public required double PerInchAsMachine { get; init; }

    /// <summary>Mean and standard deviation of the slants, in degrees; null without slants.</summary>
    public (double Mean, double Spread)? Slant { get; init; }

    /// <summary>How much likelier such unevenness is by hand than by machine, 1/50 to 50.</summary>
    public required double HandToMachine { get; init; }

    /// <summary>Works it out.</summary>
    /// <param name="lengths">Ten or more, each above zero.</param>
    /// <param name="seen">Whether every stitch is seen.</param>
    /// <param name="over">The length of line over which they lie; null: they meet end to end, or with gaps as long as themselves.</param>
    /// <param name="slants">In degrees from the line; empty when not measured, else two or more.</param>
    /// <param name="ruler">The smallest division of the ruler, above zero.</param>
    /// <exception cref="ArgumentException">Fewer than ten stitches.</exception>
    public static StitchRegularity Of(IReadOnlyList<Length> lengths, StitchesSeen seen, Length? over, IReadOnlyList<double> slants, Length ruler)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(slants);
        ArgumentOutOfRangeException.ThrowIfLessThan(lengths.Count, FewestStitches);
        var values = lengths.Select(l => l.Mm()).ToList();
        var (mean, spread) = Moments(values);
        var reading = Math.Pow(ruler.Mm(), 2) / 6;
        var logarithms = Moments(values.ConvertAll(Math.Log)).Spread;
        var ratio = Ratio(logarithms, values.Count - 1, reading / (mean * mean), HandSpread, MachineSpread);
        (double Mean, double Spread)? slant = slants.Count > 1 ? Moments(slants) : null;
        if (slant is { } s)
        {
            // Slants are read to a degree or so.
            ratio *= Ratio(s.Spread, slants.Count - 1, 1.0 / 6, HandSlant, MachineSlant);
        }

        var line = over is { } along ? along.Mm() : values.Sum() * (seen == StitchesSeen.OneFace ? 2 : 1);
        var perInch = 25.4 * values.Count / line;
        return new()
        {
            Stitches = values.Count,
            Mean = Millimetres(mean),
            Spread = Millimetres(spread),
            Range = (lengths.Min(), lengths.Max()),
            Variation = spread / mean,
            PerInch = perInch,
            PerInchAsMachine = seen == StitchesSeen.OneFace ? 2 * perInch : perInch,
            Slant = slant,
            HandToMachine = Math.Clamp(ratio, 1 / MostRatio, MostRatio),
        };
    }

    /// <summary>How much likelier a standard deviation is by hand than by machine.</summary>
    /// <param name="spread">As measured.</param>
    /// <param name="freedom">Degrees of freedom.</param>
    /// <param name="reading">The variance that reading adds.</param>
    /// <param name="hand">What a hand usually has.</param>
    /// <param name="machine">What a machine usually has.</param>
    internal static double Ratio(double spread, int freedom, double reading, double hand, double machine)
    {
        // What both share, the chi-square's constant and the power of the spread, falls out of the ratio.
        var (byHand, byMachine) = (Averaged(hand), Averaged(machine));
        return Math.Exp(Math.Clamp(byHand - byMachine, -50, 50));

        // Over true spreads from a sixteenth to sixteen times the usual, on a logarithmic scale; as a logarithm.
        double Averaged(double usual)
        {
            const int steps = 400;
            var widest = Math.Log(16);
            var terms = new double[steps + 1];
            for (var i = 0; i <= steps; i++)
            {
                var at = widest * ((2.0 * i / steps) - 1);
                var variance = Math.Pow(usual * Math.Exp(at), 2) + reading;
                terms[i] = (-0.5 * freedom * ((spread * spread / variance) + Math.Log(variance))) - (0.5 * Math.Pow(at / Math.Log(SpreadFactor), 2));
            }

            var most = terms.Max();
            return most + Math.Log(terms.Sum(t => Math.Exp(t - most)));
        }
    }

    private static (double Mean, double Spread) Moments(IReadOnlyList<double> values)
    {
        var mean = values.Average();
        return (mean, Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Count - 1)));
    }

    private static Length Millimetres(double millimetres) => Length.FromNanometres((long)Math.Round(millimetres * 1e6));
}
