using System.Globalization;
using System.Xml.Linq;
using HeirloomArchive.Sewing.Language;

namespace HeirloomArchive.Sewing.Tests.Language;

public class TranslationTests
{
    private static readonly Translation German = Translation.Read(XDocument.Parse("""
        <xliff xmlns="urn:oasis:names:tc:xliff:document:2.0" version="2.0" srcLang="en" trgLang="de"><file id="texts">
        <unit id="a"><segment><source>Save the piece</source><target>Das Stück sichern</target></segment></unit>
        <unit id="b"><segment><source>{0} of {1} are kept</source><target>Von {1} sind {0} gesichert</target></segment></unit>
        <unit id="c"><segment><source>{0} piece|{0} pieces</source><target>{0} Stück|{0} Stücke</target></segment></unit>
        <unit id="d"><segment><source>Not yet</source></segment></unit>
        <unit id="e"><segment><source>{0} tucks</source><target>{1} Biesen</target></segment></unit>
        <unit id="f"><segment><source>{0} folds</source><target>{0 Falten</target></segment></unit>
        </file></xliff>
        """));

    [Fact]
    public void A_text_comes_in_the_language_and_its_values_where_that_wants_them()
    {
        Assert.Equal("Das Stück sichern", German.Find("Save the piece"));
        Assert.Equal("Von 12 sind 3 gesichert", Said($"{3} of {12} are kept").In(German));
        Assert.Equal("3 of 12 are kept", Said($"{3} of {12} are kept").In(null));
    }

    [Fact]
    public void What_has_no_target_or_one_with_other_places_stays_English()
    {
        Assert.Null(German.Find("Not yet"));
        Assert.Equal("7 tucks", Said($"{7} tucks").In(German));
        Assert.Equal("7 folds", Said($"{7} folds").In(German));
        Assert.Equal(3, German.Count);
    }

    [Theory]
    [InlineData(1, "{0} Stück")]
    [InlineData(0, "{0} Stücke")]
    [InlineData(5, "{0} Stücke")]
    public void The_form_goes_with_the_number(long number, string form) => Assert.Equal(form, German.Find("{0} piece|{0} pieces", number));

    [Fact]
    public void Braces_of_the_text_stand_and_values_are_written_by_the_culture()
    {
        Assert.Equal("{a} 0.5", Said($"{{a}} {0.5m}").In(null));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal("0,50 wide", Said($"{0.5m:0.00} wide").In(null));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    /// <summary>English where nobody asks for another, the made-up language where it is asked for, whatever stands in the sentence.</summary>
    [Fact]
    public void The_reader_decides()
    {
        Assert.Equal("Save the piece", Texts.T("Save the piece"));
        Assert.Equal("1 piece", Texts.N(1, $"{1} piece", $"{1} pieces"));
        Assert.Equal("", Texts.T((string?)null));
        var before = CultureInfo.CurrentUICulture;
        try
        {
            CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(Languages.MadeUp);
            Assert.Equal("‹Saáveé›", Texts.T("Save"));
            Assert.Equal("‹Saáveé›", Texts.T(Texts.T("Save")));
            Assert.Equal("‹3 oóf e›", Texts.T($"{3} of {"e"}"));
            Assert.Equal("‹2 piíeéceés›", Texts.N(2, $"{2} piece", $"{2} pieces"));
            Assert.Equal("‹<a href='x'>aá</a> &amp;›", Texts.T("<a href='x'>a</a> &amp;"));
        }
        finally
        {
            CultureInfo.CurrentUICulture = before;
        }
    }

    [Theory]
    [InlineData("<xliff xmlns='urn:oasis:names:tc:xliff:document:2.0' version='2.0' srcLang='en'/>")]
    [InlineData("<texts trgLang='de'/>")]
    public void Another_document_is_refused(string document) => Assert.Throws<FormatException>(() => Translation.Read(XDocument.Parse(document)));

    private static Sentence Said(Sentence sentence) => sentence;
}
