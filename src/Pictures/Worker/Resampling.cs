using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace HeirloomArchive.Pictures;

/// <summary>
/// A part of a picture at another size: rows are filtered, then columns, by the cubic of Mitchell and Netravali ("Reconstruction
/// Filters in Computer Graphics", 1988, B = C = 1/3). Where the picture becomes smaller the cubic is spread, so that no pixel is
/// passed over. The library's own cubic takes five times as long and is not spread.
/// </summary>
internal static class Resampling
{
    private const int Channels = 4;

    /// <summary>How far around a part the filter looks, in pixels of the picture it is taken of.</summary>
    /// <param name="ratio">Pixels of that picture for one that comes out.</param>
    public static double Reach(double ratio) => 2 * Math.Max(1, ratio);

    /// <summary>Fills <paramref name="to"/> with the part of <paramref name="from"/>; it may begin and end between pixels.</summary>
    public static void Draw(Pixels from, double x, double y, double width, double height, Pixels to)
    {
        var (across, down) = (new Filter(x, width, to.Width, from.Width), new Filter(y, height, to.Height, from.Height));
        // First the way that leaves less.
        if ((long)to.Width * from.Height <= (long)from.Width * to.Height)
        {
            using var between = new Pixels(to.Width, from.Height, from.Opaque);
            Across(from, across, between);
            Down(between, down, to);
        }
        else
        {
            using var between = new Pixels(from.Width, to.Height, from.Opaque);
            Down(from, down, between);
            Across(between, across, to);
        }
    }

    private static Span<byte> Row(Pixels of, int row) => MemoryMarshal.AsBytes(of.Span.Slice(row * of.Width, of.Width));

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Across(Pixels from, Filter filter, Pixels to)
    {
        var (source, line) = (new float[from.Width * Channels], new float[to.Width * Channels]);
        ref var first = ref MemoryMarshal.GetArrayDataReference(source);
        ref var into = ref MemoryMarshal.GetArrayDataReference(line);
        var (starts, weights, taps) = (filter.First, filter.Weights, filter.Taps);
        for (var row = 0; row < to.Height; row++)
        {
            Widen(Row(from, row), source);
            var weight = 0;
            for (var pixel = 0; pixel < starts.Length; pixel++)
            {
                var sum = Vector128<float>.Zero;
                var at = (nuint)(starts[pixel] * Channels);
                for (var tap = 0; tap < taps; tap++, at += Channels)
                {
                    sum = Vector128.MultiplyAddEstimate(Vector128.LoadUnsafe(ref first, at), Vector128.Create(weights[weight++]), sum);
                }

                sum.StoreUnsafe(ref into, (nuint)(pixel * Channels));
            }

            Narrow(line, to, row);
        }
    }

    private static void Down(Pixels from, Filter filter, Pixels to)
    {
        var sum = new float[to.Width * Channels];
        for (var row = 0; row < to.Height; row++)
        {
            sum.AsSpan().Clear();
            for (var tap = 0; tap < filter.Taps; tap++)
            {
                Add(Row(from, filter.First[row] + tap), filter.Weights[(row * filter.Taps) + tap], sum);
            }

            Narrow(sum, to, row);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(ReadOnlySpan<byte> bytes, float weight, float[] sum)
    {
        if (weight == 0)
        {
            return;
        }

        ref var from = ref MemoryMarshal.GetReference(bytes);
        ref var into = ref MemoryMarshal.GetArrayDataReference(sum);
        var times = Vector128.Create(weight);
        var at = 0;
        for (; at + 16 <= bytes.Length; at += 16)
        {
            var (a, b, c, d) = Wide(ref from, at);
            Vector128.MultiplyAddEstimate(a, times, Vector128.LoadUnsafe(ref into, (nuint)at)).StoreUnsafe(ref into, (nuint)at);
            Vector128.MultiplyAddEstimate(b, times, Vector128.LoadUnsafe(ref into, (nuint)at + 4)).StoreUnsafe(ref into, (nuint)at + 4);
            Vector128.MultiplyAddEstimate(c, times, Vector128.LoadUnsafe(ref into, (nuint)at + 8)).StoreUnsafe(ref into, (nuint)at + 8);
            Vector128.MultiplyAddEstimate(d, times, Vector128.LoadUnsafe(ref into, (nuint)at + 12)).StoreUnsafe(ref into, (nuint)at + 12);
        }

        for (; at < bytes.Length; at++)
        {
            sum[at] += bytes[at] * weight;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector128<float> A, Vector128<float> B, Vector128<float> C, Vector128<float> D) Wide(ref byte from, int at)
    {
        var (low, high) = Vector128.Widen(Vector128.LoadUnsafe(ref from, (nuint)at));
        var ((a, b), (c, d)) = (Vector128.Widen(low), Vector128.Widen(high));
        return (Vector128.ConvertToSingle(a.AsInt32()), Vector128.ConvertToSingle(b.AsInt32()), Vector128.ConvertToSingle(c.AsInt32()), Vector128.ConvertToSingle(d.AsInt32()));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Widen(ReadOnlySpan<byte> bytes, float[] to)
    {
        ref var from = ref MemoryMarshal.GetReference(bytes);
        ref var into = ref MemoryMarshal.GetArrayDataReference(to);
        var at = 0;
        for (; at + 16 <= bytes.Length; at += 16)
        {
            var (a, b, c, d) = Wide(ref from, at);
            a.StoreUnsafe(ref into, (nuint)at);
            b.StoreUnsafe(ref into, (nuint)at + 4);
            c.StoreUnsafe(ref into, (nuint)at + 8);
            d.StoreUnsafe(ref into, (nuint)at + 12);
        }

        for (; at < bytes.Length; at++)
        {
            to[at] = bytes[at];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Narrow(float[] from, Pixels to, int row)
    {
        if (!to.Opaque)
        {
            WithinAlpha(from);
        }

        var bytes = Row(to, row);
        ref var source = ref MemoryMarshal.GetArrayDataReference(from);
        ref var into = ref MemoryMarshal.GetReference(bytes);
        var at = 0;
        for (; at + 16 <= bytes.Length; at += 16)
        {
            var low = Vector128.Narrow(Whole(Vector128.LoadUnsafe(ref source, (nuint)at)), Whole(Vector128.LoadUnsafe(ref source, (nuint)at + 4)));
            var high = Vector128.Narrow(Whole(Vector128.LoadUnsafe(ref source, (nuint)at + 8)), Whole(Vector128.LoadUnsafe(ref source, (nuint)at + 12)));
            Vector128.Narrow(low.AsUInt16(), high.AsUInt16()).StoreUnsafe(ref into, (nuint)at);
        }

        for (; at < bytes.Length; at++)
        {
            bytes[at] = (byte)(Math.Clamp(from[at], 0, 255) + 0.5f);
        }

        static Vector128<int> Whole(Vector128<float> value) =>
            Vector128.ConvertToInt32(Vector128.Min(Vector128.Max(value, Vector128<float>.Zero), Vector128.Create(255f)) + Vector128.Create(0.5f));
    }

    /// <summary>Colours are premultiplied: the cubic's overshoot must not make one brighter than its alpha.</summary>
    private static void WithinAlpha(float[] row)
    {
        for (var at = 0; at < row.Length; at += Channels)
        {
            var alpha = Math.Clamp(row[at + 3], 0, 255);
            for (var channel = 0; channel < Channels; channel++)
            {
                row[at + channel] = Math.Min(row[at + channel], alpha);
            }
        }
    }

    /// <summary>Which pixels each that comes out is made of, along one direction: so many from the first, and their shares, which add up to 1.</summary>
    private sealed class Filter
    {
        /// <param name="start">Where the part begins.</param>
        /// <param name="length">Pixels of the part.</param>
        /// <param name="count">Pixels that come out.</param>
        /// <param name="all">Pixels there are.</param>
        public Filter(double start, double length, int count, int all)
        {
            var ratio = length / count;
            var (reach, spread) = (Reach(ratio), Math.Max(1, ratio));
            Taps = Math.Min(all, (int)Math.Ceiling(2 * reach) + 1);
            First = new int[count];
            Weights = new float[count * Taps];
            for (var i = 0; i < count; i++)
            {
                var middle = start + ((i + 0.5) * ratio);
                First[i] = Math.Clamp((int)Math.Floor(middle - reach), 0, all - Taps);
                var shares = Weights.AsSpan(i * Taps, Taps);
                var sum = 0.0;
                for (var tap = 0; tap < Taps; tap++)
                {
                    sum += shares[tap] = (float)Cubic(Math.Abs(First[i] + tap + 0.5 - middle) / spread);
                }

                for (var tap = 0; tap < Taps; tap++)
                {
                    shares[tap] = (float)(shares[tap] / sum);
                }
            }
        }

        public int Taps { get; }

        public int[] First { get; }

        public float[] Weights { get; }

        private static double Cubic(double t) =>
            t < 1 ? ((7 * t * t * t) - (12 * t * t) + (16.0 / 3)) / 6
            : t < 2 ? ((-7.0 / 3 * t * t * t) + (12 * t * t) - (20 * t) + (32.0 / 3)) / 6
            : 0;
    }
}
