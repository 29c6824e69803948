using HeirloomArchive.Catalogue;
using HeirloomArchive.Search;
using HeirloomArchive.Web.Pages.Forms;
using HeirloomArchive.Web.Pages.Reading;
using Microsoft.AspNetCore.Mvc;

namespace HeirloomArchive.Web.Pages.Pieces;

/// <summary>A piece as it was at a version, beside how it is now; one field of it or all of it is put back from here.</summary>
public sealed class VersionModel(Archive archive, IndexFollower index, Past past) : FormPage(archive, index)
{
    private Garment now = new();

    public Guid Id { get; private set; }

    public long To { get; private set; }

    public string Name => now.Name;

    public bool Aside => now.IsAside;

    public string When { get; private set; } = "";

    /// <summary>The garment's fields that differ, in the order of the table; of each, every place within it.</summary>
    public IReadOnlyList<(string Name, string Label, IReadOnlyList<(string Where, string Then, string Now)> Lines)> Fields { get; private set; } = [];

    public async Task<IActionResult> OnGet(Guid id, long to, CancellationToken ct) => await Load(id, to, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPost([FromRoute] Guid id, [FromRoute] long to, long version, string? field, CancellationToken ct)
    {
        if (!await Load(id, to, ct))
        {
            return NotFound();
        }

        if (await Save(async () => (id, (await Archive.PutBack(id, version, to, field, Who, ct)).Position)))
        {
            return field is null ? ToPiece(id) : Redirect($"/pieces/{id}/history");
        }

        await Load(id, to, ct);
        return Page();
    }

    private async Task<bool> Load(Guid id, long to, CancellationToken ct)
    {
        if (await Archive.Find(id, ct) is not { } garment || await past.At(id, to, ct) is not { } then)
        {
            return false;
        }

        (now, Id, To, Version, When) = (garment, id, to, garment.Version, Say.When(then.Changed.ToString("O", System.Globalization.CultureInfo.InvariantCulture)));
        Viewer.Now.Sight.Trim(then.Fields);
        Viewer.Now.Sight.Trim(now.Fields);
        Fields =
        [
            .. GarmentShape.Garment.Fields.Select(f => (f.Name, ChangeWords.Place(f.Name), Lines(f, then)))
                .Where(f => f.Item3.Count > 0),
        ];
        return true;
    }

    private IReadOnlyList<(string, string, string)> Lines(Field field, Garment then) =>
    [
        .. Differences.Between(then.Fields[field.Name], now.Fields[field.Name], field.Name).Select(d =>
        {
            // The place of an entry that is gone counts in the record as it was.
            var at = ChangeWords.FieldAt(d.Path);
            return (ChangeWords.Place(d.Path, d.New is null && d.Path.EndsWith(']') ? then.Fields : now.Fields), ChangeWords.Value(at, d.Old, then.Fields), ChangeWords.Value(at, d.New, now.Fields));
        }),
    ];
}
