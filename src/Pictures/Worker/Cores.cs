using System.Runtime.ExceptionServices;

namespace HeirloomArchive.Pictures;

/// <summary>Work of a worker shared among the cores there are: for the one who waits, a region is there in little more than half the time on two.</summary>
internal static class Cores
{
    // So few are done before another thread has woken.
    private const int FewestRows = 32;

    private static readonly ParallelOptions All = new() { MaxDegreeOfParallelism = Environment.ProcessorCount };

    /// <summary>Does every piece from 0 to before <paramref name="count"/>, in any order; the first error is thrown as it was.</summary>
    public static void Each(int count, Action<int> piece)
    {
        try
        {
            Parallel.For(0, count, All, piece);
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }

    /// <summary>Does every row from 0 to before <paramref name="rows"/>, in one band for each core; a band is told its first row and the one behind its last.</summary>
    public static void Bands(int rows, Action<int, int> band)
    {
        var bands = Math.Clamp(rows / FewestRows, 1, Environment.ProcessorCount);
        Each(bands, i => band((int)((long)rows * i / bands), (int)((long)rows * (i + 1) / bands)));
    }
}
