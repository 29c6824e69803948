using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Cloth;
using static HeirloomArchive.Outside.Tests.Asking;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Old measures of cloth and buttons against the law, the books and an independent library.</summary>
public class OldUnitsTests
{
    // Law of 19 frimaire an VIII: the metre is 443.296 lignes; the values as an encyclopaedia prints them.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("french-ligne", 2.2558291)]
    [InlineData("pouce", 27.069949)]
    [InlineData("pied", 324.839385)]
    public void Old_French_measures_follow_the_law_of_1799(string unit, double millimetres) =>
        Assert.Equal(millimetres, (double)One(unit).Millimetres, 1e-6);

    // The same law the other way: a metre is 443.296 lignes exactly.
    [Fact]
    [Trait("sure", "read")]
    public void A_metre_is_443_296_lignes() => Assert.Equal(443.296m, Unit("french-ligne").In(Length.FromMillimetres(1000)));

    // A ligne of buttons is 1/40 in (read): 24 are 15.24 mm, 40 an inch.
    [Theory]
    [Trait("sure", "read")]
    [InlineData(24, 15.24)]
    [InlineData(40, 25.4)]
    public void Button_lignes_are_fortieths_of_an_inch(int count, double millimetres) =>
        Assert.Equal((decimal)millimetres, Millimetres(Of("units", $$"""{"count":{{count}},"unit":"button-ligne"}"""), "millimetres"));

    // Encyclopaedia of measures: three lines, 2.2558, 2.1167 and 0.635 mm.
    [Fact]
    [Trait("sure", "read")]
    public void Three_lines_are_three_lengths()
    {
        Assert.Equal([2.2558m, 2.1167m, 0.635m], new[] { "french-ligne", "english-line", "button-ligne" }.Select(u => decimal.Round(One(u).Millimetres, 4)));
    }

    // Dictionary of Dry Goods (c. 1900): three barleycorns are an inch, a hand 4 in; The Workwoman's Guide (1838): quarter 9, ells 45 and 54 in; aune 45 in (Dry Goods); Flemish ell 27 in.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("barleycorn", 3, "1 in")]
    [InlineData("hand", 1, "4 in")]
    [InlineData("quarter", 1, "9 in")]
    [InlineData("quarter", 4, "1 yd")]
    [InlineData("english-ell", 1, "45 in")]
    [InlineData("french-ell", 1, "54 in")]
    [InlineData("flemish-ell", 1, "27 in")]
    [InlineData("aune", 1, "45 in")]
    [InlineData("nail", 16, "1 yd")]
    public void Measures_of_the_books_in_inches(string unit, int count, string inches) => Assert.Equal(Read(inches), Unit(unit).Of(count));

    // The Workwoman's Guide, a printed scale (nails read, inches derived): 1 3/4 nails are 3 15/16 in.
    [Fact]
    [Trait("sure", "derived")]
    public void Nails_of_a_printed_scale_in_inches() => Assert.Equal("3 15/16 in", Text(Of("units", """{"count":"1 3/4","unit":"nail"}"""), "inches"));

    // UnitsNet (MIT), an independent implementation: the hand, and the inch beside the millimetre.
    [Fact]
    [Trait("sure", "read")]
    public void The_hand_is_that_of_an_independent_library() =>
        Assert.Equal(UnitsNet.Length.FromHands(7).Millimeters, (double)Unit("hand").Of(7).Millimetres, 1e-9);

    private static Length One(string unit) => Unit(unit).Of(1);

    private static OldUnit Unit(string unit) => OldUnit.All.Single(u => u.Slug == unit);
}
