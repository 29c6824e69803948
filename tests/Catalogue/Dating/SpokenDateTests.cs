using System.Globalization;
using CsCheck;
using HeirloomArchive.Catalogue.Dating;

namespace HeirloomArchive.Catalogue.Tests.Dating;

/// <summary>Dates as people say them, to the recorded form and back into words.</summary>
public class SpokenDateTests
{
    [Theory]
    [InlineData("1905", "1905")]
    [InlineData("in 1905.", "1905")]
    [InlineData("about 1900", "1900~")]
    [InlineData("About 1900", "1900~")]
    [InlineData("around 1900", "1900~")]
    [InlineData("circa 1905", "1905~")]
    [InlineData("c. 1905", "1905~")]
    [InlineData("c.1905", "1905~")]
    [InlineData("c1905", "1905~")]
    [InlineData("ca 1905", "1905~")]
    [InlineData("ca. 1905", "1905~")]
    [InlineData("1905 or so", "1905~")]
    [InlineData("1905ish", "1905~")]
    [InlineData("perhaps 1900", "1900?")]
    [InlineData("1900 (?)", "1900?")]
    [InlineData("perhaps about 1900", "1900%")]
    [InlineData("c. 1900?", "1900%")]
    [InlineData("1890s", "189X")]
    [InlineData("the 1890's", "189X")]
    [InlineData("about the 1890s", "1890~/1899~")]
    [InlineData("before 1910", "../1909")]
    [InlineData("pre-1910", "../1909")]
    [InlineData("before May 1905", "../1905-04")]
    [InlineData("before 1 March 1904", "../1904-02-29")]
    [InlineData("before about 1910", "../1909~")]
    [InlineData("before the 1890s", "../1889")]
    [InlineData("1910 or earlier", "../1910")]
    [InlineData("not later than 1910", "../1910")]
    [InlineData("until 1910", "../1910")]
    [InlineData("by 1910", "../1910")]
    [InlineData("after 1918", "1919/..")]
    [InlineData("after December 1918", "1919-01/..")]
    [InlineData("1918 or later", "1918/..")]
    [InlineData("not before 1918", "1918/..")]
    [InlineData("since 1918", "1918/..")]
    [InlineData("from 1918", "1918/..")]
    [InlineData("from 1918 onwards", "1918/..")]
    [InlineData("between 1895 and 1905", "1895/1905")]
    [InlineData("1895-1905", "1895/1905")]
    [InlineData("1895–1905", "1895/1905")]
    [InlineData("1895 - 1905", "1895/1905")]
    [InlineData("1895-99", "1895/1899")]
    [InlineData("1895/6", "1895/1896")]
    [InlineData("1895 to 1905", "1895/1905")]
    [InlineData("from 1895 to 1905", "1895/1905")]
    [InlineData("about 1895 to 1905", "1895~/1905~")]
    [InlineData("c. 1895-1905", "1895~/1905~")]
    [InlineData("probably between 1895 and 1905", "1895?/1905?")]
    [InlineData("between about 1895 and 1905", "1895~/1905")]
    [InlineData("1890s to 1910s", "1890/1919")]
    [InlineData("spring 1905", "1905-21")]
    [InlineData("summer of 1905", "1905-22")]
    [InlineData("in the fall of 1905", "1905-23")]
    [InlineData("winter 1905", "1905-24")]
    [InlineData("May 1905", "1905-05")]
    [InlineData("Sept. 1905", "1905-09")]
    [InlineData("12 May 1905", "1905-05-12")]
    [InlineData("12th of May, 1905", "1905-05-12")]
    [InlineData("May 12th, 1905", "1905-05-12")]
    [InlineData("25/5/1905", "1905-05-25")]
    [InlineData("5/25/1905", "1905-05-25")]
    [InlineData("5.5.1905", "1905-05-05")]
    [InlineData("May 1905 to 3 June 1906", "1905-05/1906-06-03")]
    [InlineData("1905~", "1905~")]
    [InlineData("1895/..", "1895/..")]
    public void What_the_words_alone_say_is_understood_and_needs_no_note(string said, string edtf)
    {
        var heard = SpokenDate.Read(said);
        Assert.Equal(edtf, heard.Edtf);
        Assert.Empty(heard.Either);
        Assert.Null(heard.Note);
    }

    [Theory]
    [InlineData("early 1890s", "1890/1893", "1890 to 1893")]
    [InlineData("mid-1890s", "1894/1896", "1894 to 1896")]
    [InlineData("in the late 1890s", "1897/1899", "1897 to 1899")]
    [InlineData("late 1890s to early 1900s", "1897/1903", "1897 to 1899")]
    [InlineData("perhaps the early 1890s", "1890?/1893?", "1890 to 1893")]
    [InlineData("1900s", "190X", "20th century")]
    [InlineData("19th century", "18XX", "1800 to 1899")]
    [InlineData("the early 20th century", "1900/1933", "1900 to 1933")]
    [InlineData("end of the 19th century", "1867/1899", "1867 to 1899")]
    [InlineData("second half of the 19th century", "1850/1899", "1850 to 1899")]
    [InlineData("last quarter of the 19th century", "1875/1899", "1875 to 1899")]
    [InlineData("turn of the century", "1895~/1905~", "ten years")]
    [InlineData("before the war of 1914", "../1914-07", "28 July 1914")]
    [InlineData("before the First War", "../1914-07", "28 July 1914")]
    [InlineData("before the Great War", "../1914-07", "28 July 1914")]
    [InlineData("before World War I", "../1914-07", "28 July 1914")]
    [InlineData("during the First World War", "1914-07/1918-11", "11 November 1918")]
    [InlineData("after the war of 1914-18", "1918-11/..", "11 November 1918")]
    [InlineData("the war of 1914 to 1918", "1914-07/1918-11", "11 November 1918")]
    [InlineData("before the war of 1939 to 1945", "../1939-08", "1 September 1939")]
    [InlineData("before the war of 1939", "../1939-08", "1 September 1939")]
    [InlineData("before the war of 1870", "../1870-07", "19 July 1870")]
    [InlineData("between the wars", "1918-11/1939-09", "1939")]
    [InlineData("Victorian", "1837/1901", "1837")]
    [InlineData("Edwardian", "1901/1910", "1910")]
    [InlineData("winter 1905-06", "1905-12/1906-02", "December")]
    [InlineData("1900 or 1901", "1900/1901", "span")]
    public void What_needs_a_rule_says_the_rule(string said, string edtf, string rule)
    {
        var heard = SpokenDate.Read(said);
        Assert.Equal(edtf, heard.Edtf);
        Assert.Contains(rule, heard.Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("12/5/1905", "1905-05-12", "1905-12-05")]
    [InlineData("5.12.1905", "1905-12-05", "1905-05-12")]
    [InlineData("before the war", "../1914-07", "../1939-08")]
    [InlineData("the nineties", "189X", "199X")]
    [InlineData("'90s", "189X", "199X")]
    public void What_has_two_readings_is_asked_and_never_guessed(string said, params string[] either)
    {
        var heard = SpokenDate.Read(said);
        Assert.Null(heard.Edtf);
        Assert.Equal(either, heard.Either);
        Assert.EndsWith("?", heard.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_month_that_may_be_meant_as_a_span_stays_a_month_and_the_span_is_offered()
    {
        var heard = SpokenDate.Read("1905-06");
        Assert.Equal("1905-06", heard.Edtf);
        Assert.Equal(["1905/1906"], heard.Either);
        Assert.Contains("June 1905", heard.Note, StringComparison.Ordinal);
        Assert.Empty(SpokenDate.Read("1905-04").Either);
    }

    [Theory]
    [InlineData("")]
    [InlineData("19th of never")]
    [InlineData("late Victorian")]
    [InlineData("grandmother's time")]
    [InlineData("1905 to 1895")]
    [InlineData("before never")]
    [InlineData("31 February 1905")]
    [InlineData("31/31/1905")]
    [InlineData("12/5/05")]
    [InlineData("0th century")]
    [InlineData("about")]
    [InlineData("undated")]
    [InlineData("١٩٠٥")]
    [InlineData("about ١٩٠٥")]
    [InlineData("12/٥/1905")]
    [InlineData("before 0000")]
    [InlineData("winter 1905-09")]
    public void What_is_not_understood_is_left_alone_and_helped(string said)
    {
        var heard = SpokenDate.Read(said);
        Assert.Null(heard.Edtf);
        Assert.Empty(heard.Either);
        Assert.NotEqual("", heard.Note);
        Assert.NotNull(heard.Note);
    }

    [Theory]
    [InlineData("1900~", "about 1900")]
    [InlineData("1900?", "perhaps 1900")]
    [InlineData("1900%", "perhaps about 1900")]
    [InlineData("190X", "1900s")]
    [InlineData("18XX", "19th century")]
    [InlineData("1895/1905", "1895 to 1905")]
    [InlineData("1895~/1905~", "about 1895 to 1905")]
    [InlineData("1895~/1905", "about 1895 to exactly 1905")]
    [InlineData("1895/1905~", "1895 to about 1905")]
    [InlineData("../1909", "until 1909")]
    [InlineData("/1909", "until 1909, the start not known")]
    [InlineData("1919/..", "from 1919 on")]
    [InlineData("1919/", "from 1919, the end not known")]
    [InlineData("1905-05", "May 1905")]
    [InlineData("1905-05-12", "12 May 1905")]
    [InlineData("1905-22", "summer 1905")]
    [InlineData("1905-XX", "some month of 1905")]
    [InlineData("1905-05-XX", "some day in May 1905")]
    [InlineData("1905-XX-XX", "some day in 1905")]
    [InlineData("1985-04-12T23:20:30Z", "12 April 1985 at 23:20:30Z")]
    [InlineData("Y170000002", "Y170000002")]
    [InlineData("-1985", "-1985")]
    [InlineData("not a date", "not a date")]
    public void A_recorded_date_is_said_in_words(string edtf, string words) => Assert.Equal(words, DateInWords.Say(edtf));

    private static readonly Gen<string> Bare = Gen.Select(Gen.Int[1, 9998], Gen.Int[1, 12], Gen.Int[1, 28], Gen.Int[0, 2], (y, m, d, precision) => precision switch
    {
        0 => y.ToString("0000", CultureInfo.InvariantCulture),
        1 => $"{y:0000}-{m:00}",
        _ => $"{y:0000}-{m:00}-{d:00}",
    });

    private static readonly Gen<string> Marked = Gen.Select(Bare, OneOf("", "~", "?", "%"), (date, mark) => date + mark);

    private static readonly Gen<string> Single = Gen.OneOf(
        Marked,
        Gen.Select(Gen.Int[0, 999], y => $"{y:000}X"),
        Gen.Select(Gen.Int[0, 99], y => $"{y:00}XX"),
        Gen.Select(Gen.Int[0, 9999], Gen.Int[21, 24], (y, s) => $"{y:0000}-{s}"),
        Gen.Select(Gen.Int[0, 9999], y => $"{y:0000}-XX"),
        Gen.Select(Gen.Int[0, 9999], y => $"{y:0000}-XX-XX"),
        Gen.Select(Gen.Int[0, 9999], Gen.Int[1, 12], (y, m) => $"{y:0000}-{m:00}-XX"),
        Gen.Select(Gen.Int[1, 9999], y => $"-{y:0000}"),
        Gen.Select(Gen.Int[10_000, 2_000_000_000], Gen.Bool, (y, before) => before ? $"Y-{y}" : $"Y{y}"),
        Gen.Select(Bare.Where(b => b.Length == 10), OneOf("", "Z", "-04", "+04:30"), (d, zone) => $"{d}T23:20:30{zone}"));

    private static readonly Gen<string> Dates = Gen.OneOf(
        Single,
        Gen.Select(Marked, Marked, (a, b) => $"{a}/{b}").Where(t => Edtf.TryParse(t, out _, out _)),
        Gen.Select(Marked, OneOf("", ".."), Gen.Bool, (date, open, first) => first ? $"{open}/{date}" : $"{date}/{open}"));

    [Fact]
    public void What_is_said_of_any_date_of_levels_0_and_1_is_read_as_the_same_date() => Dates.Sample(edtf =>
    {
        Assert.True(Edtf.TryParse(edtf, out _, out var problem), $"{edtf}: {problem}");
        Assert.Equal(edtf, SpokenDate.Read(DateInWords.Say(edtf)).Edtf);
    });

    [Fact]
    public void Whatever_is_typed_what_comes_out_is_a_date_of_levels_0_and_1() =>
        OneOf("about ", "before ", "1890s", "the ", "war", "between ", " and ", "1905", "-", "/", "?", "c.", "May ", "late ", "19th century", " to ", "12", ".", " or ", "from ", " on", "X")
            .Array[1, 6].Sample(words =>
            {
                var heard = SpokenDate.Read(string.Concat(words));
                Assert.All(heard.Either.Append(heard.Edtf ?? "1905"), edtf => Assert.True(Edtf.TryParse(edtf, out _, out _), edtf));
            });

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
