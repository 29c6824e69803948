using System.Globalization;
using BenchmarkDotNet.Running;
using HeirloomArchive.Benchmarks;
using HeirloomArchive.Benchmarks.Finding;
using Record = HeirloomArchive.Benchmarks.Record;

// `load 10000` is the running service with so many pieces, `record 100000` the record with up to so many and ten changes of each, `worksheets 120` prints
// for so many seconds, `finding 100000` asks a collection of that size, `nodes 200` saves so many at one of
// two nodes, `killed 100` ends a writer of the index so many times, `pictures` is their way in and
// out (a part of it: `pictures smaller`, `tiles`, `taken`, `given`), `load` (`load for 30`) are sixty-four clients for 300 (30)
// seconds, `ledger 200` ends the service so many times while eight write, `fuzz 20000` so many damaged ones (`fuzz 1000 5000`:
// those from 5000 on), `sign-in 200` tries known and unknown names, `pages` is what a browser gets of them; everything else belongs to the pure parts, as in `--filter *Plan*`.
if (args is ["load", var count])
{
    await Load.Run(int.Parse(count, CultureInfo.InvariantCulture));
}
else if (args is ["load"])
{
    await Journeys.Run(TimeSpan.FromMinutes(5));
}
else if (args is ["load", "for", var time])
{
    await Journeys.Run(TimeSpan.FromSeconds(int.Parse(time, CultureInfo.InvariantCulture)));
}
else if (args is ["ledger", var kills])
{
    await LedgerRun.Of(int.Parse(kills, CultureInfo.InvariantCulture));
}
else if (args is ["record", var most])
{
    await Record.Run(int.Parse(most, CultureInfo.InvariantCulture));
}
else if (args is ["pictures", .. var parts])
{
    await Pictures.Run(parts);
}
else if (args is ["fuzz", var files, .. var from])
{
    await PicturesFuzz.Run(int.Parse(files, CultureInfo.InvariantCulture), from is [var first] ? int.Parse(first, CultureInfo.InvariantCulture) : 0);
}
else if (args is ["worksheets", var seconds])
{
    await Sheets.Run(TimeSpan.FromSeconds(int.Parse(seconds, CultureInfo.InvariantCulture)));
}
else if (args is ["finding", var garments])
{
    await FindingRun.Of(int.Parse(garments, CultureInfo.InvariantCulture));
}
else if (args is ["sign-in", var tries])
{
    await SignIn.Run(int.Parse(tries, CultureInfo.InvariantCulture));
}
else if (args is ["killed", var times])
{
    await Killed.Run(int.Parse(times, CultureInfo.InvariantCulture));
}
else if (args is ["pages"])
{
    await PageFigures.Run();
}
else if (args is ["nodes", var saves])
{
    await Nodes.Run(int.Parse(saves, CultureInfo.InvariantCulture));
}
else if (args is ["killed-writer", var folder])
{
    Killed.Write(folder);
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(PlanBenchmarks).Assembly).Run(args);
}
