using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Pictures;
using HeirloomArchive.Sewing;
using HeirloomArchive.Web.Api;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Worksheets;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Worksheets;

/// <summary>What came of a worksheet: each time it was made up, with the difference, and what corrects the next one.</summary>
[RequestSizeLimit(LargestUpload)]
[RequestFormLimits(MultipartBodyLengthLimit = LargestUpload)]
public sealed class MadeUpModel(Archive archive, IDocumentStore documents, PictureStore pictures, MadeUpKeeping keeping, TimeProvider clock) : SheetPage(documents)
{
    private const long LargestUpload = 100_000_000;

    /// <summary>Newest first, as the API answers them.</summary>
    public IReadOnlyList<JsonObject> Times { get; private set; } = [];

    public Form Form { get; private set; } = new([]);

    /// <summary>The strip's form, when what was typed can't stand; else null.</summary>
    public Form? Strip { get; private set; }

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Form = new(new() { ["date"] = clock.GetLocalNow().ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture) });
        return Page();
    }

    public async Task<IActionResult> OnPost(Guid id, IFormFile? file, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        var values = new JsonObject();
        foreach (var name in (string[])["date", "cloth", "finished", "note"])
        {
            if (Request.Form[name].ToString() is { Length: > 0 } text)
            {
                values[name] = text;
            }
        }

        Form = new(values);
        List<IncomingFile> incoming = [];
        try
        {
            if (file is { Length: > 0 })
            {
                await using var content = file.OpenReadStream();
                incoming.Add(await pictures.Receive(content, ct));
            }

            await keeping.Keep(Sheet, values, incoming, ct);
            return Redirect($"/worksheets/{id}/made-up");
        }
        catch (FaultException e)
        {
            Form.Faults = e.Faults;
        }
        catch (RefusedException e)
        {
            Form.Faults = [.. e.Refusals.Select(r => new Fault("file", r.Message))];
        }
        finally
        {
            incoming.ForEach(f => f.Dispose());
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    public async Task<IActionResult> OnPostStrip(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        Strip = new(FormReader.Read(Request.Form, new RecordType([new("testStrip", WorksheetForm.Strip)])));
        return await Correct(Strip, Strip.Values, ct);
    }

    /// <summary>The corrected worksheet by one time it was made up, as by a strip.</summary>
    public async Task<IActionResult> OnPostCorrect(Guid id, string time, CancellationToken ct)
    {
        if (!await Load(id, ct) || Times.FirstOrDefault(t => t["id"]!.ToString() == time)?["testStrip"] is not { } strip)
        {
            return NotFound();
        }

        return await Correct(Form, new() { ["testStrip"] = strip.DeepClone() }, ct);
    }

    private async Task<IActionResult> Correct(Form form, JsonObject body, CancellationToken ct)
    {
        try
        {
            var state = Sheet.Garment is { } garment ? (await archive.Find(garment, ct))?.State() : null;
            return await Made(Correction.Make(Sheet, body, state, clock.GetUtcNow()), ct);
        }
        catch (FaultException e)
        {
            form.Faults = e.Faults;
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
        Times = [.. (await session.Query<MadeUp>().Where(m => m.Worksheet == id).OrderByDescending(m => m.Id).ToListAsync(ct)).Select(m => m.ToJson(Sheet))];
        return true;
    }
}
