using System.Diagnostics;

namespace HeirloomArchive.Support;

/// <summary>Waits for what others do, and not for ever.</summary>
public static class Wait
{
    private static readonly TimeSpan Most = TimeSpan.FromMinutes(5);

    /// <param name="isSo">Looked at every few milliseconds.</param>
    /// <param name="what">What it waits for, in words.</param>
    /// <param name="cancel">Ends it.</param>
    /// <exception cref="TimeoutException">It was not so within five minutes.</exception>
    public static async Task Until(Func<bool> isSo, string what, CancellationToken cancel)
    {
        for (var started = Stopwatch.GetTimestamp(); !isSo(); await Task.Delay(20, cancel))
        {
            if (Stopwatch.GetElapsedTime(started) > Most) throw new TimeoutException($"It did not come in {Most.TotalMinutes} minutes: {what}.");
        }
    }
}
