using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using UglyToad.PdfPig;

namespace HeirloomArchive.Worksheets.Tests;

public class TeachingTests
{
    /// <summary>5 tucks of 1/8 in, 1/4 in between, 2 in before and after: each takes 1/4 in, all 1 1/4 in; 5 5/8 in sewn from 6 7/8 in; folds 3 × 1/8 + 1/4 = 5/8 in apart.</summary>
    [Fact] public void Questions_have_the_answers_worked_by_hand()
    {
        var asked = Examples.Made(Examples.Five()).Result["teaching"]!.AsArray();
        string Answer(string about) => Assert.Single(asked, q => q!["question"]!.GetValue<string>().Contains(about, StringComparison.Ordinal))!["answer"]!.GetValue<string>();

        Assert.StartsWith("1/4 in (", Answer("one tuck of 1/8 in"), StringComparison.Ordinal);
        Assert.StartsWith("1 1/4 in (", Answer("all 5 tucks"), StringComparison.Ordinal);
        Assert.StartsWith("5 5/8 in (", Answer("when it is sewn"), StringComparison.Ordinal);
        Assert.StartsWith("6 7/8 in (", Answer("must the cloth be cut"), StringComparison.Ordinal);
        Assert.StartsWith("5/8 in (", Answer("one fold to the next"), StringComparison.Ordinal);
    }

    /// <summary>What a class is told is all it needs to compute what is asked: every width, and all the plain cloth.</summary>
    [Theory]
    [InlineData("""{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"},{"tucks":1,"width":"1/4 in"}],"between":["1 in"],"lead":"2 in","trail":"3 in"}""",
        "2 tucks 1/8 in wide with 1/4 in of plain cloth between; then 1 in of plain cloth and 1 tuck 1/4 in wide; 2 in plain before and 3 in after. They lie towards the end.")]
    [InlineData("""{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}],"centre":"1 in","trail":"2 in","lies":"from-centre"}""",
        "In the middle 1 in of plain cloth; from there outwards, on each side: 2 tucks 1/8 in wide with 1/4 in of plain cloth between; 2 in plain at each end. They lie from the centre.")]
    [InlineData("""{"groups":[{"tucks":3,"width":"1/4 in","space":"-1/8 in"},{"tucks":2,"width":"1/4 in","space":"0 in"}],"between":["-1/16 in"],"lead":"1 in","trail":"1 in"}""",
        "3 tucks 1/4 in wide, overlapping by 1/8 in; then an overlap of 1/16 in and 2 tucks 1/4 in wide, meeting; 1 in plain before and 1 in after. They lie towards the end.")]
    public void A_class_is_told_all_the_plain_cloth(string plan, string told) =>
        Assert.Equal(told, Examples.Made($$"""{"plan":{{plan}} }""").Result["given"]![0]!.GetValue<string>());

    [Fact] public void A_hand_out_tells_the_plan_and_no_answer_and_the_answer_page_has_them_all()
    {
        var worksheet = Examples.Made(Examples.Five("""{"allow":{"start":"1/2 in"}}"""));
        var (handOut, answers) = (Text(WorksheetPdf.Teaching(worksheet, answers: false)), Text(WorksheetPdf.Teaching(worksheet, answers: true, 12)));

        Assert.Contains("5tucks1/8inwidewith1/4inofplainclothbetween;2inplainbeforeand2inafter.", handOut, StringComparison.Ordinal);
        foreach (var question in worksheet.Result["teaching"]!.AsArray())
        {
            var answer = Squeezed(question!["answer"]!.GetValue<string>());
            Assert.Contains(Squeezed(question["question"]!.GetValue<string>()), handOut, StringComparison.Ordinal);
            Assert.DoesNotContain(answer, handOut, StringComparison.Ordinal);
            Assert.Contains(answer, answers, StringComparison.Ordinal);
        }

        foreach (var fold in Examples.Positions(worksheet, "fromDatum", 1).Where(f => f.Contains('/', StringComparison.Ordinal)))
        {
            Assert.DoesNotContain(Squeezed(fold), handOut, StringComparison.Ordinal);
            Assert.Contains(Squeezed(fold), answers, StringComparison.Ordinal);
        }

        Assert.Contains("Foraclassof12", answers, StringComparison.Ordinal);
        Assert.Contains("12needles,countedoutandcountedbackin", answers, StringComparison.Ordinal);
        Assert.DoesNotContain("1a", handOut.Replace("1/8in", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    /// <summary>What is said of children's clothes comes last among the cautions: it must not be cut off.</summary>
    [Fact] public void A_class_is_told_every_caution_those_of_childrens_clothes_too()
    {
        var worksheet = Examples.Made(Examples.Five($$"""{"garment":"{{Examples.GarmentId}}","technique":"pin"}"""));
        var handOut = Text(WorksheetPdf.Teaching(worksheet, answers: false));
        Assert.Contains("Nocordsorneckribbons", handOut, StringComparison.Ordinal);
        Assert.All(worksheet.Cautions.AsArray().Where(c => c!["reason"] is not null), c => Assert.Contains(Squeezed(c!["text"]!.GetValue<string>()), handOut, StringComparison.Ordinal));
    }

    [Fact] public void Hand_outs_of_sections_and_twin_needle_tucks_are_the_same_bytes_each_time()
    {
        const string pin = """{"plan":{"groups":[{"tucks":3,"width":"1/16 in","space":"1/4 in"}]} }""";
        foreach (var worksheet in new[] { Examples.Made($$"""{"sections":[{{pin}},{"insertion":{"width":"1 in"} }],"mirrored":true}"""), Examples.Made($$"""{"plan":{{TwinNeedleTests.Three}} }""") })
        {
            Assert.Equal(WorksheetPdf.Teaching(worksheet, answers: false), WorksheetPdf.Teaching(worksheet, answers: false));
            Assert.NotEqual(WorksheetPdf.Teaching(worksheet, answers: false), WorksheetPdf.Teaching(worksheet, answers: true));
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(501)]
    public void A_class_has_someone_in_it_and_fits_a_school(int pupils) => Assert.Equal("pupils",
        Assert.Single(Assert.Throws<FaultException>(() => WorksheetPdf.Teaching(Examples.Made(Examples.Five()), true, pupils)).Faults).Path);

    [Fact] public void Positions_stand_in_both_units_each_rounded_by_itself()
    {
        JsonNode First(string unit) => Examples.Made(Examples.Five($$"""{"unit":"{{unit}}"}""")).Result["positions"]!["rows"]![0]!["lines"]![1]!;

        // The first fold at 2 1/8 in, 53.975 mm.
        Assert.Equal(["2 1/8 in", "≈ 54 mm"], new[] { First("in16")["fromDatum"]!["text"]!.GetValue<string>(), First("in16")["fromDatumBeside"]!.GetValue<string>() });
        Assert.Equal(["≈ 54 mm", "2 1/8 in"], new[] { First("mm")["fromDatum"]!["text"]!.GetValue<string>(), First("mm")["fromDatumBeside"]!.GetValue<string>() });
    }

    private static string Text(byte[] file)
    {
        using var print = PdfDocument.Open(file);
        return Squeezed(string.Concat(print.GetPages().SelectMany(p => p.Letters.Where(l => l.StartBaseLine.Y > 61)).Select(l => l.Value)));
    }

    private static string Squeezed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
}
