using System.Text.Json.Nodes;
using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>The garment's own fields, changed.</summary>
public sealed class EditModel(Archive archive, IndexFollower index, Drafts drafts, Past past) : DraftedPage(archive, index, drafts)
{
    private static readonly RecordType Shape = new(MainFields.All);

    private JsonObject state = [];

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    private string DraftForm => $"{Id}:edit";

    private string DraftOf => $"“{Name}”";

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (await Load(id, ct) is not { } garment)
        {
            return NotFound();
        }

        Version = garment.Version;
        await TakeUp(DraftForm, DraftOf, Shape, ct);
        return Page();
    }

    public async Task<IActionResult> OnPost([FromRoute] Guid id, CancellationToken ct)
    {
        if (await Load(id, ct) is null)
        {
            return NotFound();
        }

        if (await Press(DraftForm, DraftOf, Shape, null, ct) is { } pressed)
        {
            return pressed;
        }

        return await SaveDrafted(async () =>
        {
            var saved = await Archive.Change(id, Version, WholeForm.AsPatch(Form.Values, MainFields.All), Who, ct);
            return (id, saved.Position);
        }, ct, new Together(past, id, Shape, fields => fields))
            ? ToPiece(id)
            : Page();
    }

    protected override Task<Form> Begin(CancellationToken ct) => Task.FromResult(Form.Of(state));

    private async Task<Garment?> Load(Guid id, CancellationToken ct)
    {
        var garment = await Archive.Find(id, ct);
        (Id, Name, state) = (id, garment?.Name ?? "", garment?.State() ?? []);
        return garment;
    }
}
