using System.Text.Json.Nodes;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>A page about one worksheet, with its ticks.</summary>
public abstract class SheetPage(IDocumentStore documents) : PageModel
{
    public Worksheet Sheet { get; private set; } = null!;

    /// <summary>The steps ticked off.</summary>
    public IReadOnlySet<int> Done { get; private set; } = new HashSet<int>();

    protected IDocumentStore Documents => documents;

    /// <summary>The place on the original's pictures that is marked as showing what a worksheet copies; null where none is.</summary>
    public static async Task<CloseView?> Copied(Worksheet sheet, ShownOnPictures places)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(places);
        var request = sheet.Request;
        IEnumerable<JsonNode?> copied = [request["technique"], .. request["techniques"] as JsonArray ?? [], .. (request["sections"] as JsonArray ?? []).Select(s => (s as JsonObject)?["technique"])];
        return sheet.Garment is { } garment ? await places.Closest(garment.ToString(), "techniques", copied.Select(t => t?.ToString()).OfType<string>()) : null;
    }

    /// <summary>False when there is no such worksheet.</summary>
    protected async Task<bool> Load(Guid id, CancellationToken ct)
    {
        await using var session = documents.QuerySession();
        if (await session.LoadAsync<Worksheet>(id, ct) is not { } sheet)
        {
            return false;
        }

        Sheet = sheet;
        Done = (await session.LoadAsync<Ticks>(id, ct))?.Done.ToHashSet() ?? [];
        return true;
    }

    /// <summary>Ticks steps off, or takes ticks back; numbers that are no step are passed over.</summary>
    protected Task Tick(IEnumerable<int> done, IEnumerable<int> undone, CancellationToken ct)
    {
        var steps = Enumerable.Range(1, List("steps").Count).ToHashSet();
        var change = new TickChange(done.Where(steps.Contains).ToHashSet(), undone.Where(steps.Contains).ToHashSet());
        return documents.Tick(Sheet.Id, now => now.With(change), ct);
    }

    /// <summary>Keeps a new worksheet and shows it.</summary>
    protected async Task<RedirectResult> Made(Worksheet sheet, CancellationToken ct)
    {
        await documents.Keep(sheet, ct);
        return Redirect($"/worksheets/{sheet.Id}");
    }

    public IReadOnlyList<JsonObject> List(string name) => [.. (Sheet.Result[name] as JsonArray ?? []).OfType<JsonObject>()];

    public IEnumerable<string> Strings(string name) => (Sheet.Result[name] as JsonArray ?? []).OfType<JsonValue>().Select(Say.Sentence);

    public IEnumerable<string> Texts(string name) => (Sheet.Result[name]?["text"] as JsonArray ?? []).OfType<JsonValue>().Select(Say.Sentence);
}
