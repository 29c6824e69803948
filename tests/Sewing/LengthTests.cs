using CsCheck;
using static HeirloomArchive.Sewing.Tests.Json;

namespace HeirloomArchive.Sewing.Tests;

public class LengthTests
{
    private static readonly Gen<Length> Any = Gen.Long[-Length.Longest.Nanometres, Length.Longest.Nanometres].Select(Length.FromNanometres);

    [Theory]
    [InlineData("3/8 in", 9.525)]
    [InlineData("1 1/2 in", 38.1)]
    [InlineData("1-1/2 in", 38.1)]
    [InlineData("3/8\"", 9.525)]
    [InlineData("1 1/2″", 38.1)]
    [InlineData("1 1/2”", 38.1)]
    [InlineData("1½ in", 38.1)]
    [InlineData("1 ½ in", 38.1)]
    [InlineData("⅝ in", 15.875)]
    [InlineData("1⁄8 in", 3.175)]
    [InlineData("0.375 in", 9.525)]
    [InlineData(".5 in", 12.7)]
    [InlineData("0,375 in", 9.525)]
    [InlineData("9/8 inches", 28.575)]
    [InlineData("1 inch", 25.4)]
    [InlineData("2 in.", 50.8)]
    [InlineData("9.5 mm", 9.5)]
    [InlineData("9.5mm", 9.5)]
    [InlineData("9.525 MM", 9.525)]
    [InlineData("12,5 cm", 125)]
    [InlineData("1 m", 1000)]
    [InlineData("1 m 20 cm", 1200)]
    [InlineData("2 yd", 1828.8)]
    [InlineData("1/2 yard", 457.2)]
    [InlineData("1 yd 4 1/2 in", 1028.7)]
    [InlineData("1 yd 2 nails", 1028.7)]
    [InlineData("1 nail", 57.15)]
    [InlineData("16 nails", 914.4)]
    [InlineData("1 3/4 nails", 100.0125)]
    [InlineData("2 ft", 609.6)]
    [InlineData("1 foot 1 in", 330.2)]
    [InlineData("5' 3\"", 1600.2)]
    [InlineData("5′ 3″", 1600.2)]
    [InlineData("5’ 3’’", 1600.2)]
    [InlineData("-1/16 in", -1.5875)]
    [InlineData("−1/16 in", -1.5875)]
    [InlineData("- 1/16 in", -1.5875)]
    [InlineData("  3/8\u00a0in ", 9.525)]
    [InlineData("0 in", 0)]
    [InlineData("1000 m", 1_000_000)]
    public void Reads_as_people_write(string typed, double millimetres)
    {
        Assert.True(Length.TryParse(typed, out var length, out var problem), problem);
        Assert.Equal(((decimal)millimetres, ""), (length.Millimetres, problem));
    }

    [Theory]
    [InlineData("1/3 in", 8_466_667)]
    [InlineData("2/3 in", 16_933_333)]
    [InlineData("1/3 yd 1/3 in", 313_266_667)]
    [InlineData("0.0000004 mm", 0)]
    [InlineData("0.0000006 mm", 1)]
    [InlineData("0.00000050000000000000000000000000000000000001 mm", 1)]
    public void Is_rounded_once_to_the_nanometre_on_entry(string typed, long nanometres) =>
        Assert.Equal(nanometres, L(typed).Nanometres);

    [Theory]
    [InlineData("3/8")]
    [InlineData("12")]
    [InlineData("1 yd 4 1/2")]
    [InlineData("½")]
    public void A_number_with_no_unit_is_refused_naming_the_units(string typed)
    {
        Assert.False(Length.TryParse(typed, out _, out var problem));
        Assert.Equal($"“{typed}” has no unit: write in, ft, yd, nails, mm, cm or m, as in {typed} in.", problem);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("in")]
    [InlineData("-")]
    [InlineData("--1 in")]
    [InlineData("+1 in")]
    [InlineData("1/0 in")]
    [InlineData("1 2 in")]
    [InlineData("1 000 mm")]
    [InlineData("1/2/3 in")]
    [InlineData("1.5.2 in")]
    [InlineData("1,000.5 mm")]
    [InlineData("1. in")]
    [InlineData("1e3 mm")]
    [InlineData("2-3 in")]
    [InlineData("4 in 1 yd")]
    [InlineData("1 in 1 in")]
    [InlineData("1 yd 3 cm")]
    [InlineData("3000 km")]
    [InlineData("3 ells")]
    [InlineData("about 3 in")]
    [InlineData("≈ 3 in")]
    [InlineData("3\u0000 in")]
    [InlineData("3\n in")]
    [InlineData("٣ in")]
    [InlineData("NaN in")]
    [InlineData("\ud800 in")]
    public void Nonsense_is_refused_with_a_sentence(string typed)
    {
        Assert.False(Length.TryParse(typed, out var length, out var problem));
        Assert.Equal(Length.Zero, length);
        Assert.EndsWith(".", problem, StringComparison.Ordinal);
        Assert.DoesNotContain(problem, char.IsControl);
    }

    [Fact]
    public void A_megabyte_is_refused_without_being_repeated()
    {
        foreach (var typed in new[] { new string('9', 1 << 20) + " in", new string('a', 1 << 20), new string(' ', 1 << 20) + "x", new string('-', 1 << 20) })
        {
            Assert.False(Length.TryParse(typed, out _, out var problem));
            Assert.True(problem.Length < 200, "The problem repeats what was typed.");
        }
    }

    [Theory]
    [InlineData("1000.0001 m")]
    [InlineData("3000 yd")]
    [InlineData("-3000 yd")]
    [InlineData("99999999999999999999999999999999 in")]
    public void More_than_a_kilometre_is_refused(string typed)
    {
        Assert.False(Length.TryParse(typed, out _, out var problem));
        Assert.Contains("up to 1 km", problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1 yd 4 in", LengthUnit.Inches)]
    [InlineData("1 nail", LengthUnit.Inches)]
    [InlineData("12,5 cm", LengthUnit.Millimetres)]
    [InlineData("1 m", LengthUnit.Millimetres)]
    [InlineData("gibberish", LengthUnit.Inches)]
    public void Keeps_the_unit_she_thinks_in(string typed, LengthUnit unit) => Assert.Equal(unit, Length.UnitOf(typed));

    [Theory]
    [InlineData("9.525 mm", "3/8 in", "9.525 mm")]
    [InlineData("38.1 mm", "1 1/2 in", "38.1 mm")]
    [InlineData("2 in", "2 in", "50.8 mm")]
    [InlineData("0 in", "0 in", "0 mm")]
    [InlineData("-1/16 in", "-1/16 in", "≈ -1.588 mm")]
    [InlineData("-1 1/2 in", "-1 1/2 in", "-38.1 mm")]
    [InlineData("1/64 in", "1/64 in", "≈ 0.397 mm")]
    [InlineData("0.0001 mm", "≈ 0 in", "≈ 0 mm")]
    [InlineData("-0.0001 mm", "≈ 0 in", "≈ 0 mm")]
    [InlineData("10 mm", "≈ 25/64 in", "10 mm")]
    [InlineData("25.39 mm", "≈ 1 in", "25.39 mm")]
    public void Is_shown_to_a_sixty_fourth_or_to_three_places(string typed, string inches, string millimetres) =>
        Assert.Equal((inches, millimetres), (L(typed).ToText(LengthUnit.Inches), L(typed).ToText(LengthUnit.Millimetres)));

    [Fact]
    public void What_is_shown_exactly_reads_back_exactly() => Gen.Select(Gen.Long[-2_519_685, 2_519_685], Gen.Bool).Sample((count, inches) =>
    {
        var length = inches ? Length.FromSixtyFourthsOfInch(count) : Length.FromMillimetres(count / 1_000m);
        Assert.Equal(length, L(length.ToText(inches ? LengthUnit.Inches : LengthUnit.Millimetres)));
    });

    [Fact]
    public void What_is_shown_about_is_the_nearest() => Any.Sample(length =>
    {
        foreach (var (unit, step) in new[] { (LengthUnit.Inches, 396_875L), (LengthUnit.Millimetres, 1_000L) })
        {
            var text = length.ToText(unit);
            var off = Math.Abs((L(text.Replace("≈ ", "", StringComparison.Ordinal)) - length).Nanometres);
            Assert.InRange(off, 0, step / 2);
            Assert.Equal(off != 0, text.StartsWith("≈ ", StringComparison.Ordinal));
        }
    });

    [Fact]
    public void Inches_and_millimetres_add_without_rounding() => Gen.Select(Gen.Long[0, 100_000], Gen.Int[0, 1_000_000]).Sample((sixtyFourths, micrometres) =>
    {
        var sum = Length.FromSixtyFourthsOfInch(sixtyFourths) + Length.FromMillimetres(micrometres / 1_000m);
        Assert.Equal((sixtyFourths * 0.396875m) + (micrometres / 1_000m), sum.Millimetres);
    });
}
