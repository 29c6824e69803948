using System.Collections.Concurrent;

namespace HeirloomArchive.Web.Accounts;

/// <summary>
/// After some wrong tries whoever tries has to wait, longer each time. It is the pair of address and name that waits: nobody can
/// keep another person out by typing her name wrongly. Kept in memory, by each node for itself.
/// </summary>
public sealed class Delays(TimeProvider clock)
{
    /// <summary>Wrong tries that cost nothing.</summary>
    public const int Free = 5;

    private const int Most = 50_000;

    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(15), Forgotten = TimeSpan.FromHours(1);

    private readonly ConcurrentDictionary<(string Address, string Name), (int Failures, DateTimeOffset Last)> known = new();

    /// <summary>How long this one still has to wait; null if she need not.</summary>
    public TimeSpan? Wait(string address, string name)
    {
        if (!known.TryGetValue((address, name), out var tries) || tries.Failures < Free)
        {
            return null;
        }

        var wait = TimeSpan.FromSeconds(Math.Min(Longest.TotalSeconds, Math.Pow(2, Math.Min(tries.Failures - Free + 1, 20))));
        var now = clock.GetUtcNow();
        if (tries.Last > now)
        {
            // The clock has gone back: the wait begins now, or it would last until the clock is there again.
            known.TryUpdate((address, name), (tries.Failures, now), tries);
            return wait;
        }

        var left = tries.Last + wait - now;
        return left > TimeSpan.Zero ? left : null;
    }

    /// <summary>A try was wrong.</summary>
    public void Failed(string address, string name)
    {
        var now = clock.GetUtcNow();
        if (known.Count > Most)
        {
            foreach (var (key, tries) in known.Where(k => now - k.Value.Last > Forgotten || known.Count > Most * 2))
            {
                known.TryRemove(key, out _);
            }
        }

        known.AddOrUpdate((address, name), (1, now), (_, tries) => (now - tries.Last > Forgotten ? 1 : tries.Failures + 1, now));
    }

    /// <summary>It was right.</summary>
    public void Succeeded(string address, string name) => known.TryRemove((address, name), out _);
}
