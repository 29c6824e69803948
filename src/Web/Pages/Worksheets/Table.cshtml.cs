using System.Text.Json.Nodes;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>A worksheet at the sewing table: one step at a time in big figures, for a telephone beside the machine. The ticks stay.</summary>
public sealed class TableModel(IDocumentStore documents) : SheetPage(documents)
{
    public IReadOnlyList<JsonObject> Steps => List("steps");

    /// <summary>The step shown, from 1.</summary>
    public int Number { get; private set; }

    public JsonObject Step => Steps[Number - 1];

    /// <summary>The lines of the tuck that the step sews, with their positions; none when it sews none.</summary>
    public IReadOnlyList<JsonObject> Lines =>
        Step["tuck"] is { } tuck && (Sheet.Result["positions"]!["rows"] as JsonArray)?.OfType<JsonObject>().FirstOrDefault(r => r["tuck"]!.ToString() == tuck.ToString()) is { } row
            ? [.. row["lines"]!.AsArray().OfType<JsonObject>()]
            : [];

    public async Task<IActionResult> OnGet(Guid id, int? step, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Number = step is { } asked && asked >= 1 && asked <= Steps.Count ? asked : Next;
        return Page();
    }

    public async Task<IActionResult> OnPost(Guid id, int step, bool done, CancellationToken ct)
    {
        if (!await Load(id, ct) || step < 1 || step > Steps.Count)
        {
            return NotFound();
        }

        await Tick(done ? [step] : [], done ? [] : [step], ct);
        return Redirect($"/worksheets/{id}/at-the-table?step={(done ? Math.Min(step + 1, Steps.Count) : step)}");
    }

    // The first step that is not done yet, or the last.
    private int Next => Enumerable.Range(1, Steps.Count).FirstOrDefault(n => !Done.Contains(n), Steps.Count);
}
