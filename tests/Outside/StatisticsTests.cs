using CsCheck;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Sizes;
using HeirloomArchive.Sewing.Threads;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Statistics;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Stitch statistics and measured runs against MathNet.Numerics, and stitch counts against what the books say.</summary>
public class StatisticsTests
{
    private static readonly Length Tenth = Length.FromMillimetres(0.1m);

    private static readonly Gen<double[]> GenStitches = Gen.Int[50, 400].Select(n => n / 100.0).Array[10, 60];

    private static Length Of(double millimetres) => Length.FromMillimetres((decimal)millimetres);

    private static StitchRegularity Stitches(double[] millimetres, Length? ruler = null) =>
        StitchRegularity.Of([.. millimetres.Select(Of)], StitchesSeen.EndToEnd, null, [], ruler ?? Tenth);

    [Fact]
    public void Mean_and_standard_deviation_are_those_of_the_library() => GenStitches.Sample(stitches =>
    {
        var found = Stitches(stitches);
        Assert.InRange((double)found.Mean.Millimetres - stitches.Mean(), -1e-6, 1e-6);
        Assert.InRange((double)found.Spread.Millimetres - stitches.StandardDeviation(), -1e-6, 1e-6);
    });

    [Fact]
    public void Coefficient_of_variation_is_that_of_the_library() => GenStitches.Sample(stitches =>
        Assert.Equal(stitches.StandardDeviation() / stitches.Mean(), Stitches(stitches).Variation, 9));

    /// <summary>The documented model worked out with the library's chi-square and normal densities and its quadrature.</summary>
    [Fact]
    public void The_hint_is_the_ratio_of_two_averaged_chi_square_densities() => Gen.Select(Gen.Double[0.01, 0.2], Gen.Int[10, 40], Gen.Int[0, 1_000_000]).Sample((spread, count, seed) =>
    {
        var normal = new Normal(0, spread, new Random(seed));
        double[] stitches = [.. Enumerable.Range(0, count).Select(_ => Math.Round(2.5 * Math.Exp(normal.Sample()), 6))];
        var reading = 0.01 / 6 / Math.Pow(stitches.Mean(), 2);
        var squared = stitches.Select(s => Math.Log(s)).Variance();
        var expected = Math.Clamp(Averaged(StitchRegularity.HandSpread) / Averaged(StitchRegularity.MachineSpread), 1 / StitchRegularity.MostRatio, StitchRegularity.MostRatio);
        Assert.InRange(Math.Log(Stitches(stitches).HandToMachine / expected), -0.01, 0.01);

        double Averaged(double usual) => Integrate.GaussLegendre(
            at =>
            {
                var variance = Math.Pow(usual * Math.Exp(at), 2) + reading;
                return Normal.PDF(0, Math.Log(StitchRegularity.SpreadFactor), at) * ChiSquared.PDF(count - 1, (count - 1) * squared / variance) * (count - 1) / variance;
            },
            -Math.Log(16), Math.Log(16), 128);
    }, iter: 60);

    /// <summary>Weighted least squares of whole runs, counts over a length and single widths, by the library's normal equations and inverse.</summary>
    [Fact]
    public void Width_and_space_are_the_librarys_weighted_least_squares() => Gen.Select(
        Gen.Select(Gen.Int[2, 30], Gen.Int[80, 120]).Array[1, 4], Gen.Select(Gen.Int[1, 30], Gen.Int[80, 120]).Array[0, 4], Gen.Int[20, 50]).Sample((runs, counts, width) =>
    {
        const double tape = 1;
        var over = runs.Select(r => (Tucks: r.Item1, Length: r.Item1 * r.Item2 / 10.0)).ToList();
        var counted = counts.Select(c => (Tucks: c.Item1, Length: c.Item1 * c.Item2 / 10.0)).ToList();
        List<(double[] Row, double Value)> all = [.. over.Select(o => (new double[] { o.Tucks - 1, 1 }, o.Length)), .. counted.Select(c => (new double[] { c.Tucks, 0 }, c.Length)), (new double[] { 0, 1 }, width / 10.0)];
        var design = Matrix<double>.Build.DenseOfRowArrays(all.Select(a => a.Row));
        var values = Vector<double>.Build.DenseOfEnumerable(all.Select(a => a.Value));
        var weights = Matrix<double>.Build.DenseIdentity(all.Count) * (6 / (tape * tape));
        var covariance = (design.Transpose() * weights * design).Inverse();
        var best = covariance * design.Transpose() * weights * values;
        var rest = values - (design * best);
        var grown = all.Count > 2 ? Math.Max(1, rest * weights * rest / (all.Count - 2)) : 1;
        if (best[1] <= 0)
        {
            return;
        }

        var found = MeasuredRun.Of(new([.. over.Select(o => new RunReading(Of(o.Length), o.Tucks, null, null))], [.. counted.Select(c => new CountReading(Of(c.Length), c.Tucks))], [Of(width / 10.0)], [], Of(tape)));
        Close(best[0], found.Repeat.Value);
        Close(best[1], found.Width!.Value);
        Close(best[0] - best[1], found.Space!.Value);
        Close(Math.Sqrt(grown * covariance[0, 0]), found.Repeat.Error);
        Close(Math.Sqrt(grown * covariance[1, 1]), found.Width.Error);
        Close(Math.Sqrt(grown * (covariance[0, 0] + covariance[1, 1] - (2 * covariance[0, 1]))), found.Space.Error);

        static void Close(double expected, Length actual) => Assert.InRange((double)actual.Millimetres - expected, -1e-5, 1e-5);
    });

    // A reading rounded to a scale is off evenly within half a division (common practice): one end has variance division²/12, as the library's even law has.
    [Fact]
    [Trait("sure", "trade")]
    public void A_tape_read_at_both_ends_is_off_by_two_even_laws() =>
        Assert.InRange((double)MeasuredRun.Of(new([], [new(Of(100), 1)], [], [], Of(1))).Repeat.Error.Millimetres - Math.Sqrt(2 * new ContinuousUniform(-0.5, 0.5).Variance), -1e-6, 1e-6);

    // The Workwoman's Guide (1838): running stitch takes three threads and leaves three. At 72 threads to the inch that shows 12 stitches to the inch.
    [Fact]
    [Trait("sure", "derived")]
    public void The_workwomans_running_stitch_shows_twelve_to_the_inch_of_seventy_two_threads()
    {
        var three = Length.FromNanometres(3 * 25_400_000L / 72);
        var found = StitchRegularity.Of([.. Enumerable.Repeat(three, 12)], StitchesSeen.OneFace, null, [], Tenth);
        Assert.Equal(12, found.PerInch, 4);
        Assert.Equal(24, found.PerInchAsMachine, 4);
    }

    // Modern machines: 2.5 mm is 10.16 stitches to the inch; 12 to the inch are 2.1167 mm, 20 to the inch 1.27 mm (arithmetic only; common practice names the lengths).
    [Theory]
    [Trait("sure", "trade")]
    [InlineData(2.5, 10.16)]
    [InlineData(2.116667, 12)]
    [InlineData(1.27, 20)]
    public void Stitch_lengths_are_stitches_to_the_inch(double millimetres, double perInch) =>
        Assert.Equal(perInch, Stitches([.. Enumerable.Repeat(millimetres, 10)]).PerInch, 4);
}
