using System.Globalization;
using BenchmarkDotNet.Running;
using HeirloomArchive.Benchmarks;

// `load 10000` is the running service with so many pieces, `record 100000` the record with up to so many and ten changes of each, `worksheets 120` prints for so many seconds; everything else belongs to the pure parts, as in `--filter *Plan*`.
if (args is ["load", var count])
{
    await Load.Run(int.Parse(count, CultureInfo.InvariantCulture));
}
else if (args is ["record", var most])
{
    await Record.Run(int.Parse(most, CultureInfo.InvariantCulture));
}
else if (args is ["worksheets", var seconds])
{
    await Sheets.Run(TimeSpan.FromSeconds(int.Parse(seconds, CultureInfo.InvariantCulture)));
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(PlanBenchmarks).Assembly).Run(args);
}
