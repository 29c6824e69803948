using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Lessons;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Api;

/// <summary>The hand-out of a lesson on paper.</summary>
public static class LessonPrints
{
    public static void MapLessonPrints(this IEndpointRouteBuilder app) => app.MapGet("/lessons/{id:guid}.pdf", Print)
        .WithTags("Lessons").WithSummary("The lesson's hand-out; paper: A4 or letter.");

    private static async Task<IResult> Print(Guid id, HttpContext http, LessonBook book, IDocumentStore store, ShownOnPictures places, PrintPictures pictures, CancellationToken ct)
    {
        var lesson = await book.Find(id, ct) ?? throw new NotFoundException($"No lesson has the id {id}.");
        var entries = new List<HandOutEntry>();
        foreach (var view in await LessonEntryView.All(book, store, lesson, places, ct))
        {
            entries.Add(new(view.Title, view.Of, Facts(view), view.Note)
            {
                Picture = await pictures.Of(view.Close, view.Picture, ct), Alt = view.Close?.Alt ?? view.Alt, Plan = view.Plan,
            });
        }

        string Text(string field) => lesson.Fields[field]?.ToString() ?? "";
        var under = string.Join(" · ", new[] { Text("level"), Text("time") }.Where(t => t.Length > 0));
        var handOut = new HandOut(id, lesson.Name, lesson.Changed, under, Text("eachNeeds"), entries, [.. HandOutModel.ForPupils.Select(c => (c.Text, c.Reason))]);
        var paper = http.Request.Query["paper"].ToString();
        return WorksheetPrints.Pdf(http, $"lesson-{id}.pdf", handOut.Print(paper.Length == 0 ? "A4" : paper));
    }

    private static IReadOnlyList<(string Label, string Text)> Facts(LessonEntryView view) =>
        [.. view.Facts.Facts, .. view.Measured is { } measured ? [(T("Measured over all"), measured)] : Array.Empty<(string, string)>()];
}
