using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using UglyToad.PdfPig;

namespace HeirloomArchive.Worksheets.Tests;

public class LettersTests
{
    [Theory]
    [InlineData("""{"title":"Tucks שמלה"}""", "title", "U+05E9")]
    [InlineData("""{"notes":"for Ida 👗"}""", "notes", "U+1F457")]
    [InlineData("""{"thread":"絹"}""", "thread", "U+7D79")]
    [InlineData("""{"needle":"لا"}""", "needle", "U+0644")]
    [InlineData("""{"cloth":{"word":"ผ้า"}}""", "cloth.word", "U+0E1C")]
    public void A_letter_that_the_print_does_not_have_is_named_with_its_field(string more, string path, string letter)
    {
        var fault = Assert.Single(Assert.Throws<FaultException>(() => Examples.Made(Examples.Five(more))).Faults);
        Assert.Equal(path, fault.Path);
        Assert.Contains(letter, fault.Message, StringComparison.Ordinal);
        Assert.Equal(FaultKind.Senseless, fault.Kind);
    }

    [Theory]
    [InlineData("Ça été, Łódź, Přerov, Ås: 1½″ × ¾", "Ça été, Łódź, Přerov, Ås: 1½″ × ¾")]
    [InlineData("Cafe\u0301 \u200d\u202eplain", "Café plain")]
    [InlineData("Ελλάδα и Россия", "Ελλάδα и Россия")]
    public void Letters_of_Europe_fine_signs_and_unseen_marks_come_out_as_text(string title, string printed)
    {
        using var print = PdfDocument.Open(WorksheetPdf.Render(Examples.Made(Examples.Five(new JsonObject { ["title"] = title }.ToJsonString()))));
        var letters = string.Concat(print.GetPage(1).Letters.Select(l => l.Value));
        Assert.Contains(printed, letters, StringComparison.Ordinal);
        Assert.DoesNotContain("\ufffd", letters, StringComparison.Ordinal);
        Assert.DoesNotContain("\0", letters, StringComparison.Ordinal);
    }

    [Fact] public void Letters_of_the_record_that_can_not_be_printed_are_left_out_and_told()
    {
        var garment = Examples.Garment();
        garment["name"] = "שמלה Baby dress 👗";
        var worksheet = WorksheetMaker.Make(Examples.Five($$"""{"garment":"{{Examples.GarmentId}}","techniques":["pin"]}"""), garment, Examples.Noon);

        Assert.StartsWith("After Baby dress (", worksheet.Result["source"]!.GetValue<string>(), StringComparison.Ordinal);
        var caution = Assert.Single(worksheet.Cautions, c => c!["code"]!.GetValue<string>() == "letters-left-out");
        Assert.Contains("U+05E9", caution!["text"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.NotEmpty(WorksheetPdf.Render(worksheet));
    }
}
