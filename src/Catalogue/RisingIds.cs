using System.Runtime.CompilerServices;

namespace HeirloomArchive.Catalogue;

/// <summary>Ids of version 7 for what is listed by id, newest first: they rise as long as the program runs, even when its clock goes back.</summary>
public static class RisingIds
{
    private static readonly ConditionalWeakTable<TimeProvider, Latest> Given = [];

    /// <summary>The next id, which sorts after every other that was given by this clock.</summary>
    /// <param name="clock">Whose time it is.</param>
    /// <param name="now">The time as the clock just told it.</param>
    public static Guid NewId(this TimeProvider clock, DateTimeOffset now) =>
        Guid.CreateVersion7(DateTimeOffset.FromUnixTimeMilliseconds(Given.GetOrCreateValue(clock).After(now.ToUnixTimeMilliseconds())));

    private sealed class Latest
    {
        private long latest;

        public long After(long now)
        {
            while (true)
            {
                var before = Volatile.Read(ref latest);
                var next = Math.Max(now, before + 1);
                if (Interlocked.CompareExchange(ref latest, next, before) == before)
                {
                    return next;
                }
            }
        }
    }
}
