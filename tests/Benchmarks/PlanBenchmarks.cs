using System.Text.Json.Nodes;
using BenchmarkDotNet.Attributes;
using HeirloomArchive.Sewing;

namespace HeirloomArchive.Benchmarks;

/// <summary>The pure computing: plans of tucks and fits, from the smallest asked to the widest ranges that make sense.</summary>
[MemoryDiagnoser]
public class PlanBenchmarks
{
    private const string Yoke = """
        {"finished":"12 in","cloth":"18 in","tucks":{"from":6,"to":20},"width":{"from":"1/8 in","to":"1/8 in"},
         "space":{"from":"1/8 in","to":"1/2 in"},"ends":{"from":"1 in","to":"3 in"},"finest":"1/16 in",
         "like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    private const string Wide = """
        {"finished":"12 in","tucks":{"from":1,"to":1000},"width":{"from":"1/64 in","to":"12 in"},"space":{"from":"0 in","to":"12 in"},
         "ends":{"from":"0 in","to":"6 in"},"finest":"1/64 in","unevenEnds":true,"like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    private const string Nowhere = """
        {"finished":"36 in","tucks":{"from":2,"to":3},"width":{"from":"1/64 in","to":"1 in"},"space":{"from":"0 in","to":"1 in"},
         "ends":{"from":"0 in","to":"2 in"},"finest":"1/64 in","like":{"tucks":9,"width":"1/8 in","space":"1/4 in"}}
        """;

    private readonly TuckRun run = TuckRunJson.Read(JsonNode.Parse("""
        {"groups":[{"tucks":100,"width":"1/8 in","space":"1/4 in"},{"tucks":100,"width":"1/4 in","space":"1/4 in"}],"between":["1 in"],
         "testStrip":{"tucks":10,"width":"1/8 in","flat":"12 in","finished":"9 7/16 in"}}
        """));

    private readonly TuckPlan plan;
    private readonly FitRequest yoke = FitRequestJson.Read(JsonNode.Parse(Yoke));
    private readonly FitRequest wide = FitRequestJson.Read(JsonNode.Parse(Wide));
    private readonly FitRequest nowhere = FitRequestJson.Read(JsonNode.Parse(Nowhere));

    /// <summary>What does not change from run to run is made once.</summary>
    public PlanBenchmarks() => plan = TuckPlan.Make(run);

    [Benchmark(Description = "Plan of 200 tucks")]
    public TuckPlan Plan() => TuckPlan.Make(run);

    [Benchmark(Description = "The same, written as JSON")]
    public string PlanAsJson() => TuckPlanJson.Write(plan).ToJsonString();

    [Benchmark(Description = "Length read from text")]
    public bool ReadLength() => Length.TryParse("1 yd 4 1/2 in", out _, out _);

    [Benchmark(Description = "Fit of a yoke, 24 arrangements")]
    public FitAnswer FitYoke() => Fit.Find(yoke);

    [Benchmark(Description = "Fit of 1 to 1000 tucks on 1/64 in, uneven ends")]
    public FitAnswer FitWide() => Fit.Find(wide);

    [Benchmark(Description = "Nothing fits: reason and nearest")]
    public FitAnswer FitNothing() => Fit.Find(nowhere);
}
