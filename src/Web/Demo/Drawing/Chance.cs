namespace HeirloomArchive.Web.Demo.Drawing;

/// <summary>Chance that can be repeated: the same seed gives the same numbers on every machine.</summary>
internal sealed class Chance(uint seed)
{
    private uint state = Mix(seed + 0x9E3779B9);

    /// <summary>The seed that belongs to a word.</summary>
    public static uint Seed(string word)
    {
        var hash = 2166136261;
        foreach (var c in word) hash = (hash ^ c) * 16777619;
        return Mix(hash);
    }

    /// <summary>Between the two.</summary>
    public float Between(float from, float to)
    {
        state = Mix(state + 0x9E3779B9);
        return from + (to - from) * (state / (float)uint.MaxValue);
    }

    /// <summary>Noise of a place, -1 to 1: the same place gives the same value.</summary>
    public float Grain(int x, int y) => Mix((uint)x * 374761393u + (uint)y * 668265263u + seed) / (float)uint.MaxValue * 2 - 1;

    /// <summary>Slow noise along a line, -1 to 1.</summary>
    public float Drift(float at, int line)
    {
        var cell = (int)MathF.Floor(at);
        var t = at - cell;
        t = t * t * (3 - 2 * t);
        return Grain(cell, line) * (1 - t) + Grain(cell + 1, line) * t;
    }

    private static uint Mix(uint x)
    {
        x ^= x >> 16;
        x *= 0x7FEB352D;
        x ^= x >> 15;
        x *= 0x846CA68B;
        return x ^ (x >> 16);
    }
}
