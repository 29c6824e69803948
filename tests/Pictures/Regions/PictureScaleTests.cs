using HeirloomArchive.Pictures.Regions;

namespace HeirloomArchive.Pictures.Tests.Regions;

/// <summary>How large a picture shows the piece.</summary>
public class PictureScaleTests
{
    [Fact]
    public void A_measured_line_gives_the_scale_and_the_lengths_of_others()
    {
        // 3-4-5: 500 pixels for 25 mm.
        var scale = PictureScale.Of([Line(300, 400, 25), Line(100, 0, null)])!;
        Assert.Equal(20, scale.PixelsPerMillimetre, 9);
        Assert.Equal(1, scale.Lines);
        Assert.Equal(0, scale.Spread, 9);
        Assert.Equal(5m, scale.LengthOf(100).Millimetres);
        Assert.Equal(0.3m, scale.LengthOf(5.1).Millimetres);
    }

    [Fact]
    public void Lines_that_disagree_say_by_how_much_and_the_longer_one_counts_for_more()
    {
        var scale = PictureScale.Of([Line(1000, 0, 100), Line(110, 0, 10)])!;
        Assert.Equal(0.1, scale.Spread, 9);
        Assert.Equal(1110 / 110d, scale.PixelsPerMillimetre, 9);
    }

    [Fact]
    public void Without_a_measured_line_nothing_is_known() => Assert.Null(PictureScale.Of([Line(100, 0, null)]));

    private static Region Line(decimal x, decimal y, int? millimetres) => new()
    {
        Now = new(new Shape(ShapeKind.Line, [new(0, 0), new(x, y)]), [], millimetres is { } mm ? new(mm * 1_000_000L, $"{mm} mm") : null, "highlighting"),
    };
}
