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
}
