namespace HeirloomArchive.Pictures.Tests;

/// <summary>What must hold of any picture at any other size.</summary>
public class ResamplingTests
{
    [Theory]
    [InlineData(1000, 600, 320, 192)]
    [InlineData(7, 5, 40, 30)]
    [InlineData(3, 2000, 3, 10)]
    [InlineData(1, 1, 5, 4)]
    [InlineData(300, 2, 100, 9)]
    public void A_flat_colour_stays_itself_to_the_edges(int width, int height, int toWidth, int toHeight)
    {
        using var from = new Pixels(width, height, opaque: true);
        from.Span.Fill(0xFF1E90FF);
        using var scaled = from.Scaled(0, 0, width, height, toWidth, toHeight);
        Assert.Equal((toWidth, toHeight), (scaled.Width, scaled.Height));
        Assert.Equal([0xFF1E90FF], scaled.Span.ToArray().Distinct());
    }

    /// <summary>A weave finer than what comes out becomes its mean, not another weave.</summary>
    [Theory]
    [InlineData(2.3f)]
    [InlineData(3.125f)]
    [InlineData(5)]
    public void Threads_too_fine_to_be_seen_become_their_mean(float ratio)
    {
        const int Side = 600;
        using var from = new Pixels(Side, Side, opaque: true);
        for (var i = 0; i < Side * Side; i++)
        {
            from.Span[i] = ((i % Side) + (i / Side)) % 2 == 0 ? 0xFFFFFFFF : 0xFF000000;
        }

        var side = (int)(Side / ratio);
        using var scaled = from.Scaled(0, 0, Side, Side, side, side);
        for (var y = 3; y < side - 3; y++)
        {
            for (var x = 3; x < side - 3; x++)
            {
                Assert.InRange(scaled.Span[(y * side) + x] & 0xFF, 120u, 135u);
            }
        }
    }

    [Fact]
    public void A_slope_stays_where_it_is_also_between_pixels()
    {
        using var from = new Pixels(256, 8, opaque: true);
        for (var i = 0; i < 256 * 8; i++)
        {
            from.Span[i] = 0xFF000000 | ((uint)(i % 256) * 0x010101);
        }

        // From 20.25 to 220.25, 50 out: the middle of each lies at 20.25 + 4 (n + 1/2), its shade half a step below.
        using var scaled = from.Scaled(20.25f, 0, 200, 8, 50, 2);
        for (var n = 0; n < 50; n++)
        {
            Assert.InRange((double)(scaled.Span[n] & 0xFF), 20.25 + (4 * (n + 0.5)) - 0.5 - 0.6, 20.25 + (4 * (n + 0.5)) - 0.5 + 0.6);
        }
    }

    [Fact]
    public void No_colour_becomes_brighter_than_its_alpha()
    {
        var random = new Random(5);
        using var from = new Pixels(90, 70, opaque: false);
        for (var i = 0; i < from.Span.Length; i++)
        {
            var alpha = (uint)random.Next(256);
            from.Span[i] = (alpha << 24) | ((uint)random.Next((int)alpha + 1) << 16) | ((uint)random.Next((int)alpha + 1) << 8) | (uint)random.Next((int)alpha + 1);
        }

        foreach (var (width, height) in new[] { (200, 150), (61, 33) })
        {
            using var scaled = from.Scaled(0, 0, 90, 70, width, height);
            Assert.All(scaled.Span.ToArray(), p => Assert.True((p & 0xFF) <= p >> 24 && ((p >> 8) & 0xFF) <= p >> 24 && ((p >> 16) & 0xFF) <= p >> 24, $"{p:X8}"));
        }
    }

    /// <summary>The cubic of Mitchell and Netravali as it is written in "Reconstruction Filters in Computer Graphics" (1988), equation 8, summed pixel by pixel.</summary>
    [Theory]
    [InlineData(9.5f, 3, 61, 40, 23, 17)]
    [InlineData(0, 0, 97, 53, 31, 53)]
    [InlineData(20, 11.25f, 30, 30, 75, 81)]
    [InlineData(1, 2, 90, 50, 9, 80)]
    public void Each_pixel_is_the_sum_that_the_cubic_says(float x, float y, float width, float height, int outWidth, int outHeight)
    {
        using var from = Speckled(97, 53);
        using var scaled = from.Scaled(x, y, width, height, outWidth, outHeight);
        for (var row = 0; row < outHeight; row++)
        {
            for (var column = 0; column < outWidth; column++)
            {
                for (var channel = 0; channel < 24; channel += 8)
                {
                    var (sum, shares) = (0.0, 0.0);
                    for (var v = 0; v < from.Height; v++)
                    {
                        var down = Cubic(v + 0.5 - y - ((row + 0.5) * height / outHeight), height / outHeight);
                        for (var u = 0; down != 0 && u < from.Width; u++)
                        {
                            var share = down * Cubic(u + 0.5 - x - ((column + 0.5) * width / outWidth), width / outWidth);
                            sum += share * ((from.Span[(v * from.Width) + u] >> channel) & 0xFF);
                            shares += share;
                        }
                    }

                    // Rounded twice, once each way.
                    Assert.InRange((scaled.Span[(row * outWidth) + column] >> channel) & 0xFF, (sum / shares) - 1.5, (sum / shares) + 1.5);
                }
            }
        }
    }

    /// <summary>A region is composed on no more of the picture than the smoothing looks at.</summary>
    [Theory]
    [InlineData(60.25f, 41.5f, 70, 50, 31, 40)]
    [InlineData(0, 100.75f, 33, 49.25f, 60, 60)]
    public void What_lies_beyond_the_reach_changes_nothing(float x, float y, float width, float height, int outWidth, int outHeight)
    {
        using var whole = Speckled(200, 150);
        var (beside, above) = ((int)Math.Ceiling(Resampling.Reach(width / outWidth)), (int)Math.Ceiling(Resampling.Reach(height / outHeight)));
        var (left, top) = (Math.Max(0, (int)x - beside), Math.Max(0, (int)y - above));
        var (right, bottom) = (Math.Min(200, (int)Math.Ceiling(x + width) + beside), Math.Min(150, (int)Math.Ceiling(y + height) + above));
        using var ground = new Pixels(right - left, bottom - top, opaque: true);
        ground.Place(whole, -left, -top);
        using var all = whole.Scaled(x, y, width, height, outWidth, outHeight);
        using var cut = ground.Scaled(x - left, y - top, width, height, outWidth, outHeight);
        // The one may be made across first and the other down first, and each rounds on the way.
        Assert.All(all.Span.ToArray().Zip(cut.Span.ToArray()), p => Assert.All([0, 8, 16], c => Assert.InRange((int)((p.First >> c) & 0xFF) - (int)((p.Second >> c) & 0xFF), -2, 2)));
    }

    private static Pixels Speckled(int width, int height)
    {
        var (random, pixels) = (new Random(3), new Pixels(width, height, opaque: true));
        foreach (ref var pixel in pixels.Span)
        {
            // Between the ends of the range, so that nothing that shoots over is cut.
            pixel = 0xFF404040 + (uint)(random.Next(128) | (random.Next(128) << 8) | (random.Next(128) << 16));
        }

        return pixels;
    }

    private static double Cubic(double distance, double ratio)
    {
        var t = Math.Abs(distance) / Math.Max(1, ratio);
        const double B = 1 / 3.0, C = 1 / 3.0;
        return t < 1 ? (((12 - (9 * B) - (6 * C)) * t * t * t) + ((-18 + (12 * B) + (6 * C)) * t * t) + (6 - (2 * B))) / 6
            : t < 2 ? (((-B - (6 * C)) * t * t * t) + (((6 * B) + (30 * C)) * t * t) + (((-12 * B) - (48 * C)) * t) + ((8 * B) + (24 * C))) / 6
            : 0;
    }
}
