using System.Text.Json.Nodes;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>A worksheet as it was made.</summary>
public sealed class SheetModel(IDocumentStore documents) : PageModel
{
    public Worksheet Sheet { get; private set; } = null!;

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        await using var session = documents.QuerySession();
        if (await session.LoadAsync<Worksheet>(id, ct) is not { } sheet)
        {
            return NotFound();
        }

        Sheet = sheet;
        return Page();
    }

    public IReadOnlyList<JsonObject> List(string name) => [.. (Sheet.Result[name] as JsonArray ?? []).OfType<JsonObject>()];

    public IEnumerable<string> Strings(string name) => (Sheet.Result[name] as JsonArray ?? []).OfType<JsonValue>().Select(v => v.ToString());

    public IEnumerable<string> Texts(string name) => (Sheet.Result[name]?["text"] as JsonArray ?? []).OfType<JsonValue>().Select(v => v.ToString());
}
