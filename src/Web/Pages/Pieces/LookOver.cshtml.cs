using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A piece that is there already, looked over part by part: what is found new is added to its lists in one change.</summary>
[RequestFormLimits(ValueCountLimit = NewModel.MostFields)]
public sealed class LookOverModel(Archive archive, IndexFollower index, Drafts drafts) : DraftedPage(archive, index, drafts)
{
    private static readonly RecordType Shape = new([.. GarmentShape.Garment.Fields.Where(f => GarmentShape.EntryLists.Contains(f.Name))]);

    public Guid Id { get; private set; }

    public JsonObject State { get; private set; } = [];

    public string Name => State["name"]?.ToString() ?? "";

    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("table").Concat(Catalogue.Cautions.At("hands")).DistinctBy(c => c.Code);

    private string DraftForm => $"{Id}:look-over";

    private string DraftOf => T($"looking over “{Name}”");

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        await TakeUp(DraftForm, DraftOf, Shape, ct);
        return Page();
    }

    public async Task<IActionResult> OnPost([FromRoute] Guid id, CancellationToken ct)
    {
        if (!await Load(id, ct))
        {
            return NotFound();
        }

        if (await Press(DraftForm, DraftOf, Shape, State, ct) is { } pressed)
        {
            return pressed;
        }

        return await SaveDrafted(() => Add(id, ct), ct)
            ? ToPiece(id)
            : Refused();
    }

    // New rows take nobody's place: where somebody saved in between, they come after what is there by now.
    private async Task<(Guid, long)> Add(Guid id, CancellationToken ct)
    {
        while (true)
        {
            try
            {
                return (id, (await Archive.Change(id, Version, Added(), Who, ct)).Position);
            }
            catch (StaleException) when (!ct.IsCancellationRequested)
            {
                await Load(id, ct);
            }
        }
    }

    protected override Task<Form> Begin(CancellationToken ct) => Task.FromResult(new Form([]) { Garment = State });

    // The record counts the new rows after those it has; the form counts them alone.
    private PageResult Refused()
    {
        Form.Faults = [.. Form.Faults.Select(f => Paths.Split(f.Path) is [string list, int place, ..] && place >= Recorded(list)
            ? f with { Path = $"{list}[{place - Recorded(list)}]{f.Path[(f.Path.IndexOf(']', StringComparison.Ordinal) + 1)..]}" }
            : f)];
        return Page();
    }

    private int Recorded(string list) => (State[list] as JsonArray)?.Count ?? 0;

    /// <summary>The lists as they are recorded, with the new rows at their ends: a merge patch replaces a list whole.</summary>
    private JsonObject Added()
    {
        var patch = new JsonObject();
        foreach (var (name, rows) in Form.Values)
        {
            patch[name] = new JsonArray([.. (State[name] as JsonArray ?? []).Concat(rows as JsonArray ?? []).Select(e => e?.DeepClone())]);
        }

        return patch;
    }

    private async Task<bool> Load(Guid id, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment)
        {
            return false;
        }

        (Id, State, Version) = (id, garment.State(), garment.Version);
        return true;
    }
}
