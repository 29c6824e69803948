using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace HeirloomArchive.Worksheets.Tests;

/// <summary>A hundred prints read back with another library: every line where the plan has it, all text, nothing in the margins.</summary>
public partial class ReadBackTests
{
    private const double Millimetre = 72 / 25.4, Margin = 16;

    private static readonly string Ink = "(0.122, 0.176, 0.212)", Thread = "(0.612, 0.259, 0.129)";

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 100)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_generated_worksheet_reads_back_as_it_was_planned(int seed)
    {
        var worksheet = Generated.Made(seed);
        var file = WorksheetPdf.Render(worksheet, rule: true);
        using var print = PdfDocument.Open(file);
        var pages = print.GetPages().ToList();
        var lines = pages.SelectMany(p => Lines(p)).ToList();

        ControlMarksMeasureTrue(lines, pages);
        TheRuleHasEveryLine(worksheet, pages, lines);
        TheDiagramHasEveryLine(worksheet, pages, lines);
        AllTextIsThere(worksheet, pages);
        NothingLeavesTheMargins(pages);
        Assert.All(pages, p => Assert.Contains($"page {p.Number} of {pages.Count}", p.Text.Replace("\u00a0", " ", StringComparison.Ordinal), StringComparison.Ordinal));
    }

    private static void ControlMarksMeasureTrue(List<Drawn> lines, List<Page> pages)
    {
        var at = Assert.Single(pages, p => string.Concat(p.Letters.Select(l => l.Value)).Contains("Is it true size?", StringComparison.Ordinal)).Number;
        var across = lines.Where(l => l.Page == at && l.Flat).Select(l => l.Long).ToList();
        Assert.Contains(across, l => Math.Abs(l - 50) < 0.05);
        Assert.Contains(across, l => Math.Abs(l - 50.8) < 0.05);
    }

    private static void TheRuleHasEveryLine(Worksheet worksheet, List<Page> pages, List<Drawn> lines)
    {
        var before = Mm(worksheet.Result["piece"]!["startEdge"]);
        var folds = Tucks(worksheet).Select(t => before + Mm(t["fold"])).ToList();
        var stitches = Tucks(worksheet).SelectMany(t => (double[])[before + Mm(t["firstStitch"]), before + Mm(t["secondStitch"])]).ToList();
        var pieces = pages.SelectMany(p => Captions(p, PieceCaption())).ToList();
        var rule = worksheet.Result["rule"]!;
        Assert.Equal(rule["pieces"]!.GetValue<int>(), pieces.Count);
        Assert.Equal(rule["pages"]!.GetValue<int>(), pieces.Select(p => p.Page).Distinct().Count());
        foreach (var (page, y, caption) in pieces)
        {
            var (from, to) = (Number(caption.Groups["from"]), Number(caption.Groups["to"]));
            var here = lines.Where(l => l.Page == page && l.Upright && l.Top < y && l.Top > y - 8).ToList();
            var drawnFolds = here.Where(l => l.Colour == Ink && l.Width < 0.55).Select(l => from + l.X - Margin).ToList();
            var drawnStitches = here.Where(l => l.Colour == Thread).Select(l => from + l.X - Margin).ToList();
            Alike(folds, drawnFolds, from, to);
            Alike(stitches, drawnStitches, from, to);
        }

        // The last piece ends at the cut edge, so that the pieces together show the whole.
        Assert.Equal(Mm(worksheet.Result["piece"]!["along"]), Number(pieces[^1].Caption.Groups["to"]), 0.06);
    }

    private static void Alike(List<double> planned, List<double> drawn, double from, double to)
    {
        foreach (var at in planned.Where(p => p > from + 0.1 && p < to - 0.1))
        {
            Assert.Contains(drawn, d => Math.Abs(d - at) <= 0.1);
        }

        Assert.All(drawn, d => Assert.Contains(planned, p => Math.Abs(d - p) <= 0.1));
        Assert.InRange(drawn.Count, planned.Count(p => p > from + 0.1 && p < to - 0.1), planned.Count(p => p > from - 0.1 && p < to + 0.1));
    }

    private static void TheDiagramHasEveryLine(Worksheet worksheet, List<Page> pages, List<Drawn> lines)
    {
        var folds = Tucks(worksheet).Select(t => Mm(t["fold"])).ToList();
        var stitches = Tucks(worksheet).SelectMany(t => (double[])[Mm(t["firstStitch"]), Mm(t["secondStitch"])]).Order().ToList();
        var (fold, stitch) = (0, 0);
        foreach (var (page, y, _) in pages.SelectMany(p => Captions(p, StripCaption())))
        {
            var here = lines.Where(l => l.Page == page && l.Upright && l.Top < y && l.Top > y - 20 && Math.Abs(l.Long - 17) < 0.05).ToList();
            var insertions = worksheet.Result["sections"] is null ? [] : Insertions(worksheet).ToList();
            var drawnStitches = here.Where(l => l.Colour == Thread).Select(l => l.X).Order().ToList();
            var scale = drawnStitches.Count < 2 ? 1 : (drawnStitches[^1] - drawnStitches[0]) / (stitches[stitch + drawnStitches.Count - 1] - stitches[stitch]);
            for (var i = 1; i < drawnStitches.Count; i++)
            {
                Assert.Equal((stitches[stitch + i] - stitches[stitch]) * scale, drawnStitches[i] - drawnStitches[0], 0.1);
            }

            // Edges of insertions are drawn as finely as the lines to follow.
            var zero = drawnStitches.Count > 0 ? drawnStitches[0] - (stitches[stitch] * scale) : 0;
            var drawnFolds = here.Where(l => l.Colour == Ink).Select(l => l.X).Where(x => !insertions.Any(i => Math.Abs(zero + (i * scale) - x) < 0.05)
                || folds.Any(f => Math.Abs(zero + (f * scale) - x) < 0.05)).Order().ToList();
            Assert.All(drawnFolds, x => Assert.Contains(folds, f => Math.Abs(zero + (f * scale) - x) <= 0.1));
            (fold, stitch) = (fold + drawnFolds.Count, stitch + drawnStitches.Count);
        }

        Assert.Equal(stitches.Count, stitch);
        Assert.Equal(folds.Count, fold);
    }

    private static void AllTextIsThere(Worksheet worksheet, List<Page> pages)
    {
        var foot = 22 * Millimetre;
        var text = Squeezed(string.Concat(pages.SelectMany(p => p.Letters.Where(l => l.StartBaseLine.Y > foot - 1)).Select(l => l.Value)));
        var result = worksheet.Result;
        List<string?> all =
        [
            worksheet.Title, result["source"]!.GetValue<string>(), result["positions"]!["text"]!.GetValue<string>(), result["positions"]!["fromDatum"]!.GetValue<string>(), result["positions"]!["fromCutEdge"]!.GetValue<string>(), worksheet.Request["notes"]?.GetValue<string>(),
            .. Texts(worksheet.Cautions, "text"), .. Texts(worksheet.Cautions, "reason"), .. Texts(result["steps"], "text"), .. Texts(result["marking"], "text"),
            .. Texts(result["settings"], "text"), .. Texts(result["lace"], "text"), .. Texts(result["evidence"], "text"), .. Texts(result["evidence"], "is"),
            .. Plain(result["shopping"]), .. Plain(result["piece"]!["text"]), .. Plain(result["strip"]!["text"]), .. Plain(result["gaugeText"]),
            .. result["figures"]!.AsArray().Select(f => f!["text"]!.GetValue<string>()),
            .. result["gauges"]!.AsArray().SelectMany(g => (string[])[g!["title"]!.GetValue<string>(), .. Texts(g["notches"], "text")!]),
        ];
        foreach (var part in all.OfType<string>())
        {
            Assert.Contains(Squeezed(part), text, StringComparison.Ordinal);
        }

        foreach (var line in result["positions"]!["rows"]!.AsArray().SelectMany(r => r!["lines"]!.AsArray()))
        {
            Assert.Contains(Squeezed(Bare(line!["fromDatum"]!["text"]!.GetValue<string>()) + Bare(line["fromDatumBeside"]!.GetValue<string>())), text, StringComparison.Ordinal);
        }
    }

    private static void NothingLeavesTheMargins(List<Page> pages)
    {
        foreach (var page in pages)
        {
            var (left, right) = ((Margin - 0.5) * Millimetre, page.Width - ((Margin - 0.5) * Millimetre));
            var (bottom, top) = (12 * Millimetre, page.Height - ((Margin - 0.5) * Millimetre));
            Assert.All(page.Letters, l =>
            {
                Assert.InRange(l.BoundingBox.Left, left, right);
                Assert.InRange(l.BoundingBox.Right, left, right);
                Assert.InRange(l.StartBaseLine.Y, bottom, top);
            });
            Assert.All(page.Paths.Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>(), b =>
            {
                Assert.InRange(b.Left, left, right);
                Assert.InRange(b.Right, left, right);
                Assert.InRange(b.Bottom, bottom, top);
                Assert.InRange(b.Top, bottom, top);
            });
        }
    }

    /// <summary>A straight line in millimetres, y from the foot of the page.</summary>
    private sealed record Drawn(int Page, double X, double Top, double Long, bool Flat, bool Upright, string Colour, double Width);

    private static IEnumerable<Drawn> Lines(Page page) => page.Paths.Where(p => p.IsStroked).SelectMany(p => p.SelectMany(s => s.Commands.OfType<PdfSubpath.Line>())
        .Select(l => new Drawn(
            page.Number, Math.Min(l.From.X, l.To.X) / Millimetre, Math.Max(l.From.Y, l.To.Y) / Millimetre,
            Math.Max(Math.Abs(l.From.X - l.To.X), Math.Abs(l.From.Y - l.To.Y)) / Millimetre,
            Math.Abs(l.From.Y - l.To.Y) < 0.001, Math.Abs(l.From.X - l.To.X) < 0.001, Colour(p.StrokeColor), p.LineWidth)));

    private static string Colour(UglyToad.PdfPig.Graphics.Colors.IColor? colour)
    {
        if (colour is null)
        {
            return "";
        }

        var (r, g, b) = colour.ToRGBValues();
        return string.Create(CultureInfo.InvariantCulture, $"({r:0.000}, {g:0.000}, {b:0.000})");
    }

    /// <summary>Lines of text that read so, with the height of their baseline.</summary>
    private static IEnumerable<(int Page, double Y, Match Caption)> Captions(Page page, Regex what) => page.Letters
        .GroupBy(l => Math.Round(l.StartBaseLine.Y, 1)).OrderByDescending(g => g.Key)
        .SelectMany(g => what.Matches(string.Concat(g.OrderBy(l => l.StartBaseLine.X).Select(l => l.Value))).Select(m => (page.Number, g.Key / Millimetre, m)));

    private static IEnumerable<JsonNode> Tucks(Worksheet worksheet) => (worksheet.Result["lines"] ?? worksheet.Result["plan"]!["lines"])!.AsArray().OfType<JsonNode>();

    private static IEnumerable<double> Insertions(Worksheet worksheet) => worksheet.Result["sections"]!.AsArray()
        .Where(s => s!["insertion"] is not null).SelectMany(s => (double[])[Mm(s!["flatFrom"]), Mm(s["flatTo"])]);

    private static double Mm(JsonNode? length) => length!["mm"]!.GetValue<double>();

    private static double Number(Group group) => double.Parse(group.Value, CultureInfo.InvariantCulture);

    private static IEnumerable<string?> Texts(JsonNode? list, string name) => list is null ? [] : list.AsArray().Select(e => e![name]?.GetValue<string>());

    private static IEnumerable<string> Plain(JsonNode? list) => list!.AsArray().Select(t => t!.GetValue<string>());

    private static string Bare(string length) => length[..length.LastIndexOf(' ')];

    private static string Squeezed(string text) => Blanks().Replace(text.Replace("″", "\"", StringComparison.Ordinal), "");

    [GeneratedRegex(@"Folding ?rule, ?piece ?\d+ ?of ?\d+: ?(?<from>[\d.]+) ?mm ?to ?(?<to>[\d.]+) ?mm")]
    private static partial Regex PieceCaption();

    [GeneratedRegex("The ?flat ?cloth")]
    private static partial Regex StripCaption();

    [GeneratedRegex(@"\s")]
    private static partial Regex Blanks();
}
