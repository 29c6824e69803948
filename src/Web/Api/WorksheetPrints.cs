using System.Globalization;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Web.Pages.Worksheets;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>What is printed of a worksheet: the sheet itself at true size, and the hand-out for a class.</summary>
public static class WorksheetPrints
{
    public static void MapWorksheetPrints(this IEndpointRouteBuilder app)
    {
        app.MapGet("/worksheets/{id:guid}.pdf", Print).WithTags("Worksheets")
            .WithSummary("Its print, at true size; printer: one that was measured, rule: true or false for the folding rule.");
        app.MapGet("/worksheets/{id:guid}/teaching.pdf", Teach).WithTags("Worksheets")
            .WithSummary("A hand-out with blanks; answers: true for the teacher's, pupils: how many are in the class.");
    }

    private static async Task<IResult> Print(Guid id, HttpContext http, IDocumentStore store, ShownOnPictures places, PrintPictures pictures, CancellationToken ct)
    {
        var worksheet = await WorksheetsApi.Find(id, store, ct);
        var rule = Asked.YesOrNo(http.Request, "rule");
        var printer = await PrinterOf(http.Request.Query["printer"].ToString(), store, ct);
        var close = await SheetPage.Copied(worksheet, places);
        var picture = await pictures.Of(close, worksheet.Result["picture"]?["id"]?.GetValue<string>(), ct);
        return Pdf(http, $"worksheet-{id}.pdf", WorksheetPdf.Render(worksheet, printer, picture, rule, close?.Alt));
    }

    private static async Task<IResult> Teach(Guid id, HttpContext http, IDocumentStore store, CancellationToken ct)
    {
        var worksheet = await WorksheetsApi.Find(id, store, ct);
        var answers = Asked.YesOrNo(http.Request, "answers") ?? false;
        var text = http.Request.Query["pupils"].ToString();
        int? pupils = text.Length == 0 ? null
            : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count
            : throw new FaultException("pupils", $"\"{text.Short()}\" is not a number of pupils, as in 12.", FaultKind.Unreadable);
        return Pdf(http, $"{(answers ? "answers" : "hand-out")}-{id}.pdf", WorksheetPdf.Teaching(worksheet, answers, pupils));
    }

    internal static IResult Pdf(HttpContext http, string name, byte[] bytes)
    {
        http.Response.Headers.ContentDisposition = $"inline; filename=\"{name}\"";
        return Results.Bytes(bytes, "application/pdf");
    }

    private static async Task<Printer?> PrinterOf(string asked, IDocumentStore store, CancellationToken ct)
    {
        if (asked.Length == 0)
        {
            return null;
        }

        if (!Guid.TryParse(asked, out var id))
        {
            throw new FaultException("printer", $"\"{asked.Short()}\" is not the id of a printer.", FaultKind.Unreadable);
        }

        await using var session = store.QuerySession();
        return await session.LoadAsync<Printer>(id, ct) ?? throw new NotFoundException($"No printer has the id {id}.");
    }
}
