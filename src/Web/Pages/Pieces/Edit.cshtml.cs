using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>The garment's own fields, changed.</summary>
public sealed class EditModel(Archive archive, IndexFollower index) : FormPage(archive, index)
{
    private static readonly RecordType Shape = new(MainFields.All);

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public async Task<IActionResult> OnGet(Guid id, CancellationToken ct)
    {
        if (await Load(id, ct) is not { } garment)
        {
            return NotFound();
        }

        (Form, Version) = (Form.Of(garment.State()), garment.Version);
        return Page();
    }

    public async Task<IActionResult> OnPost([FromRoute] Guid id, CancellationToken ct)
    {
        if (await Load(id, ct) is null)
        {
            return NotFound();
        }

        if (Rearranges(Shape))
        {
            return Page();
        }

        return await Save(async () =>
        {
            var saved = await Archive.Change(id, Version, WholeForm.AsPatch(Form.Values, MainFields.All), Who, ct);
            return (id, saved.Position);
        })
            ? ToPiece(id)
            : Page();
    }

    private async Task<Garment?> Load(Guid id, CancellationToken ct)
    {
        var garment = await Archive.Find(id, ct);
        (Id, Name) = (id, garment?.Name ?? "");
        return garment;
    }
}
