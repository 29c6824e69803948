using System.Text.Json.Nodes;
using BenchmarkDotNet.Attributes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Benchmarks;

/// <summary>The ranges a fit is measured on.</summary>
public enum FitRanges
{
    /// <summary>60 counts, 8 widths, 32 spaces, 64 ends on 1/16 in, over 40 in.</summary>
    Sensible,

    /// <summary>1 to 400 tucks of 1/64 to 2 in, spaces to 2 in, ends to 10 in on 1/64 in, over 80 in.</summary>
    Widest,

    /// <summary>The widest on 0.25 mm.</summary>
    WidestMetric,

    /// <summary>1 to 1000 tucks of any width over 600 m, on 0.25 mm: nobody's cloth, but nobody should wait for it either.</summary>
    Absurd,
}

/// <summary>Fits on sensible, widest and absurd ranges, found or not, with and without an antique to be like.</summary>
[MemoryDiagnoser]
public class FitBenchmarks
{
    private FitRequest request = null!;
    private FitRequest tooLittleCloth = null!;
    private FitRequest offTheMarking = null!;

    [ParamsAllValues]
    public FitRanges Ranges { get; set; }

    [Params(false, true)]
    public bool Like { get; set; }

    [Params(false, true)]
    public bool Uneven { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        request = FitCases.Of(Ranges) with { UnevenEnds = Uneven };
        request = Like ? request with { Like = new(9, Length.FromMillimetres(3), Length.FromMillimetres(7.1m)) } : request;
        tooLittleCloth = request with { Cloth = request.Finished };
        offTheMarking = request with { Finished = request.Finished + Length.FromNanometres(1) };
    }

    [Benchmark(Description = "Found, counted and ranked")]
    public FitAnswer Found() => Fit.Find(request);

    [Benchmark(Description = "Too little cloth: reason and nearest")]
    public FitAnswer NoCloth() => Fit.Find(tooLittleCloth);

    [Benchmark(Description = "Off the marking: reason and nearest")]
    public FitAnswer OffTheMarking() => Fit.Find(offTheMarking);
}

/// <summary>How a fit grows with its ranges, beside trying everything and beside copying what trying everything would have to look at.</summary>
public class FitGrowthBenchmarks
{
    private FitRequest request = null!;
    private byte[] tries = null!;
    private byte[] copy = null!;

    /// <summary>Values of each range: so many counts, widths, spaces and ends.</summary>
    [Params(8, 16, 32, 64)]
    public int Values { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        var unit = Length.FromSixtyFourthsOfInch(4);
        request = new()
        {
            Finished = 16 * Length.FromSixtyFourthsOfInch(64),
            Tucks = new(1, Values),
            Width = new(unit, Values * unit),
            Space = new(Length.Zero, (Values - 1) * unit),
            Ends = new(Length.Zero, (Values - 1) * unit),
            Finest = unit,
        };
        tries = new byte[Values * Values * Values * Values];
        copy = new byte[tries.Length];
    }

    [Benchmark(Baseline = true, Description = "Fit")]
    public long Counted() => Fit.Find(request).Count;

    [Benchmark(Description = "Trying everything")]
    public long Tried()
    {
        var (unit, count) = (request.Finest.Nanometres, 0L);
        var whole = request.Finished.Nanometres / unit;
        for (var tucks = 1; tucks <= Values; tucks++)
        {
            for (var width = 1; width <= Values; width++)
            {
                for (var space = 0; space < (tucks == 1 ? 1 : Values); space++)
                {
                    for (var end = 0; end < Values; end++)
                    {
                        count += (tucks * width) + ((tucks - 1) * space) + (2 * end) == whole ? 1 : 0;
                    }
                }
            }
        }

        return count;
    }

    [Benchmark(Description = "Copying a byte for each try")]
    public void Copied() => tries.CopyTo(copy, 0);
}

/// <summary>How a plan grows with its tucks, beside copying as many lines.</summary>
[MemoryDiagnoser]
public class PlanGrowthBenchmarks
{
    private TuckRun run = null!;
    private TuckLine[] lines = null!;

    [Params(25, 50, 100, 200, 400)]
    public int Tucks { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        run = TuckRunJson.Read(JsonNode.Parse($$"""{"groups":[{"tucks":{{Tucks}},"width":"1/8 in","space":"1/4 in"}],"lead":"1 in","trail":"1 in"}"""));
        lines = [.. TuckPlan.Make(run).Lines];
    }

    [Benchmark(Baseline = true, Description = "Plan")]
    public TuckPlan Plan() => TuckPlan.Make(run);

    [Benchmark(Description = "Where the folds fall, nothing checked")]
    public Length[] Bare()
    {
        var (width, step) = (run.Groups[0].Width, (3 * run.Groups[0].Width) + Length.FromSixtyFourthsOfInch(16));
        var folds = new Length[Tucks];
        for (var i = 0; i < folds.Length; i++)
        {
            folds[i] = run.Lead!.Value + width + (i * step);
        }

        return folds;
    }

    [Benchmark(Description = "Copying as many lines")]
    public TuckLine[] Copied() => lines.AsSpan().ToArray();
}

internal static class FitCases
{
    public static FitRequest Of(FitRanges ranges)
    {
        var sixteenth = Length.FromSixtyFourthsOfInch(4);
        var inch = Length.FromSixtyFourthsOfInch(64);
        var quarter = Length.FromMillimetres(0.25m);
        var metre = Length.FromMillimetres(1000);
        return ranges switch
        {
            FitRanges.Sensible => Request(40 * inch, 60, sixteenth, 8 * sixteenth, 31 * sixteenth, 63 * sixteenth, sixteenth),
            FitRanges.Widest => Request(80 * inch, 400, Length.FromSixtyFourthsOfInch(1), 2 * inch, 2 * inch, 10 * inch, Length.FromSixtyFourthsOfInch(1)),
            FitRanges.WidestMetric => Request(80 * inch, 400, quarter, 2 * inch, 2 * inch, 10 * inch, quarter),
            _ => Request(600 * metre, 1000, quarter, 600 * metre, 600 * metre, 600 * metre, quarter),
        };
    }

    private static FitRequest Request(Length finished, int tucks, Length least, Length width, Length space, Length ends, Length finest) => new()
    {
        Finished = finished,
        Tucks = new(1, tucks),
        Width = new(least, width),
        Space = new(Length.Zero, space),
        Ends = new(Length.Zero, ends),
        Finest = finest,
    };
}
