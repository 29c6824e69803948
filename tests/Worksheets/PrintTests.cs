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

    [Theory]
    [InlineData("17 mm", "in16", "17 mm")]
    [InlineData("1 yd 4 1/2 in", "mm", "1 yd 4 1/2 in")]
    [InlineData("3/4 in", "in16", "3/4")]
    public void An_insertions_width_keeps_its_unit_in_a_table_of_the_other(string width, string unit, string printed)
    {
        using var print = Printed(Examples.Object($$"""{"sections":[{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"1/4 in"}]} },{"insertion":{"width":"{{width}}"} }],"unit":"{{unit}}"}"""));
        Assert.Contains(Rows(print), r => r.Count > 1 && (r[0], r[1]) == ("L1", printed));
    }

    /// <summary>Nun's tucks along nine metres, to a thirty-second of an inch: numbers as long as they come.</summary>
    [Theory]
    [InlineData("A4", "in32")]
    [InlineData("letter", "in32")]
    [InlineData("A4", "mm")]
    public void Numbers_of_the_head_and_of_the_table_never_touch(string paper, string unit)
    {
        var worksheet = Examples.Made($$"""{"plan":{"groups":[{"tucks":20,"width":"127.3 mm","space":"77.7 mm"}],"lead":"19.3 mm","trail":"11.1 mm"},"unit":"{{unit}}","paper":"{{paper}}","allow":{"start":"13.3 mm"} }""");
        using var print = PdfDocument.Open(WorksheetPdf.Render(worksheet, rule: false));
        Assert.Equal(20, Rows(print).Count(r => r.Count == 10 && int.TryParse(r[0], out _)));

        var letters = print.GetPage(1).Letters;
        var text = string.Concat(letters.Select(l => l.Value));
        var (at, end) = (0, 0.0);
        foreach (var figure in worksheet.Result["figures"]!.AsArray().Select(f => f!["text"]!.GetValue<string>()))
        {
            at = text.IndexOf(figure, at, StringComparison.Ordinal);
            Assert.True(letters[at].BoundingBox.Left > end + 4, $"{figure} begins at {letters[at].BoundingBox.Left}, and the one before ends at {end}.");
            at += figure.Length;
            end = letters[at - 1].BoundingBox.Right;
        }
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

    [Fact] public void A_gauge_longer_than_the_paper_is_printed_in_pieces_that_overlap_at_register_marks()
    {
        // Nun's tucks of 5 in, 5 in between: the next crease stands at 15 in, 381 mm. A4 shows 178 mm, 15 mm of it again on the next piece.
        using var print = Printed(Examples.Object("""{"plan":{"groups":[{"tucks":2,"width":"5 in","space":"5 in"}]}}"""));
        var upright = print.GetPages().SelectMany(Lines).Where(l => Math.Abs(l.From.X - l.To.X) < 0.001).Select(l => (l.From.X / Millimetre) - 16).ToList();

        foreach (var (at, from) in ((double, double)[])[(127, 0), (254, 163), (381, 326)])
        {
            Assert.Contains(upright, x => Math.Abs(from + x - at) < 0.05);
        }

        foreach (var mark in (double[])[163 + 5, 163 + 10, 326 + 5, 326 + 10])
        {
            var before = mark < 300 ? 0 : 163;
            Assert.Contains(upright, x => Math.Abs(before + x - mark) < 0.05);
            Assert.Contains(upright, x => Math.Abs(before + 163 + x - mark) < 0.05);
        }

        Assert.Contains("paste its 3 pieces", string.Concat(print.GetPages().Select(p => p.Text)), StringComparison.Ordinal);
    }

    [Fact] public void A_rule_longer_than_three_metres_says_how_many_pages_and_waits_to_be_asked_for()
    {
        // 20 tucks of 4 in with 1 in between: 20 × 12 + 19 = 259 in, 6 578.6 mm. A piece adds 163 mm to the first 15: 40.3, so 41;
        // the first page holds 3, the others 4.
        var worksheet = Examples.Made("""{"plan":{"groups":[{"tucks":19,"width":"4 in","space":"1 in"},{"tucks":1,"width":"4 in"}],"between":["1 in"]}}""");
        var rule = worksheet.Result["rule"]!;
        Assert.Equal("259 in", rule["length"]!["text"]!.GetValue<string>());
        Assert.True(rule["needed"]!.GetValue<bool>());
        Assert.False(rule["inPrint"]!.GetValue<bool>());
        Assert.Equal(41, rule["pieces"]!.GetValue<int>());
        Assert.Equal(11, rule["pages"]!.GetValue<int>());
        Assert.Contains("41 pieces on 11 pages. It is longer than 3 m", rule["text"]!.GetValue<string>(), StringComparison.Ordinal);

        using var unasked = PdfDocument.Open(WorksheetPdf.Render(worksheet));
        using var asked = PdfDocument.Open(WorksheetPdf.Render(worksheet, rule: true));
        Assert.Equal(11, asked.NumberOfPages - unasked.NumberOfPages);

        var far = Examples.Made("""{"plan":{"groups":[{"tucks":1,"width":"1 in"}],"lead":"100 m"}}""");
        Assert.Equal("rule", Assert.Single(Assert.Throws<Sewing.FaultException>(() => WorksheetPdf.Render(far, rule: true)).Faults).Path);
    }

    [Fact] public void For_a_measured_printer_the_rule_comes_out_true()
    {
        var printer = Printer.Read(Examples.Object("""{"name":"upstairs","measured":"48 mm"}"""));
        var worksheet = Examples.Made(Examples.TowardsStart);
        using var print = PdfDocument.Open(WorksheetPdf.Render(worksheet, printer, rule: true));
        var page = print.GetPages().First(p => p.Text.Contains("Folding rule, piece", StringComparison.Ordinal));
        var paper = Lines(page).Where(l => Math.Abs(l.From.X - l.To.X) < 0.001).Select(l => ((l.From.X / Millimetre) - 16) * 48 / 50).ToList();

        // Folds at 2 1/4, 2 7/8, 4 1/2 in.
        Assert.All((double[])[57.15, 73.025, 114.3], fold => Assert.Contains(paper, x => Math.Abs(x - fold) < 0.05));
    }

    /// <summary>What stands on one line, from left to right, taken apart where nothing is between.</summary>
    private static IEnumerable<List<string>> Rows(PdfDocument print)
    {
        foreach (var line in print.GetPages().SelectMany(p => p.Letters.GroupBy(l => Math.Round(l.StartBaseLine.Y, 1))))
        {
            List<string> cells = [];
            var end = double.MinValue;
            foreach (var letter in line.OrderBy(l => l.StartBaseLine.X))
            {
                if (letter.StartBaseLine.X > end + 1)
                {
                    cells.Add("");
                }

                cells[^1] += letter.Value;
                end = letter.EndBaseLine.X;
            }

            yield return cells;
        }
    }

    private static PdfDocument Printed(JsonObject request) => PdfDocument.Open(WorksheetPdf.Render(Examples.Made(request)));

    private static IEnumerable<PdfSubpath.Line> Lines(Page page) =>
        page.Paths.SelectMany(p => p).SelectMany(s => s.Commands).OfType<PdfSubpath.Line>();
}
