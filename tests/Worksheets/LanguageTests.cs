using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HeirloomArchive.Sewing.Language;
using UglyToad.PdfPig;

namespace HeirloomArchive.Worksheets.Tests;

public partial class LanguageTests
{
    [Fact] public void A_worksheet_and_its_print_keep_the_language_they_were_made_in()
    {
        var worksheet = InMadeUp(() => Examples.Made(Examples.Five()));
        var file = WorksheetPdf.Render(worksheet);

        Assert.Equal(Languages.MadeUp, worksheet.Language);
        Assert.Contains($"/Lang({Languages.MadeUp})", Encoding.Latin1.GetString(file), StringComparison.Ordinal);
        Assert.Equal(file, InMadeUp(() => WorksheetPdf.Render(worksheet)));
        using var print = PdfDocument.Open(file);
        Assert.All(print.GetPages(), page => Assert.Contains("‹paágeé", string.Concat(page.Letters.Select(l => l.Value)), StringComparison.Ordinal));
        var english = Examples.Made(Examples.Five());
        Assert.Equal(WorksheetPdf.Render(english), InMadeUp(() => WorksheetPdf.Render(english)));
    }

    /// <summary>A language says more than English in the same room.</summary>
    [Fact] public void The_heading_of_the_table_is_whole_however_long_it_is()
    {
        var worksheet = InMadeUp(() => Examples.Made(Examples.Five("""{"allow":{"start":"12 29/64 in","shaping":"1 in"}}""")));
        using var print = PdfDocument.Open(WorksheetPdf.Render(worksheet));
        var said = worksheet.Result["positions"]!["fromCutEdge"]!.GetValue<string>();
        Assert.Contains(Squeezed(said), Squeezed(string.Concat(print.GetPages().SelectMany(p => p.Letters).Select(l => l.Value))), StringComparison.Ordinal);

        static string Squeezed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
    }

    [Theory]
    [InlineData("""{"garment":"018f3c3e-0000-7000-8000-000000000014","techniques":["pin","lace"],"plan":{"groups":[{"tucks":5,"width":"1/8 in","space":"1/4 in"}],"lead":"2 in","trail":"2 in"},"trims":[{"technique":"lace","edge":"30 in","corners":4}],"allow":{"start":"1/2 in","bottom":"1 in","shaping":"1/4 in"},"cloth":{"width":"5 in","foldsAlong":"warp","shrunk":false},"alike":3}""")]
    [InlineData("""{"sections":[{"plan":{"groups":[{"tucks":2,"width":"1/8 in","space":"0 in"},{"tucks":1,"width":"1/4 in"}],"between":["1 in"],"lead":"1 in","trail":"1 in"}},{"insertion":{"width":"1 in","laidOn":true}},{"insertion":{"width":"1/2 in","laidOn":false}}],"mirrored":true,"marking":"ruler","unit":"mm"}""")]
    [InlineData("""{"plan":{"groups":[{"tucks":6,"width":"3 mm","foldToFold":"8 mm"}],"lead":"1 cm","trail":"1 cm","twinNeedle":true,"testStrip":{"tucks":5,"sewnWidth":"3 mm","width":"3 mm","flat":"20 cm","finished":"19 cm"}},"thread":"No 100","needle":"Twin 2.0"}""")]
    public void Every_sentence_of_a_worksheet_is_ready_for_translation(string request)
    {
        var worksheet = InMadeUp(() => Examples.Made(request));
        var left = Said(worksheet.Result, "").Concat(Said(worksheet.Cautions, "")).Where(s => Words().IsMatch(Unmarked(s.Text))).ToList();

        Assert.True(left.Count == 0, string.Join('\n', left));
        Assert.Contains('‹', worksheet.Result["steps"]![0]!["text"]!.GetValue<string>());
    }

    // What the record says, and where it was read, stays as it is.
    private static IEnumerable<(string Path, string Text)> Said(JsonNode? node, string path) => node switch
    {
        JsonObject o => o.Where(m => m.Key is not ("note" or "plan" or "name") && !(m.Key == "source" && path.Length > 0)).SelectMany(m => Said(m.Value, $"{path}/{m.Key}")),
        JsonArray a => a.SelectMany(n => Said(n, path + "/")),
        JsonValue v when v.TryGetValue<string>(out var text) => [(path, text)],
        _ => [],
    };

    private static string Unmarked(string text)
    {
        for (var before = ""; before != text;)
        {
            (before, text) = (text, Marked().Replace(text, ""));
        }

        return text;
    }

    private static TAnswer InMadeUp<TAnswer>(Func<TAnswer> work)
    {
        var before = CultureInfo.CurrentUICulture;
        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(Languages.MadeUp);
        try
        {
            return work();
        }
        finally
        {
            CultureInfo.CurrentUICulture = before;
        }
    }

    [GeneratedRegex("‹[^‹›]*›")]
    private static partial Regex Marked();

    // Two words: one alone is a name for programs.
    [GeneratedRegex(@"\p{L}{2,} \p{L}{2,}")]
    private static partial Regex Words();
}
