using HeirloomArchive.Web.Iiif;

namespace HeirloomArchive.Web.Tests.Iiif;

/// <summary>
/// Image requests against the worked examples of the IIIF Image API 3.0 (https://iiif.io/api/image/3.0/, sections 4.1 to 4.8),
/// whose picture is 300 by 200 pixels, and against its rules.
/// </summary>
public class ImageRequestTests
{
    private static readonly ImageFrame Example = new(300, 200, 1000);

    [Theory]
    [InlineData("full", 0, 0, 300, 200)]
    [InlineData("square", 50, 0, 200, 200)]
    [InlineData("125,15,120,140", 125, 15, 120, 140)]
    [InlineData("pct:41.6,7.5,40,70", 125, 15, 120, 140)]
    [InlineData("125,15,200,200", 125, 15, 175, 185)]
    [InlineData("pct:41.6,7.5,66.6,100", 125, 15, 175, 185)]
    public void The_six_examples_of_section_4_1_are_cut_out_as_they_say(string region, int x, int y, int width, int height) =>
        Assert.Equal(new Crop(x, y, width, height), ImageRequest.Read(region, "max", "0", "default.jpg", Example).Crop);

    [Theory]
    [InlineData("max", 200, 200, 133)]
    [InlineData("^max", 360, 360, 240)]
    [InlineData("150,", 1000, 150, 100)]
    [InlineData("^360,", 1000, 360, 240)]
    [InlineData(",150", 1000, 225, 150)]
    [InlineData("^,240", 1000, 360, 240)]
    [InlineData("pct:50", 1000, 150, 100)]
    [InlineData("^pct:120", 1000, 360, 240)]
    [InlineData("225,100", 1000, 225, 100)]
    [InlineData("^360,360", 1000, 360, 360)]
    [InlineData("!225,100", 1000, 150, 100)]
    [InlineData("^!360,360", 1000, 360, 240)]
    public void The_twelve_examples_of_section_4_2_are_scaled_as_they_say(string size, int most, int width, int height)
    {
        var view = ImageRequest.Read("full", size, "0", "default.jpg", Example with { Most = most });
        Assert.Equal((width, height), (view.Width, view.Height));
    }

    [Theory]
    [InlineData("360,")]
    [InlineData(",201")]
    [InlineData("pct:120")]
    [InlineData("301,200")]
    [InlineData("^1001,")]
    [InlineData("0,")]
    [InlineData("0,0")]
    [InlineData("!0,10")]
    [InlineData("pct:0.01")]
    [InlineData("pct:0")]
    [InlineData("^pct:99999999")]
    [InlineData(",")]
    [InlineData("")]
    [InlineData("^")]
    [InlineData("full")]
    [InlineData("+10,10")]
    [InlineData("10,10,10")]
    [InlineData("!10,")]
    [InlineData("1.5,")]
    [InlineData("-5,")]
    [InlineData("99999999999999999999,")]
    [InlineData("pct:+5")]
    [InlineData("pct:1e1")]
    public void A_size_that_there_is_not_is_refused(string size) =>
        Assert.Throws<ImageRequestException>(() => ImageRequest.Read("full", size, "0", "default.jpg", Example));

    [Theory]
    [InlineData("300,0,10,10")]
    [InlineData("0,200,10,10")]
    [InlineData("0,0,0,10")]
    [InlineData("-1,0,10,10")]
    [InlineData("1,2,3")]
    [InlineData("pct:100,0,10,10")]
    [InlineData("pct:0,0,0.01,10")]
    [InlineData("pct:1,2,3")]
    [InlineData("1.5,0,10,10")]
    [InlineData("FULL")]
    [InlineData("")]
    [InlineData("99999999999,0,1,1")]
    public void A_region_that_there_is_not_is_refused(string region) =>
        Assert.Throws<ImageRequestException>(() => ImageRequest.Read(region, "max", "0", "default.jpg", Example));

    [Theory]
    [InlineData("45", "default.jpg")]
    [InlineData("-90", "default.jpg")]
    [InlineData("450", "default.jpg")]
    [InlineData("!", "default.jpg")]
    [InlineData("90!", "default.jpg")]
    [InlineData("0", "bitonal.jpg")]
    [InlineData("0", "default.tif")]
    [InlineData("0", "default")]
    [InlineData("0", "default.jpg.png")]
    [InlineData("0", "default.")]
    public void A_turn_a_quality_or_a_format_that_is_not_made_is_refused(string rotation, string last) =>
        Assert.Throws<ImageRequestException>(() => ImageRequest.Read("full", "max", rotation, last, Example));

    /// <summary>Section 4.8: what the canonical form of each is.</summary>
    [Theory]
    [InlineData("full", "max", "0", "default.jpg", "full/max/0/default.jpg")]
    [InlineData("0,0,300,200", "300,200", "0", "color.jpg", "full/max/0/default.jpg")]
    [InlineData("pct:0,0,100,100", "pct:50", "90.0", "default.png", "full/150,100/90/default.png")]
    [InlineData("square", "100,", "!0", "gray.webp", "50,0,200,200/100,100/!0/gray.webp")]
    [InlineData("125,15,200,200", "max", "360", "default.jpg", "125,15,175,185/max/0/default.jpg")]
    [InlineData("full", "^150,100", "0", "default.jpg", "full/150,100/0/default.jpg")]
    [InlineData("full", "^600,400", "0", "default.jpg", "full/^600,400/0/default.jpg")]
    [InlineData("full", "^!1000,1000", "0", "default.jpg", "full/^max/0/default.jpg")]
    public void Requests_that_mean_the_same_have_one_canonical_form(string region, string size, string rotation, string last, string canonical)
    {
        var view = ImageRequest.Read(region, size, rotation, last, Example);
        Assert.Equal(canonical, view.Canonical(Example));
        var parts = canonical.Split('/');
        Assert.Equal(view, ImageRequest.Read(parts[0], parts[1], parts[2], parts[3], Example));
    }

    /// <summary>Sections 5.3 and 5.4: every size and tile of the document can be asked for.</summary>
    [Theory]
    [InlineData(6000, 4000)]
    [InlineData(1, 1)]
    [InlineData(513, 77)]
    [InlineData(4000, 6001)]
    public void Every_size_and_tile_that_is_offered_can_be_had(int width, int height)
    {
        var frame = new ImageFrame(width, height, 4096);
        var info = ImageInfo.Write("http://127.0.0.1/iiif/image/x", frame);
        Assert.NotEmpty(info["sizes"]!.AsArray());
        foreach (var size in info["sizes"]!.AsArray())
        {
            var view = ImageRequest.Read("full", $"{size!["width"]},{size["height"]}", "0", "default.jpg", frame);
            Assert.Equal(((int)size["width"]!, (int)size["height"]!), (view.Width, view.Height));
        }

        var factors = info["tiles"]![0]!["scaleFactors"]!.AsArray().Select(f => (int)f!).ToList();
        Assert.Equal(1, factors[0]);
        Assert.True(Math.Max(width, height) <= 512 * factors[^1], "the last factor shows the whole in one tile");
        foreach (var factor in factors)
        {
            for (var x = 0; x < width; x += 512 * factor)
            {
                for (var y = 0; y < height; y += 512 * factor)
                {
                    var (w, h) = (Math.Min(512 * factor, width - x), Math.Min(512 * factor, height - y));
                    // The implementation notes: the size of a tile is its region's, divided and rounded up.
                    var view = ImageRequest.Read($"{x},{y},{w},{h}", $"{(w + factor - 1) / factor},{(h + factor - 1) / factor}", "0", "default.jpg", frame);
                    Assert.Equal(new Crop(x, y, w, h), view.Crop);
                }
            }
        }
    }
}
