namespace HeirloomArchive.Sewing.Tests;

public class UnbrokenTests
{
    /// <summary>A low line stands for the space that does not break.</summary>
    [Theory]
    [InlineData("fold on line 2 (≈ 3 5/8 in from the centre), bring 2a to 2b", "fold on line 2 (≈_3_5/8_in from the centre), bring 2a to 2b")]
    [InlineData("5 tucks 1/8 in wide, 54 mm apart", "5 tucks 1/8_in wide, 54_mm apart")]
    [InlineData("Tuck 1, start half; nothing to keep together", "Tuck 1, start half; nothing to keep together")]
    [InlineData("", "")]
    public void A_length_stays_on_one_line(string text, string kept) => Assert.Equal(kept, Unbroken.Of(text).Replace(Unbroken.Space, '_'));

    [Fact]
    public void Every_length_as_it_is_shown_has_no_place_where_a_line_may_end() => CsCheck.Check.Sample(
        CsCheck.Gen.Long[1, 3_000_000_000],
        nanometres => Assert.All([LengthUnit.Inches, LengthUnit.Millimetres], unit =>
            Assert.DoesNotContain(' ', Unbroken.Of(Length.FromNanometres(nanometres).ToText(unit)))));
}
