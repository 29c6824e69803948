using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Search;

namespace HeirloomArchive.Benchmarks.Finding;

/// <summary>
/// Ends a process that writes the index by SIGKILL at random moments, follows on from the position it finds, as the service does, and compares
/// every garment with the record. The record is a rule: event n of a fixed sequence gives garment n mod 50 its n-th text.
/// </summary>
internal static class Killed
{
    private const int Garments = 50;

    /// <summary>Kills so many times in one folder.</summary>
    public static async Task Run(int times)
    {
        var folder = Directory.CreateTempSubdirectory("heirloom-killed-");
        try
        {
            var random = new Random(1);
            var (wrong, rebuilt, moved, furthest) = (0, 0, 0, 0L);
            for (var i = 0; i < times; i++)
            {
                using (var writer = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["killed-writer", folder.FullName]) { RedirectStandardOutput = true })!)
                {
                    await writer.StandardOutput.ReadLineAsync();
                    await Task.Delay(random.Next(0, 250));
                    writer.Kill();
                    await writer.WaitForExitAsync();
                }

                using var index = GarmentIndex.Open(folder.FullName);
                if (index.NeedsBuilding)
                {
                    rebuilt++;
                    index.BeginBuilding(0);
                    index.Adopt(0);
                }

                var found = index.Position;
                moved += found > furthest ? 1 : 0;
                var upTo = found + Garments;
                Follow(index, found, upTo);
                index.Commit(upTo);
                furthest = upTo;
                wrong += Enumerable.Range(0, Garments).Count(g => !Agrees(index, g, upTo)) + (index.Count == Math.Min(Garments, (int)upTo) ? 0 : 1);
            }

            Console.WriteLine($"killed {times} times, {furthest} events, {moved} times further than it began, built again {rebuilt} times, garments other than the record: {wrong}");
            Environment.ExitCode = wrong == 0 ? 0 : 1;
        }
        finally
        {
            folder.Delete(true);
        }
    }

    /// <summary>The process that is killed: puts events in, commits now and then, and now and then builds the whole index again beside.</summary>
    public static void Write(string folder)
    {
        using var index = GarmentIndex.Open(folder);
        var isTold = false;
        if (index.NeedsBuilding)
        {
            index.BeginBuilding(0);
            index.Adopt(0);
        }

        for (var n = index.Position; ; n += 7)
        {
            Follow(index, n, n + 7);
            if (n % 3 == 0)
            {
                index.Commit(n + 7);
                if (!isTold)
                {
                    // Warm now: from here on the moment of the end is anywhere in the work.
                    Console.WriteLine("ready");
                    isTold = true;
                }
            }

            if (n % 11 == 0)
            {
                index.BeginBuilding(Garments);
                index.Build([.. Enumerable.Range(0, Garments).Select(g => Last(g, n + 7)).OfType<JsonObject>().Select(s => (Collection.IdOf(int.Parse(s["number"]!.ToString(), CultureInfo.InvariantCulture)), s))]);
                index.Adopt(n + 7);
            }
        }
    }

    private static void Follow(GarmentIndex index, long after, long upTo)
    {
        for (var n = after + 1; n <= upTo; n++)
        {
            index.Put(Collection.IdOf((int)(n % Garments)), n, State((int)(n % Garments), n));
        }
    }

    private static bool Agrees(GarmentIndex index, int garment, long upTo)
    {
        var wanted = Last(garment, upTo)?["name"]?.ToString();
        var found = index.Search(SearchRequest.Read([new("q", $"garment{garment}x")]))["items"]!.AsArray();
        return wanted is null ? found.Count == 0 : found.Count == 1 && found[0]!["name"]!.ToString() == wanted;
    }

    private static JsonObject? Last(int garment, long upTo)
    {
        var n = upTo - ((upTo - garment) % Garments);
        return n > 0 ? State(garment, n) : null;
    }

    private static JsonObject State(int garment, long n) => new() { ["name"] = $"text {n} of garment{garment}x", ["number"] = garment.ToString(CultureInfo.InvariantCulture), ["setAside"] = null };
}
