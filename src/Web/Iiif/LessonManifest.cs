using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Pictures.Regions;
using HeirloomArchive.Web.Pages.Lessons;
using Marten;

namespace HeirloomArchive.Web.Iiif;

/// <summary>A lesson's pictures in its order, as a manifest: of each entry the picture that stands for it, of a whole piece all of them.</summary>
public static class LessonManifest
{
    internal static async Task<IResult> Answer(Guid id, HttpContext http, LessonBook book, Archive archive, RegionKeeping keeping, IDocumentStore documents, CancellationToken ct)
    {
        IiifAnswers.Cors(http);
        var lesson = await book.Find(id, ct) ?? throw new NotFoundException($"No lesson has the id {id}.");
        var canvases = new List<CanvasView>();
        foreach (var (entry, view) in lesson.Entries.Zip(await LessonEntryView.All(book, documents, lesson, places: null, ct)))
        {
            if (entry["garment"] is not { } piece || view.Picture is null || await archive.Find(Guid.Parse(piece.ToString()), ct) is not { } garment)
            {
                continue;
            }

            var whole = !LessonShape.Lists.Keys.Any(entry.ContainsKey);
            canvases.AddRange(GarmentManifest.Canvases(garment, garment.State(), await keeping.OfGarment(garment, ct: ct)).Where(c => whole || c.Picture.ToString() == view.Picture));
        }

        if (canvases.Count == 0)
        {
            throw new NotFoundException("The lesson shows no pictures yet, and a manifest has at least one.");
        }

        var site = IiifAnswers.Site(http.Request);
        (string, string)[] told = [("For whom", lesson.Fields["level"]?.ToString() ?? ""), ("How long", lesson.Fields["time"]?.ToString() ?? "")];

        // A picture that two entries show is one canvas.
        var manifest = new ManifestView($"{site}/iiif/lessons/{id}/manifest", lesson.Name, null, [.. told.Where(t => t.Item2.Length > 0)], $"{site}/lessons/{id}", [.. canvases.DistinctBy(c => c.Picture)]);
        return IiifAnswers.Linked(http, new Presentation(site).Manifest(manifest), Presentation.Context);
    }
}
