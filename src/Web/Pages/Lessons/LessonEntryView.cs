using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Catalogue.Dating;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Web.Pages.Worksheets;
using HeirloomArchive.Worksheets;
using Marten;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>An entry of a lesson as it is shown: on the page, beside the others, and on the hand-out. Nothing private is in it.</summary>
public sealed record LessonEntryView(string Id, string Title, string Of, string? To)
{
    /// <summary>Fields of a whole piece that pupils may see.</summary>
    private static readonly string[] OfPiece = ["made", "overall", "description", "materials", "measures"];

    public string Note { get; init; } = "";

    /// <summary><c>piece, photograph, sample</c>, or empty.</summary>
    public string Show { get; init; } = "";

    /// <summary>The id of the picture that stands for it, or null.</summary>
    public string? Picture { get; init; }

    /// <summary>The place that is marked as showing it: shown instead of the whole picture. Null where none is.</summary>
    public CloseView? Close { get; init; }

    /// <summary>How wide and high the picture is, in pixels, so that the page keeps its place; null where that is not known.</summary>
    public string? Width { get; init; }

    /// <inheritdoc cref="Width"/>
    public string? Height { get; init; }

    /// <summary>What the picture shows.</summary>
    public string Alt { get; init; } = "";

    /// <summary>The piece's kind, for the drawing that stands in for a picture.</summary>
    public string? Kind { get; init; }

    /// <summary>The recorded run, to be drawn to scale; null where it is none or can't be planned.</summary>
    public TuckPlan? Plan { get; init; }

    /// <summary>Groups of tucks in a line.</summary>
    public string Groups { get; init; } = "";

    /// <summary>What the measures of the run say together, or null.</summary>
    public string? Measured { get; init; }

    public FactsView Facts { get; init; } = new([]);

    /// <summary>What must be known before the piece is fetched, and that something has gone since.</summary>
    public IReadOnlyList<string> Marks { get; init; } = [];

    /// <summary>The ways an entry can be shown, with their names.</summary>
    public static IReadOnlyList<(string Value, string Label)> Ways => [("", T("Not decided")), ("piece", T("The piece itself")), ("photograph", T("A photograph of it")), ("sample", T("A stitched sample"))];

    /// <summary>All entries of a lesson in their order.</summary>
    /// <param name="book">Where lessons are.</param>
    /// <param name="documents">Where worksheets are.</param>
    /// <param name="lesson">Whose.</param>
    /// <param name="places">Where places are marked; null for whole pictures alone.</param>
    /// <param name="ct">Stops it.</param>
    public static async Task<IReadOnlyList<LessonEntryView>> All(LessonBook book, IDocumentStore documents, Lesson lesson, ShownOnPictures? places, CancellationToken ct)
    {
        var shown = await book.Look(lesson, ct: ct);
        await using var session = documents.QuerySession();
        var ids = shown.Select(s => s.Entry["worksheet"]?.ToString()).OfType<string>().Select(Guid.Parse).ToArray();
        var sheets = ids.Length == 0 ? [] : (await session.LoadManyAsync<Worksheet>(ct, ids)).ToDictionary(s => s.Id.ToString());
        List<LessonEntryView> views = [];
        foreach (var s in shown)
        {
            var view = s.Piece is null ? OfSheet(s.Entry, sheets) : OfPieceEntry(s);
            views.Add(places is null ? view : view with { Close = s.Piece is { } piece
                ? await places.Closest(piece["id"]!.ToString(), s.List, [s.What?["id"]?.ToString()])
                : sheets.GetValueOrDefault(s.Entry["worksheet"]?.ToString() ?? "") is { } sheet ? await SheetPage.Copied(sheet, places) : null });
        }

        return views;
    }

    private static LessonEntryView OfSheet(JsonObject entry, Dictionary<string, Worksheet> sheets)
    {
        if (!sheets.TryGetValue(entry["worksheet"]?.ToString() ?? "", out var sheet))
        {
            return Own(new(entry["id"]?.ToString() ?? "", T("Something that is no longer here"), "", null), entry);
        }

        var figures = (sheet.Result["figures"] as JsonArray ?? []).OfType<JsonObject>().Select(f => (Say.Capital(f["label"]!.ToString()), f["text"]!.ToString()));
        return Own(new(entry["id"]?.ToString() ?? "", sheet.Title, T($"Worksheet. {sheet.Result["source"]}"), $"/worksheets/{sheet.Id}")
        {
            Facts = new([.. figures]) { Across = true },
            Picture = sheet.Result["picture"]?["id"]?.ToString(), Alt = T("The original, as photographed"),
        }, entry);
    }

    private static LessonEntryView OfPieceEntry(Shown shown)
    {
        var (piece, what) = (shown.Piece!, shown.What);
        var name = piece["name"]?.ToString() ?? "";
        var dated = piece["dated"] is { } date ? DateInWords.Say(date.ToString()) : piece["datedText"]?.ToString() ?? "";
        var about = string.Join(", ", new[] { piece["number"]?.ToString() ?? "", Say.Word("kinds", piece["kind"]), dated }.Where(t => t.Length > 0));
        var pictures = (piece["pictures"] as JsonArray ?? []).OfType<JsonObject>().ToList();
        var picture = shown.List == "pictures" ? what
            : (what?["pictures"] as JsonArray ?? []).Select(id => pictures.Find(p => p["id"]?.ToString() == id?.ToString())).FirstOrDefault(p => p is not null) ?? pictures.FirstOrDefault();
        var view = new LessonEntryView(shown.Entry["id"]?.ToString() ?? "", shown.List.Length == 0 ? name : Say.Entry(shown.List, what ?? []),
            string.Join(" · ", new[] { shown.List.Length == 0 ? "" : name, about }.Where(t => t.Length > 0)),
            $"/pieces/{piece["id"]}{(shown.List is "" or "pictures" || shown.Gone ? "" : $"#{what?["id"]}")}")
        {
            Kind = piece["kind"]?.ToString(),
            Picture = picture?["id"]?.ToString(), Width = picture?["width"]?.ToString(), Height = picture?["height"]?.ToString(),
            Alt = picture is null ? "" : picture["caption"]?.ToString() is { Length: > 0 } caption ? caption : $"{name}: {(picture["view"] is { } from ? Say.Word("views", from).ToLowerInvariant() : T("a picture"))}",
            Marks = [.. TileView.MarksOf(piece), .. shown.Gone ? (string[])[T("Taken out of the record since; shown as it last stood")] : []],
        };
        return Own(What(view, shown.List, what, piece), shown.Entry);
    }

    private static LessonEntryView What(LessonEntryView view, string list, JsonObject? what, JsonObject piece) => (list, what) switch
    {
        ("techniques", { } technique) => view with
        {
            Plan = TuckDrawing.PlanOf(technique), Groups = Say.Groups(technique), Measured = RunMeasures.Of(technique),
            Facts = FactsView.Of(GarmentShape.Technique, technique, "kind", "tuckKind", "lace", "trim", "work", "part"),
        },
        ("condition", { } finding) => view with { Facts = FactsView.Of(GarmentShape.Finding, finding, "what", "part") },
        ("repairs", { } repair) => view with { Facts = FactsView.Of(GarmentShape.Repair, repair, "method", "part") },
        ("pictures", _) => view,
        _ => view with { Facts = FactsView.Of(GarmentShape.Garment.Fields.Where(f => OfPiece.Contains(f.Name)), piece) },
    };

    private static LessonEntryView Own(LessonEntryView view, JsonObject entry) =>
        view with { Note = entry["note"]?.ToString() ?? "", Show = entry["show"]?.ToString() ?? "" };
}
