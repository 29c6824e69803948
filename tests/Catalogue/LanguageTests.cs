using System.Globalization;
using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Catalogue.Measuring;
using HeirloomArchive.Sewing;
using HeirloomArchive.Sewing.Language;

namespace HeirloomArchive.Catalogue.Tests;

/// <summary>What this room says to a person comes in her language; what it keeps and reads is English.</summary>
public sealed class LanguageTests
{
    private static readonly CultureInfo MadeUp = CultureInfo.GetCultureInfo(Languages.MadeUp);

    [Theory]
    [InlineData("1900~")]
    [InlineData("190X")]
    [InlineData("18XX")]
    [InlineData("1895/1905")]
    [InlineData("1905-05-12/..")]
    [InlineData("1905-21")]
    [InlineData("1905-XX-XX")]
    [InlineData("/1905?")]
    public void A_date_is_said_in_the_readers_language_and_in_English_for_the_record(string date)
    {
        var english = DateInWords.Say(date);
        CultureInfo.CurrentUICulture = MadeUp;
        Assert.StartsWith("‹", DateInWords.Say(date), StringComparison.Ordinal);
        Assert.Equal(english, DateInWords.SayInEnglish(date));
        Assert.Equal(MadeUp, CultureInfo.CurrentUICulture);
    }

    [Theory]
    [InlineData("tomorrow")]
    [InlineData("before the war")]
    [InlineData("edwardian")]
    [InlineData("12/5/1905")]
    [InlineData("early 1890s")]
    public void What_is_spoken_is_read_as_English_and_answered_in_the_readers_language(string said)
    {
        var english = SpokenDate.Read(said);
        CultureInfo.CurrentUICulture = MadeUp;
        var heard = SpokenDate.Read(said);
        Assert.Equal((english.Edtf, string.Join(' ', english.Either)), (heard.Edtf, string.Join(' ', heard.Either)));
        Assert.StartsWith("‹", heard.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_refusal_is_in_the_readers_language()
    {
        CultureInfo.CurrentUICulture = MadeUp;
        var faults = new List<Fault>();
        GarmentShape.Garment.Read(
            JsonNode.Parse("""{"name":5,"number":"a\nb","kind":"nothing-of-the-sort","dated":"1905-13","overall":"splendid","measures":{},"nmae":"","techniques":[{"kind":"tucks","sewnLength":"0 in"}],"belongsWith":["x",null]}""")!,
            "", faults);
        Assert.Equal(10, faults.Count);
        Assert.All(faults, f => Assert.Matches("^‹.+›$", f.Message));
    }

    [Fact]
    public void Doubts_about_measures_are_in_the_readers_language()
    {
        var garment = JsonNode.Parse("""{"measures":[{"name":"chest","taken":"flat-width","length":{"mm":254,"text":"10 in"}},{"name":"chest","taken":"flat-width","length":{"mm":508,"text":"20 in"}}]}""")!.AsObject();
        var english = Assert.Single(MeasureDoubts.Of(garment));
        Assert.Contains("both flat width: 10 in and 20 in", english, StringComparison.Ordinal);
        CultureInfo.CurrentUICulture = MadeUp;
        Assert.Matches("^‹.+10 in.+›$", Assert.Single(MeasureDoubts.Of(garment)));
    }
}
