using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace HeirloomArchive.Pictures;

/// <summary>
/// A part of a picture at another size: rows and columns are filtered, one after the other, by the cubic of Mitchell and Netravali ("Reconstruction
/// Filters in Computer Graphics", 1988, B = C = 1/3). Where the picture becomes smaller the cubic is spread, so that no pixel is
/// passed over. The library's own cubic takes five times as long and is not spread.
/// </summary>
internal static class Resampling
{
    private const int Channels = 4;

    // Bytes of a row at a time.
    private const int Chunk = 32;

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
            Cores.Bands(between.Height, (first, last) => Across(from, across, between, first, last));
            Cores.Bands(to.Height, (first, last) => Down(between, down, to, first, last));
        }
        else
        {
            using var between = new Pixels(from.Width, to.Height, from.Opaque);
            Cores.Bands(between.Height, (first, last) => Down(from, down, between, first, last));
            Cores.Bands(to.Height, (first, last) => Across(between, across, to, first, last));
        }
    }

    private static Span<byte> Row(Pixels of, int row) => MemoryMarshal.AsBytes(of.Span.Slice(row * of.Width, of.Width));

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Across(Pixels from, Filter filter, Pixels to, int firstRow, int lastRow)
    {
        // One pixel of nothing behind, for a tap that counts nothing.
        var (source, line) = (new float[(from.Width + 1) * Channels], new float[to.Width * Channels]);
        ref var first = ref MemoryMarshal.GetArrayDataReference(source);
        ref var into = ref MemoryMarshal.GetArrayDataReference(line);
        var (starts, weights, taps) = (filter.First, filter.Weights, filter.Taps);
        ref var weight = ref MemoryMarshal.GetArrayDataReference(weights);
        for (var row = firstRow; row < lastRow; row++)
        {
            Widen(Row(from, row), source);
            for (var pixel = 0; pixel < starts.Length; pixel++)
            {
                // Two taps at a time: four channels of one pixel beside those of the next.
                var sum = Vector256<float>.Zero;
                var at = (nuint)(starts[pixel] * Channels);
                var (tap, end) = ((nuint)(pixel * taps), (nuint)((pixel + 1) * taps));
                for (; tap < end; tap += 2, at += 2 * Channels)
                {
                    var shares = Vector256.Create(Vector128.Create(Unsafe.Add(ref weight, tap)), Vector128.Create(Unsafe.Add(ref weight, tap + 1)));
                    sum = Vector256.MultiplyAddEstimate(Vector256.LoadUnsafe(ref first, at), shares, sum);
                }

                (sum.GetLower() + sum.GetUpper()).StoreUnsafe(ref into, (nuint)(pixel * Channels));
            }

            Narrow(line, to, row);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Down(Pixels from, Filter filter, Pixels to, int firstRow, int lastRow)
    {
        var (sums, bytes) = (new float[to.Width * Channels], to.Width * Channels);
        ref var into = ref MemoryMarshal.GetArrayDataReference(sums);
        for (var row = firstRow; row < lastRow; row++)
        {
            var weights = filter.Weights.AsSpan(row * filter.Taps, filter.Taps);
            var rows = MemoryMarshal.AsBytes(from.Span.Slice(filter.First[row] * from.Width, filter.Read * from.Width));
            ref var top = ref MemoryMarshal.GetReference(rows);
            var at = 0;
            for (; at + Chunk <= bytes; at += Chunk)
            {
                var (a, b, c, d) = (Vector256<float>.Zero, Vector256<float>.Zero, Vector256<float>.Zero, Vector256<float>.Zero);
                for (var tap = 0; tap < filter.Read; tap++)
                {
                    var share = Vector256.Create(weights[tap]);
                    var (e, f, g, h) = Wide(ref top, (tap * bytes) + at);
                    (a, b, c, d) = (Vector256.MultiplyAddEstimate(e, share, a), Vector256.MultiplyAddEstimate(f, share, b), Vector256.MultiplyAddEstimate(g, share, c), Vector256.MultiplyAddEstimate(h, share, d));
                }

                Store(a, b, c, d, ref into, at);
            }

            for (; at < bytes; at++)
            {
                var sum = 0f;
                for (var tap = 0; tap < filter.Read; tap++)
                {
                    sum += rows[(tap * bytes) + at] * weights[tap];
                }

                sums[at] = sum;
            }

            Narrow(sums, to, row);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<float> A, Vector256<float> B, Vector256<float> C, Vector256<float> D) Wide(ref byte from, int at)
    {
        var (low, high) = Vector256.Widen(Vector256.LoadUnsafe(ref from, (nuint)at));
        var ((a, b), (c, d)) = (Vector256.Widen(low), Vector256.Widen(high));
        return (Vector256.ConvertToSingle(a.AsInt32()), Vector256.ConvertToSingle(b.AsInt32()), Vector256.ConvertToSingle(c.AsInt32()), Vector256.ConvertToSingle(d.AsInt32()));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector256<float> a, Vector256<float> b, Vector256<float> c, Vector256<float> d, ref float into, int at)
    {
        a.StoreUnsafe(ref into, (nuint)at);
        b.StoreUnsafe(ref into, (nuint)at + 8);
        c.StoreUnsafe(ref into, (nuint)at + 16);
        d.StoreUnsafe(ref into, (nuint)at + 24);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Widen(ReadOnlySpan<byte> bytes, float[] to)
    {
        ref var from = ref MemoryMarshal.GetReference(bytes);
        ref var into = ref MemoryMarshal.GetArrayDataReference(to);
        var at = 0;
        for (; at + Chunk <= bytes.Length; at += Chunk)
        {
            var (a, b, c, d) = Wide(ref from, at);
            Store(a, b, c, d, ref into, at);
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
            Read = Math.Min(all, (int)Math.Ceiling(2 * reach) + 1);
            Taps = Read + (Read % 2);
            First = new int[count];
            Weights = new float[count * Taps];
            for (var i = 0; i < count; i++)
            {
                var middle = start + ((i + 0.5) * ratio);
                First[i] = Math.Clamp((int)Math.Floor(middle - reach), 0, all - Read);
                var shares = Weights.AsSpan(i * Taps, Read);
                var sum = 0.0;
                for (var tap = 0; tap < Read; tap++)
                {
                    sum += shares[tap] = (float)Cubic(Math.Abs(First[i] + tap + 0.5 - middle) / spread);
                }

                for (var tap = 0; tap < Read; tap++)
                {
                    shares[tap] = (float)(shares[tap] / sum);
                }
            }
        }

        /// <summary>Pixels that each is made of.</summary>
        public int Read { get; }

        /// <summary>Shares kept for each: one that is nothing more, where that makes them even.</summary>
        public int Taps { get; }

        public int[] First { get; }

        public float[] Weights { get; }

        private static double Cubic(double t) =>
            t < 1 ? ((7 * t * t * t) - (12 * t * t) + (16.0 / 3)) / 6
            : t < 2 ? ((-7.0 / 3 * t * t * t) + (12 * t * t) - (20 * t) + (32.0 / 3)) / 6
            : 0;
    }
}
