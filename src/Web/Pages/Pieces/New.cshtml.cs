using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A new piece comes in: everything about it in one form.</summary>
public sealed class NewModel(Archive archive, IndexFollower index) : FormPage(archive, index)
{
    public IEnumerable<Caution> Cautions { get; } = Catalogue.Cautions.At("arrival").Concat(Catalogue.Cautions.At("table")).Concat(Catalogue.Cautions.At("hands")).DistinctBy(c => c.Code);

    // A new arrival stays apart until it was looked over for insects, mould and damp.
    public void OnGet() => Form = new(new() { ["handling"] = "keep-apart" });

    public async Task<IActionResult> OnPost(CancellationToken ct)
    {
        if (Rearranges(GarmentShape.Garment))
        {
            return Page();
        }

        var id = Guid.Empty;
        return await Save(async () =>
        {
            var saved = await Archive.Enter(Form.Values.DeepClone().AsObject(), Who, ct);
            return (id = saved.Garment.Id, saved.Position);
        })
            ? ToPiece(id)
            : Page();
    }
}
