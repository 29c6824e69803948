using BenchmarkDotNet.Attributes;
using HeirloomArchive.Worksheets;

namespace HeirloomArchive.Benchmarks;

/// <summary>One worksheet: made, its diagram for the page, its print.</summary>
[MemoryDiagnoser]
public class WorksheetBenchmarks
{
    private Worksheet sheet = null!;

    [Params(60, 400)]
    public int Tucks { get; set; }

    [GlobalSetup]
    public void Make() => sheet = Sheets.Of(Tucks);

    [Benchmark(Description = "Made")]
    public Worksheet Made() => Sheets.Of(Tucks);

    [Benchmark(Description = "Diagram of the page")]
    public string Diagram() => WorksheetDiagram.Svg(sheet);

    [Benchmark(Description = "Print")]
    public byte[] Print() => WorksheetPdf.Render(sheet);
}
