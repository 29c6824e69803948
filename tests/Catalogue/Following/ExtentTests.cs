using System.Globalization;

namespace HeirloomArchive.Catalogue.Tests.Following;

/// <summary>How much a finding takes in, read from the words of an extent.</summary>
public class ExtentTests
{
    private const decimal Inch = 25_400_000m;

    [Theory]
    [InlineData("4 in", 4)]
    [InlineData("1 1/2 in", 1.5)]
    [InlineData("1/2\"", 0.5)]
    [InlineData("about 2 in", 2)]
    [InlineData("2 in at the side seam", 2)]
    [InlineData("50.8 mm", 2)]
    public void A_length(string text, double inches) => Assert.Equal(new Extent(ExtentKind.Length, (decimal)inches * Inch), Extent.Read(text));

    [Theory]
    [InlineData("2 x 3 in", 6)]
    [InlineData("2 in x 3 in", 6)]
    [InlineData("2 × 3 in at the neck", 6)]
    [InlineData("2 in by 1/2 in", 1)]
    [InlineData("4 sq in", 4)]
    [InlineData("4 square inches", 4)]
    [InlineData("6 in²", 6)]
    public void An_area(string text, double squareInches) => Assert.Equal(new Extent(ExtentKind.Area, (decimal)squareInches * Inch * Inch), Extent.Read(text));

    [Theory]
    [InlineData("30 %", "0.3")]
    [InlineData("30% of the hem", "0.3")]
    [InlineData("12.5 per cent", "0.125")]
    [InlineData("half of the hem", "0.5")]
    [InlineData("Half the skirt", "0.5")]
    [InlineData("about a quarter of the yoke", "0.25")]
    [InlineData("three-quarters", "0.75")]
    [InlineData("3/4 of the hem", "0.75")]
    [InlineData("1/4", "0.25")]
    [InlineData("all over", "1")]
    public void A_share(string text, string share) => Assert.Equal(new Extent(ExtentKind.Share, decimal.Parse(share, CultureInfo.InvariantCulture)), Extent.Read(text));

    [Theory]
    [InlineData(null)]
    [InlineData(" ")]
    [InlineData("three small ones")]
    [InlineData("halfway down")]
    [InlineData("120 %")]
    [InlineData("5/4")]
    [InlineData("1/0")]
    [InlineData("0 in")]
    [InlineData("x")]
    [InlineData("as before")]
    [InlineData("2 threads")]
    public void Anything_else_is_text_and_no_more(string? text) => Assert.Null(Extent.Read(text));

    [Fact]
    public void Two_of_one_kind_compare_and_two_of_different_kinds_do_not()
    {
        Assert.True(Extent.Read("5 cm")!.Against(Extent.Read("1 in")) > 0);
        Assert.Equal(0, Extent.Read("1/2 in")!.Against(Extent.Read("12.7 mm")));
        Assert.True(Extent.Read("a third")!.Against(Extent.Read("half")) < 0);
        Assert.Null(Extent.Read("half")!.Against(Extent.Read("4 in")));
        Assert.Null(Extent.Read("half")!.Against(null));
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void The_language_of_the_computer_makes_no_difference(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(new Extent(ExtentKind.Share, 0.125m), Extent.Read("12.5 %"));
            Assert.Equal(new Extent(ExtentKind.Area, 4 * Inch * Inch), Extent.Read("4 SQ IN"));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
