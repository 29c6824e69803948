using System.Globalization;
using HeirloomArchive.Sewing;
using static HeirloomArchive.Outside.Tests.Asking;
using Theirs = UnitsNet.Units.LengthUnit;

namespace HeirloomArchive.Outside.Tests;

/// <summary>Units against an open units library, and old measures against books that print both.</summary>
public class UnitsTests
{
    // UnitsNet (MIT), an independent implementation: inch 0.0254 m, foot 0.3048 m, yard 0.9144 m.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("in", Theirs.Inch)]
    [InlineData("ft", Theirs.Foot)]
    [InlineData("yd", Theirs.Yard)]
    [InlineData("mm", Theirs.Millimeter)]
    [InlineData("cm", Theirs.Centimeter)]
    [InlineData("m", Theirs.Meter)]
    public void Units_are_those_of_an_independent_library(string unit, Theirs theirs)
    {
        for (var count = 0.125; count < 900; count += 7.375)
        {
            var expected = new UnitsNet.Length(count, theirs).Millimeters;
            Assert.Equal(expected, (double)Read(count.ToString(CultureInfo.InvariantCulture) + " " + unit).Millimetres, expected * 1e-9);
        }
    }

    // UnitsNet once more, for lengths written in two units.
    [Fact]
    [Trait("sure", "read")]
    public void Compound_lengths_add_up_as_in_an_independent_library() =>
        Assert.Equal(
            (UnitsNet.Length.FromYards(3) + UnitsNet.Length.FromFeet(2) + UnitsNet.Length.FromInches(7.25)).Millimeters,
            (double)Read("3 yd 2 ft 7 1/4 in").Millimetres,
            1e-6);

    // The Workwoman's Guide (1838), ch. III, and Dictionary of Dry Goods (c. 1900), "Measures": a nail is 2 1/4 in, 16 make a yard, 4 a quarter.
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1 nail", "2 1/4 in", 57.15)]
    [InlineData("4 nails", "9 in", 228.6)]
    [InlineData("16 nails", "1 yd", 914.4)]
    [InlineData("20 nails", "45 in", 1143)]
    [InlineData("24 nails", "54 in", 1371.6)]
    public void Nails_are_sixteenths_of_a_yard(string nails, string inches, double millimetres)
    {
        Assert.Equal(Read(inches), Read(nails));
        Assert.Equal((decimal)millimetres, Read(nails).Millimetres);
    }

    // The Workwoman's Guide, scales for babies' skirts and petticoats (nails read), in inches (derived).
    [Theory]
    [Trait("sure", "derived")]
    [InlineData("18 nails", "40 1/2 in")]
    [InlineData("15 nails", "33 3/4 in")]
    [InlineData("13 nails", "29 1/4 in")]
    [InlineData("14 nails", "31 1/2 in")]
    [InlineData("17 nails", "38 1/4 in")]
    [InlineData("8 nails", "18 in")]
    [InlineData("10 nails", "22 1/2 in")]
    [InlineData("1 3/4 nails", "3 15/16 in")]
    public void The_workwomans_scales_read_in_inches(string nails, string inches) =>
        Assert.Equal(inches, Read(nails).ToText(LengthUnit.Inches));

    // Garments for Girls (c. 1919), six-gored petticoat: (36 - 6) × 2 = 60 in of cloth, printed as 1 2/3 yd.
    [Fact]
    [Trait("sure", "read")]
    public void A_petticoats_sixty_inches_are_a_yard_and_two_thirds() => Assert.Equal(Read("60 in"), Read("1 2/3 yd"));

    // US 16 CFR 1501.4, the small parts cylinder: 1.25 in across, 1.00 to 2.25 in deep; inches govern (31.7 and 57.1 mm are rounded prints).
    [Theory]
    [Trait("sure", "read")]
    [InlineData("1.25 in", 31.75)]
    [InlineData("2.25 in", 57.15)]
    public void Decimal_inches_of_a_regulation_are_exact(string inches, double millimetres) =>
        Assert.Equal((decimal)millimetres, Read(inches).Millimetres);

    // Goodwin, Course in Sewing, Book III: a flounce of 3 yards; worked in inches it is 108.
    [Fact]
    [Trait("sure", "derived")]
    public void A_flounce_of_three_yards_is_a_hundred_and_eight_inches() => Assert.Equal(Read("108 in"), Read("3 yd"));
}
