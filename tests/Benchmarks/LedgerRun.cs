using System.Diagnostics;
using HeirloomArchive.Support;

namespace HeirloomArchive.Benchmarks;

/// <summary>The ledger of the tests, over more kills.</summary>
internal static class LedgerRun
{
    public static async Task Of(int kills)
    {
        using var folder = new TemporaryFolder();
        var (ledger, clock) = (new Ledger(folder.Path), Stopwatch.StartNew());
        var wrong = await ledger.Run(kills, new Told());
        Console.WriteLine($"host killed {ledger.Killed.Hosts} times, PostgreSQL {ledger.Killed.Servers} times, in {clock.Elapsed.TotalSeconds:0} s; {ledger.Acknowledged} writes acknowledged; "
            + $"without an answer {ledger.Doubtful.Kept + ledger.Doubtful.NotKept}, of them kept {ledger.Doubtful.Kept}; longest start after a kill {ledger.LongestStart.TotalSeconds:0.0} s; otherwise than the ledger: {wrong.Count}");
        foreach (var line in wrong.Take(20))
        {
            Console.WriteLine(line);
        }

        Environment.ExitCode = wrong.Count == 0 ? 0 : 1;
    }

    private sealed class Told : IProgress<int>
    {
        public void Report(int value)
        {
            if (value % 10 == 0)
            {
                Console.WriteLine($"killed {value} times");
            }
        }
    }
}
