namespace HeirloomArchive.Catalogue.Tests;

/// <summary>
/// Dates against the Library of Congress, Extended Date/Time Format Specification, 4 February 2019, levels 0 and 1
/// (the examples are the specification's own unless marked).
/// </summary>
public class EdtfTests
{
    [Theory]
    [InlineData("1985-04-12")]
    [InlineData("1985-04")]
    [InlineData("1985")]
    [InlineData("1985-04-12T23:20:30")]
    [InlineData("1985-04-12T23:20:30Z")]
    [InlineData("1985-04-12T23:20:30-04")]
    [InlineData("1985-04-12T23:20:30+04:30")]
    [InlineData("1964/2008")]
    [InlineData("2004-06/2006-08")]
    [InlineData("2004-02-01/2005-02-08")]
    [InlineData("2004-02-01/2005-02")]
    [InlineData("2004-02-01/2005")]
    [InlineData("2005/2006-02")]
    public void Level_0_is_read(string text) => Assert.True(Edtf.TryParse(text, out _, out var problem), problem);

    [Theory]
    [InlineData("Y170000002")]
    [InlineData("Y-170000002")]
    [InlineData("2001-21")]
    [InlineData("1984?")]
    [InlineData("2004-06~")]
    [InlineData("2004-06-11%")]
    [InlineData("201X")]
    [InlineData("20XX")]
    [InlineData("2004-XX")]
    [InlineData("1985-04-XX")]
    [InlineData("1985-XX-XX")]
    [InlineData("1985-04-12/..")]
    [InlineData("1985-04/..")]
    [InlineData("1985/..")]
    [InlineData("../1985-04-12")]
    [InlineData("../1985")]
    [InlineData("1985-04-12/")]
    [InlineData("1985/")]
    [InlineData("/1985-04-12")]
    [InlineData("/1985")]
    [InlineData("1984~/2004-06")]
    [InlineData("1984/2004-06~")]
    [InlineData("1984?/2004%")]
    [InlineData("1984-06-02?/2004-08-08~")]
    [InlineData("-1985")]
    public void Level_1_is_read(string text) => Assert.True(Edtf.TryParse(text, out _, out var problem), problem);

    [Theory]
    [InlineData("1985-04-12T23:20:30Z/..~")]
    [InlineData("156X-12-25")] // level 2, as the next five
    [InlineData("15XX-12-25")]
    [InlineData("1984-1X")]
    [InlineData("2004-06-~01/2004-06-~20")]
    [InlineData("[1667,1668,1670..1672]")]
    [InlineData("2001-25")]
    [InlineData("Y-17E7")]
    [InlineData("1950S2")]
    [InlineData("190X/192X")]
    [InlineData("190X~")]
    [InlineData("2001-21~")]
    [InlineData("1985-04-12T23:20:30Z~")]
    [InlineData("2004-13")] // no such month, day or form
    [InlineData("2004-00")]
    [InlineData("2004-06-31")]
    [InlineData("1900-02-29")]
    [InlineData("1985-4-12")]
    [InlineData("20050924T100000")]
    [InlineData("19850412")]
    [InlineData("19")]
    [InlineData("12345")]
    [InlineData("Y1985")]
    [InlineData("-0000")]
    [InlineData("1985-04-12T25:00:00")]
    [InlineData("1985-04T10:00:00")]
    [InlineData("about 1900")]
    [InlineData("c. 1900")]
    [InlineData("")]
    [InlineData("/")]
    [InlineData("../..")]
    [InlineData("1905/1895")]
    [InlineData("1905/1906/1907")]
    [InlineData("1905 ")]
    [InlineData("١٩٠٥")]
    public void What_is_of_neither_level_is_refused_with_a_reason(string text)
    {
        Assert.False(Edtf.TryParse(text, out var date, out var problem));
        Assert.Null(date);
        Assert.NotEqual("", problem);
    }

    [Theory]
    [InlineData("190u", "X")]
    [InlineData("unknown/1985", "empty")]
    [InlineData("1985/open", "two full stops")]
    [InlineData("y170000002", "Y")]
    [InlineData("1984?~", "%")]
    [InlineData("190x", "X")]
    public void Old_drafts_are_refused_and_told_what_is_written_now(string text, string hint)
    {
        Assert.False(Edtf.TryParse(text, out _, out var problem));
        Assert.Contains(hint, problem, StringComparison.Ordinal);
    }

    // Which years a date can be is our own rule for search: ? ~ % do not widen, X is 0 to 9, open ends have no bound.
    [Theory]
    [InlineData("1905", 1905, 1905)]
    [InlineData("1905~", 1905, 1905)]
    [InlineData("1905?", 1905, 1905)]
    [InlineData("1905%", 1905, 1905)]
    [InlineData("190X", 1900, 1909)]
    [InlineData("19XX", 1900, 1999)]
    [InlineData("-190X", -1909, -1900)]
    [InlineData("1908-XX", 1908, 1908)]
    [InlineData("1908-24", 1908, 1908)]
    [InlineData("1895/1905", 1895, 1905)]
    [InlineData("1895~/1905?", 1895, 1905)]
    [InlineData("1985/..", 1985, null)]
    [InlineData("1985/", 1985, null)]
    [InlineData("../1985", null, 1985)]
    [InlineData("/1985", null, 1985)]
    [InlineData("Y170000002", 170000002, 170000002)]
    public void The_years_it_can_be(string text, int? from, int? to)
    {
        Assert.True(Edtf.TryParse(text, out var date, out var problem), problem);
        Assert.Equal((from, to), date.Years);
    }

    [Fact]
    public void A_decade_runs_from_its_first_day_to_its_last()
    {
        Assert.True(Edtf.TryParse("190X", out var date, out _));
        Assert.Equal((1900, 1, 1), date.Start!.Value.From);
        Assert.Equal((1909, 12, 31), date.Start!.Value.To);
    }

    [Fact]
    public void An_unspecified_month_has_the_precision_of_a_month_and_a_year_has_not()
    {
        Assert.True(Edtf.TryParse("2004-XX", out var month, out _));
        Assert.True(Edtf.TryParse("2004", out var year, out _));
        Assert.Equal("month", month.Start!.Value.Precision);
        Assert.Equal("year", year.Start!.Value.Precision);
        Assert.NotEqual(month.Start, year.Start);
    }

    [Fact]
    public void An_open_end_is_not_an_unknown_one()
    {
        Assert.True(Edtf.TryParse("1985-04-12/..", out var open, out _));
        Assert.True(Edtf.TryParse("1985-04-12/", out var unknown, out _));
        Assert.True(open.OpenEnd);
        Assert.False(unknown.OpenEnd);
    }

    [Theory]
    [InlineData("1984", EdtfMark.None)]
    [InlineData("1984?", EdtfMark.Uncertain)]
    [InlineData("1984~", EdtfMark.Approximate)]
    [InlineData("1984%", EdtfMark.Both)]
    public void The_mark_at_the_end_says_how_sure_it_is(string text, EdtfMark mark)
    {
        Assert.True(Edtf.TryParse(text, out var date, out _));
        Assert.Equal(mark, date.Start!.Value.Mark);
    }

    [Fact]
    public void Every_day_that_the_calendar_has_is_read_and_no_other()
    {
        for (var year = 1896; year <= 1904; year++)
        {
            for (var month = 0; month <= 13; month++)
            {
                for (var day = 0; day <= 32; day++)
                {
                    var exists = month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month);
                    Assert.Equal(exists, Edtf.TryParse($"{year:0000}-{month:00}-{day:00}", out _, out _));
                }
            }
        }
    }
}
