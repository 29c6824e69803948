using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue.Lessons;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Lessons;

/// <summary>A piece to be fetched for a lesson, and what stands against it.</summary>
/// <param name="Id">The piece's id.</param>
/// <param name="Number">Its number, or empty.</param>
/// <param name="Name">Its name.</param>
/// <param name="Shelf">Where it is kept (private).</param>
/// <param name="Box">Where it is kept (private).</param>
/// <param name="Handling">In words.</param>
/// <param name="Whereabouts">In words.</param>
/// <param name="Stays">Why it can't go to the class; empty when it can.</param>
/// <param name="Care">What to mind when it goes.</param>
public sealed record FetchView(
    string Id, string Number, string Name, string Shelf, string Box, string Handling, string Whereabouts, IReadOnlyList<string> Stays, IReadOnlyList<string> Care)
{
    /// <summary>The pieces of a lesson that are to be there themselves: not those of which a photograph or a sample is shown. In the order of shelf, box and number.</summary>
    public static IReadOnlyList<FetchView> Of(IReadOnlyList<Shown> shown) =>
    [
        .. shown.Where(s => s.Piece is not null && s.Entry["show"]?.ToString() is not ("photograph" or "sample") && s.List != "pictures")
            .Select(s => s.Piece!).DistinctBy(p => p["id"]!.ToString()).Select(Of)
            .OrderBy(p => p.Shelf, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Box, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Number, StringComparer.OrdinalIgnoreCase),
    ];

    private static FetchView Of(JsonObject piece)
    {
        var (handling, at) = (piece["handling"]?.ToString(), piece["whereabouts"]?["is"]?.ToString() ?? "here");
        return new(piece["id"]!.ToString(), piece["number"]?.ToString() ?? "", piece["name"]?.ToString() ?? "",
            piece["place"]?["shelf"]?.ToString() ?? "", piece["place"]?["box"]?.ToString() ?? "",
            handling is null ? T("Not decided") : Say.Plain(handling), Say.Plain(at), [.. Against(piece, handling, at)], [.. Mind(piece, handling)]);
    }

    private static IEnumerable<string> Against(JsonObject piece, string? handling, string at)
    {
        if (piece["setAside"] is JsonObject)
        {
            yield return T("its entry is set aside");
        }

        if (at is not ("here" or "borrowed"))
        {
            yield return T($"it is not here: {Say.Plain(at).ToLowerInvariant()}");
        }

        if (handling == "keep-apart")
        {
            yield return T("it is kept apart: never in class, nor near the other pieces");
        }

        if (handling == "photograph-only")
        {
            yield return T("it may not be handled: show its photograph");
        }

        foreach (var finding in Findings(piece).Where(f => f["attention"]?.ToString() == "before-handling"))
        {
            yield return T($"to be seen to before it is handled: {Say.Entry("condition", finding).ToLowerInvariant()}");
        }
    }

    private static IEnumerable<string> Mind(JsonObject piece, string? handling)
    {
        if (handling is null)
        {
            yield return T("how it may be handled is not written down: look it over first");
        }

        if (handling == "teacher-only")
        {
            yield return T("only the teacher handles it; pupils look");
        }

        if (handling == "show-flat")
        {
            yield return T("it stays flat on its board; nobody lifts it");
        }

        if (piece["overall"]?.ToString() is "weak" or "fragile")
        {
            yield return piece["overall"]!.ToString() == "weak" ? T("it is weak") : T("it is fragile");
        }

        if (Findings(piece).Any(f => f["what"]?.ToString() == "pin-or-needle-found"))
        {
            yield return T("a pin or needle was found in it: look and feel before anybody else does");
        }
    }

    private static IEnumerable<JsonObject> Findings(JsonObject piece) =>
        (piece["condition"] as JsonArray ?? []).OfType<JsonObject>().Where(f => f["ended"] is null);
}
