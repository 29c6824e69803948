using System.Diagnostics;
using System.Runtime.CompilerServices;
using Xunit;

namespace HeirloomArchive.Support;

/// <summary>Waiting for what comes by itself, with an end.</summary>
public static class Wait
{
    /// <summary>As long as a machine takes that does much else.</summary>
    public static TimeSpan Patience { get; } = TimeSpan.FromMinutes(5);

    /// <summary>Asks again and again until it is so.</summary>
    /// <param name="isSo">What is asked.</param>
    /// <param name="what">As the failure names it.</param>
    /// <param name="within">How long; <see cref="Patience"/> if not said.</param>
    /// <param name="every">Milliseconds between two questions.</param>
    /// <exception cref="TimeoutException">It is still not so.</exception>
    /// <exception cref="OperationCanceledException">The test was stopped.</exception>
    public static async Task Until(Func<Task<bool>> isSo, [CallerArgumentExpression(nameof(isSo))] string what = "", TimeSpan? within = null, int every = 20)
    {
        var longest = within ?? Patience;
        for (var since = Stopwatch.StartNew(); !await isSo(); await Task.Delay(every, TestContext.Current.CancellationToken))
        {
            if (since.Elapsed > longest) throw new TimeoutException($"After {longest.TotalSeconds} s still not so: {what}");
        }
    }

    /// <inheritdoc cref="Until(Func{Task{bool}}, string, TimeSpan?, int)"/>
    public static Task Until(Func<bool> isSo, [CallerArgumentExpression(nameof(isSo))] string what = "", TimeSpan? within = null, int every = 20) =>
        Until(() => Task.FromResult(isSo()), what, within, every);
}
