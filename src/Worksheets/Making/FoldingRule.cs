using System.Text.Json.Nodes;
using HeirloomArchive.Sewing;
using HeirloomArchive.Worksheets.Asking;
using HeirloomArchive.Worksheets.Drawing;

namespace HeirloomArchive.Worksheets.Making;

/// <summary>The folding rule: all lines at true size, from cut edge to cut edge. Printed unasked where one notched gauge does not serve.</summary>
internal static class FoldingRule
{
    public static JsonObject Of(Whole whole, WorksheetRequest request, Rounding rounding)
    {
        var length = Cutting.Along(whole, request.Allow);
        var paper = PaperSize.Of(request.Paper, request.Landscape);
        var pieces = TrueSize.Count((double)length.Millimetres, paper.Room);
        var pages = TrueSize.Pages(pieces, paper);
        var needed = !(whole.Parts is [{ Run.IsEven: true }]) && length > Length.Zero;
        var tooLong = (double)length.Millimetres > TrueSize.LongestUnasked;
        return new JsonObject
        {
            ["length"] = rounding.Exact(length),
            ["pieces"] = pieces,
            ["pages"] = pages,
            ["needed"] = needed,
            ["inPrint"] = needed && !tooLong,
            ["text"] = string.Join(" ", Texts().Where(t => t.Length > 0)),
        };

        IEnumerable<string> Texts()
        {
            var (cut, on) = (N(pieces, $"{pieces} piece", $"{pieces} pieces"), N(pages, $"{pages} page", $"{pages} pages"));
            yield return T($"The folding rule shows every line at true size: {rounding.Both(length)} long, {cut} on {on}.");
            yield return pages > TrueSize.MostPages ? T("That is too long for paper; mark from the table.")
                : needed && tooLong ? T("It is longer than 3 m, so it is printed only if you ask for it.") : "";
        }
    }
}
