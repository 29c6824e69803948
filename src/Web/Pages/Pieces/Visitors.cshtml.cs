using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Hosting;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>Whether a piece is shown to visitors: what they see, and the decision.</summary>
public sealed class VisitorsModel(Archive archive, ArchiveSettings settings, Search.IndexFollower index) : PageModel
{
    public Guid Id { get; private set; }

    public long Version { get; private set; }

    public bool IsShown { get; private set; }

    /// <summary>Whether somebody has changed the piece since it was shown here: she is to see what would be shown before she decides.</summary>
    public bool Changed { get; private set; }

    public bool VisitorsCome => settings.Access.Visitors;

    /// <summary>Exactly what a visitor is answered.</summary>
    public JsonObject Sees { get; private set; } = [];

    public string[] Lists { get; } = ["techniques", "pictures", "version"];

    public IEnumerable<JsonObject> Techniques => (Sees["techniques"] as JsonArray ?? []).OfType<JsonObject>();

    public IReadOnlyList<JsonObject> Pictures => [.. (Sees["pictures"] as JsonArray ?? []).OfType<JsonObject>()];

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (await archive.Find(id, ct) is not { } garment)
        {
            return NotFound();
        }

        (Id, Version, IsShown, Sees) = (id, garment.Version, garment.IsForVisitors, garment.State(Sight.Shown));
        return Page();
    }

    public async Task<IActionResult> OnPost(Guid id, long version, string? show, [FromServices] Book book, CancellationToken ct)
    {
        try
        {
            var saved = await archive.ShowToVisitors(id, version, show == "yes", Versions.Who, ct);
            await index.Refresh(id, saved.Position);
            await book.Write(HttpContext, show == "yes" ? Deeds.ShowedToVisitors : Deeds.HidFromVisitors, id.ToString());
        }
        catch (StaleException)
        {
            (Changed, Response.StatusCode) = (true, StatusCodes.Status412PreconditionFailed);
            return await OnGet(id, ct);
        }
        catch (Exception e) when (e is NotFoundException or SetAsideException)
        {
            return NotFound();
        }

        return Redirect($"/pieces/{id}/visitors");
    }
}
