using System.Diagnostics;
using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets;

namespace HeirloomArchive.Benchmarks;

/// <summary>Worksheets made, drawn and printed: how long one takes, how large it is, and whether the memory stays as it is.</summary>
public static class Sheets
{
    private const int AtOnce = 8;

    /// <summary>A worksheet of so many tucks, in two groups of unlike width so that the folding rule is printed too.</summary>
    public static Worksheet Of(int tucks) => WorksheetMaker.Make(JsonNode.Parse($$"""
        {"plan":{"groups":[{"tucks":{{tucks / 2}},"width":"1/16 in","space":"1/8 in"},{"tucks":{{tucks - (tucks / 2)}},"width":"1/8 in","space":"1/8 in"}],
         "between":["1/2 in"],"lead":"1 in","trail":"1 in"},"title":"A measured worksheet"}
        """)!.AsObject(), null, new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero));

    /// <summary>Measures one after the other, then prints <see cref="AtOnce"/> at once for so long.</summary>
    public static async Task Run(TimeSpan time)
    {
        foreach (var tucks in (int[])[60, 400])
        {
            var sheet = Of(tucks);
            Tell($"{tucks} tucks: made", () => Of(tucks));
            Tell($"{tucks} tucks: diagram of the page", () => WorksheetDiagram.Svg(sheet));
            Tell($"{tucks} tucks: print", () => WorksheetPdf.Render(sheet));
            Tell($"{tucks} tucks: print without the rule", () => WorksheetPdf.Render(sheet, rule: false));
            Console.WriteLine($"{tucks} tucks: size of the print             {WorksheetPdf.Render(sheet).Length / 1000.0,8:0.0} kB");
        }

        await Steady(time);
    }

    private static void Tell(string what, Func<object> work)
    {
        const int warm = 60, measured = 20;
        var times = new List<double>();
        var used = TimeSpan.Zero;
        for (var i = 0; i < warm + measured; i++)
        {
            var (start, before) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
            work();
            if (i >= warm)
            {
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
                used += Environment.CpuUsage.TotalTime - before;
            }
        }

        // On a machine that others use too, the processor's time tells more than the clock's.
        times.Sort();
        Console.WriteLine($"{what,-40} {times[measured / 2],8:0.0} ms median  {times[(int)(measured * 0.95)],8:0.0} ms p95  {used.TotalMilliseconds / measured,8:0.0} ms of the processor");
    }

    /// <summary>The process's memory after the first 20 s (half the time if that is less) and at the end.</summary>
    private static async Task Steady(TimeSpan time)
    {
        var clock = Stopwatch.StartNew();
        var settled = TimeSpan.FromSeconds(20) < time / 2 ? TimeSpan.FromSeconds(20) : time / 2;
        var printed = 0;
        var workers = Enumerable.Range(0, AtOnce).Select(_ => Task.Run(() =>
        {
            while (clock.Elapsed < time)
            {
                WorksheetPdf.Render(Of(60));
                Interlocked.Increment(ref printed);
            }
        })).ToList();
        await Task.Delay(settled);
        var (first, most) = (Memory(), 0.0);
        while (clock.Elapsed < time)
        {
            await Task.Delay(500);
            most = Math.Max(most, Memory());
        }

        await Task.WhenAll(workers);
        var last = Memory();
        Console.WriteLine($"{AtOnce} at once for {time.TotalSeconds:0} s: {printed} prints, memory {first:0} MB after {settled.TotalSeconds:0} s, {last:0} MB at the end ({(last / first) - 1:+0.0 %;-0.0 %}), {most:0} MB at most");
    }

    private static double Memory()
    {
        using var process = Process.GetCurrentProcess();
        return process.WorkingSet64 / 1e6;
    }
}
