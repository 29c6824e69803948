using System.Globalization;
using BenchmarkDotNet.Running;
using HeirloomArchive.Benchmarks;

// `load 10000` is the running service with so many pieces, `worksheets 120` prints for so many seconds; everything else belongs to the pure parts, as in `--filter *Plan*`.
if (args is ["load", var count])
{
    await Load.Run(int.Parse(count, CultureInfo.InvariantCulture));
}
else if (args is ["worksheets", var seconds])
{
    await Sheets.Run(TimeSpan.FromSeconds(int.Parse(seconds, CultureInfo.InvariantCulture)));
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(PlanBenchmarks).Assembly).Run(args);
}
