using HeirloomArchive.Catalogue;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>A worksheet as it was made, and what stands beside it: the ticks, the printers, whether the record has moved on.</summary>
public sealed class SheetModel(Archive archive, IDocumentStore documents, ShownOnPictures places, TimeProvider clock) : SheetPage(documents)
{
    /// <summary>The version of the piece's record now, when it is not the one this was made from; null when nothing moved.</summary>
    public long? NowAt { get; private set; }

    /// <summary>The marked place that shows what is copied; null where none is.</summary>
    public CloseView? Close { get; private set; }

    /// <summary>How many times it has been made up.</summary>
    public int MadeUp { get; private set; }

    public IReadOnlyList<Printer> Printers { get; private set; } = [];

    /// <summary>The printer form, when what was typed can't stand.</summary>
    public Form Printing { get; private set; } = new([]);

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct) => await Load(id, ct) ? Page() : NotFound();

    /// <summary>Keeps the ticks that were made or taken back since the page was shown, when those of <paramref name="was"/> were there.</summary>
    public async Task<IActionResult> OnPostTicks(Guid id, int[] done, int[] was, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        await Tick(done.Except(was), was.Except(done), ct);
        return Redirect($"/worksheets/{id}#order");
    }

    /// <summary>A new worksheet of the same request, from the record as it is now; this one stays.</summary>
    public async Task<IActionResult> OnPostAgain(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct) || Sheet.Garment is not { } garment || await archive.Find(garment, ct) is not { } piece)
        {
            return NotFound();
        }

        try
        {
            return await Made(WorksheetMaker.Make(Sheet.Request, piece.State(), clock.GetUtcNow()), ct);
        }
        catch (FaultException)
        {
            // What was planned can't be made of what is recorded now: begin from the form.
            return Redirect($"/worksheets/new?garment={garment}&technique={Sheet.Request["technique"] ?? Sheet.Request["techniques"]?[0]}");
        }
    }

    public async Task<IActionResult> OnPostPrinter(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Printing = new(new() { ["name"] = Request.Form["name"].ToString(), ["measured"] = Request.Form["measured"].ToString() });
        try
        {
            var printer = Printer.Read(new() { ["name"] = Printing.Text("name"), ["measured"] = Printing.Text("measured") });
            await using var session = Documents.LightweightSession();
            session.Insert(printer);
            await session.SaveChangesAsync(ct);
            return Redirect($"/worksheets/{id}#print");
        }
        catch (FaultException e)
        {
            Printing.Faults = e.Faults;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }
    }

    private new async Task<bool> Load(Guid id, CancellationToken ct)
    {
        if (!await base.Load(id, ct))
        {
            return false;
        }

        await using var session = Documents.QuerySession();
        Printers = await session.Query<Printer>().OrderBy(p => p.Name).ThenBy(p => p.Id).ToListAsync(ct);
        MadeUp = await session.Query<MadeUp>().CountAsync(m => m.Worksheet == id, ct);
        Close = await Copied(Sheet, places);
        if (Sheet.Garment is { } garment && await archive.Find(garment, ct) is { } piece && piece.Version != Sheet.RecordVersion)
        {
            NowAt = piece.Version;
        }

        return true;
    }
}
