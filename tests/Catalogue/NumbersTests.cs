using CsCheck;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>The next number follows her own pattern.</summary>
public sealed class NumbersTests(ArchiveFixture fixture) : IClassFixture<ArchiveFixture>
{
    [Theory]
    [InlineData("G-014", "G-015")]
    [InlineData("G-099", "G-100")]
    [InlineData("G-999", "G-1000")]
    [InlineData("7", "8")]
    [InlineData("2024.15", "2024.16")]
    [InlineData("12 a", "13 a")]
    [InlineData("00000000000000000000000000000009", "00000000000000000000000000000010")]
    [InlineData("the blue one", null)]
    public void The_number_after_keeps_what_stands_round_its_digits_and_their_zeros(string number, string? next) =>
        Assert.Equal(next, Numbers.After(number));

    [Theory]
    [InlineData("G-001 G-014 G-002 H-200", "G-014")]
    [InlineData("G-9 G-10 G-8", "G-10")]
    [InlineData("G-0014 G-015", "G-015")]
    [InlineData("A-1 B-1", "A-1")]
    [InlineData("2023.9 2024.1 2024.2", "2024.2")]
    [InlineData("first second", null)]
    [InlineData("", null)]
    public async Task The_greatest_is_that_of_the_commonest_pattern(string numbers, string? greatest)
    {
        Assert.Equal(greatest, await InDatabase(numbers.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(n => NumberReservation.Of(n, Guid.Empty))));
        await InDatabase([]);
    }

    [Fact]
    public void The_number_after_the_greatest_is_none_of_those_there() =>
        Gen.Select(Gen.Int[0, 1200], Gen.Int[0, 2].Select(i => ((string[])["G-", "H", ""])[i]), Gen.Int[1, 4], (n, before, digits) => before + n.ToString(System.Globalization.CultureInfo.InvariantCulture).PadLeft(digits, '0')).Array[1, 40]
            .Sample(numbers => !numbers.Contains(Numbers.After(Greatest(numbers)!)));

    [Fact]
    public async Task The_database_finds_the_greatest_as_the_rule_does_those_taken_before_patterns_were_kept_too()
    {
        await Gen.Select(Gen.Int[0, 1200], Gen.Int[0, 4], Gen.Int[1, 5], Gen.Bool, (n, form, digits, old) => (Number: string.Format(System.Globalization.CultureInfo.InvariantCulture, ((string[])["G-{0}", "{0}", "2024.{0}", "{0}A", "\u05d0{0}\\%_"])[form], n.ToString(System.Globalization.CultureInfo.InvariantCulture).PadLeft(digits, '0')), Old: old))
            .Array[0, 30].SampleAsync(async drawn =>
            {
                var numbers = drawn.DistinctBy(n => n.Number).ToArray();   // no two pieces have one number
                var found = await InDatabase(numbers.Select(n => n.Old ? new NumberReservation { Id = n.Number } : NumberReservation.Of(n.Number, Guid.Empty)));
                Assert.Equal(Count(Greatest(numbers.Select(n => n.Number))), Count(found));
            }, iter: 30, threads: 1);
        await InDatabase([]);
    }

    // The rule in a few words; the database is asked for it in SQL.
    private static string? Greatest(IEnumerable<string> numbers) => numbers
        .Select(n => (Number: n, Numbers.Pattern(n).Pattern, Numbers.Pattern(n).Place)).Where(n => n.Place is not null)
        .GroupBy(n => n.Pattern).OrderByDescending(p => p.Count()).ThenBy(p => p.Key, StringComparer.Ordinal).FirstOrDefault()?
        .MaxBy(n => n.Place, StringComparer.Ordinal).Number;

    // What the database finds among these reservations alone.
    private async Task<string?> InDatabase(IEnumerable<NumberReservation> taken)
    {
        var stop = TestContext.Current.CancellationToken;
        await using var session = fixture.Store.LightweightSession();
        session.DeleteWhere<NumberReservation>(n => n.Id != "");
        session.Store(taken);
        await session.SaveChangesAsync(stop);
        return (await NumberReservation.Greatest(session, stop))?.Id;
    }

    // G-07 and G-7 count the same.
    private static (string, string?)? Count(string? number) => number is null ? null : Numbers.Pattern(number);

    [Fact]
    public async Task An_archive_proposes_the_number_as_she_writes_it_and_counts_what_is_set_aside()
    {
        var stop = TestContext.Current.CancellationToken;
        Assert.Null(await fixture.Archive.NextNumber(stop));
        await fixture.Enter("""{"number":"q-8","name":"One"}""");
        var aside = await fixture.Enter("""{"number":"q-9","name":"Two"}""");
        await fixture.Archive.SetAside(aside.Garment.Id, 1, "teacher", stop);
        Assert.Equal("q-10", await fixture.Archive.NextNumber(stop));
    }
}
