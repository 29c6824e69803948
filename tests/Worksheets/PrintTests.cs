using System.Text.Json;
using System.Text.Json.Nodes;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace HeirloomArchive.Worksheets.Tests;

public class PrintTests
{
    private const double Millimetre = 72 / 25.4;

    [Theory]
    [InlineData("A4", false, 210, 297)]
    [InlineData("A4", true, 297, 210)]
    [InlineData("letter", false, 215.9, 279.4)]
    [InlineData("letter", true, 279.4, 215.9)]
    public void Control_marks_measure_fifty_millimetres_and_two_inches(string paper, bool landscape, double width, double height)
    {
        using var print = Printed(Examples.Five($$"""{"paper":"{{paper}}","landscape":{{(landscape ? "true" : "false")}}}"""));
        var page = print.GetPages().Last();

        Assert.Equal(width, page.Width / Millimetre, 0.01);
        Assert.Equal(height, page.Height / Millimetre, 0.01);
        var across = Lines(page).Where(l => Math.Abs(l.From.Y - l.To.Y) < 0.001).Select(l => Math.Abs(l.To.X - l.From.X) / Millimetre).ToList();
        Assert.Contains(across, l => Math.Abs(l - 50) < 0.01);
        Assert.Contains(across, l => Math.Abs(l - 50.8) < 0.01);
    }

    [Fact] public void Notches_of_the_gauge_stand_at_true_size_from_its_end()
    {
        var request = Examples.Five();
        request["plan"]!["testStrip"] = Examples.Object(Examples.Strip);
        using var print = Printed(request);
        var upright = print.GetPages().SelectMany(Lines).Where(l => Math.Abs(l.From.X - l.To.X) < 0.001).ToList();
        var end = upright.Min(l => l.From.X);

        foreach (var notch in (double[])[3.175, 9.525, 12.7, 12.85875])
        {
            Assert.Contains(upright, l => Math.Abs(((l.From.X - end) / Millimetre) - notch) < 0.01);
        }
    }

    [Fact] public void Every_number_of_the_table_can_be_found_in_the_text()
    {
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":60,"width":"1/16 in","space":"5/32 in"}],"lead":"2 in","trail":"2 in"},"unit":"in16","allow":{"start":"5/8 in"}}""");
        using var print = PdfDocument.Open(WorksheetPdf.Render(worksheet));
        var text = string.Join('\n', print.GetPages().Select(p => string.Join(' ', p.GetWords().Select(w => w.Text))));

        foreach (var row in worksheet.Result["positions"]!["rows"]!.AsArray())
        {
            foreach (var shown in row!["lines"]!.AsArray().SelectMany(l => (string[])[Shown(l!["fromDatum"]), Shown(l["fromCutEdge"])]))
            {
                Assert.Contains(shown, text, StringComparison.Ordinal);
            }
        }

        string Shown(JsonNode? length) => length!["text"]!.GetValue<string>().Replace(" in", "", StringComparison.Ordinal);
    }

    [Fact] public void The_same_worksheet_prints_the_same_bytes_before_and_after_it_was_stored()
    {
        var worksheet = Examples.Made(Examples.Five($$"""{"garment":"{{Examples.GarmentId}}","techniques":["pin","lace"]}"""));
        var stored = JsonSerializer.Deserialize<Worksheet>(JsonSerializer.Serialize(worksheet))!;

        var first = WorksheetPdf.Render(worksheet);
        Assert.True(first.AsSpan().SequenceEqual(WorksheetPdf.Render(worksheet)));
        Assert.True(first.AsSpan().SequenceEqual(WorksheetPdf.Render(stored)));
        Assert.Equal(worksheet.ToJson().ToJsonString(), stored.ToJson().ToJsonString());
    }

    [Fact] public void The_print_is_tagged_and_names_its_title_and_language()
    {
        var file = WorksheetPdf.Render(Examples.Made(Examples.Five("""{"title":"Five tucks for Whitsun"}""")));
        using var print = PdfDocument.Open(file);
        var text = System.Text.Encoding.Latin1.GetString(file);

        Assert.Equal("Five tucks for Whitsun", print.Information.Title);
        Assert.Contains("/Lang(en)", text, StringComparison.Ordinal);
        Assert.Contains("/StructTreeRoot", text, StringComparison.Ordinal);
        Assert.Contains("/Marked true", text, StringComparison.Ordinal);
    }

    [Fact] public void No_word_leaves_the_page_or_its_margin()
    {
        var title = string.Join(' ', Enumerable.Repeat("Tuckedyokeswithinsertion", 5));
        using var print = Printed(Examples.Five($$"""{"title":"{{title}}","notes":"{{new string('w', 400)}}","thread":"{{new string('m', 150)}}"}"""));
        foreach (var page in print.GetPages())
        {
            Assert.All(page.Letters, l => Assert.InRange(l.BoundingBox.Left, 12 * Millimetre, page.Width - (12 * Millimetre)));
            Assert.All(page.Letters, l => Assert.InRange(l.BoundingBox.Right, 12 * Millimetre, page.Width - (12 * Millimetre)));
            Assert.All(page.Letters, l => Assert.InRange(l.StartBaseLine.Y, 12 * Millimetre, page.Height - (12 * Millimetre)));
        }
    }

    private static PdfDocument Printed(JsonObject request) => PdfDocument.Open(WorksheetPdf.Render(Examples.Made(request)));

    private static IEnumerable<PdfSubpath.Line> Lines(Page page) =>
        page.Paths.SelectMany(p => p).SelectMany(s => s.Commands).OfType<PdfSubpath.Line>();
}
