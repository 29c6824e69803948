using BenchmarkDotNet.Running;
using HeirloomArchive.Benchmarks;

// A verb of our own would be taken out of args here; everything else belongs to the benchmarks, as in `--filter *Plan*`.
BenchmarkSwitcher.FromAssembly(typeof(PlanBenchmarks).Assembly).Run(args);
